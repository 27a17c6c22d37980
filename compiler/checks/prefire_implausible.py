"""Every shell's prefire is one that a shell of its calibre can have.

Protects from
    `0.27 s` for `2.7 s`: every shell of that type seen two seconds late, and fired on top of what comes
    then.

How it is computed
    Prefire of every effect of kind `shell` in use, and of the shells of chains, against the usual
    lift-to-burst times of its calibre: from half the shortest to twice the longest. Between the
    calibres of the table they are interpolated; below and above it the bound grows with the calibre.
    A shell that states no prefire bursts at once by its data, and is told whatever its calibre.

Limit and source
    Typical lift-to-burst times of the trade, lift and time fuse (common practice; no published study was
    found): 64 mm 2.0 to 2.5 s, 76 mm 2.5 to 3.0 s, 102 mm 3.0 to 3.5 s, 127 mm 3.5 to 4.0 s, 152 mm 4.0
    to 4.5 s, 203 mm 4.8 to 5.5 s, 254 mm 5.5 to 6.5 s, 305 mm 6.0 to 7.5 s. The factor of two either
    way is our own: it leaves room for makers, and none for a slip of the decimal point.

Breaks it
    effect our-shell { kind shell; match generic-match; calibre 75 mm; prefire 0.27 s; burn 1.5 s }
    cue 1 at 0:10.0 our-shell at Q1

Keeps it
    effect our-shell { kind shell; match generic-match; calibre 75 mm; prefire 2.7 s; burn 1.5 s }
    cue 1 at 0:10.0 our-shell at Q1
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from compiler.checks.calibre_implausible import is_plausible
from compiler.checks.lookups import used_effects
from compiler.checks.rule import rule
from compiler.checks.words import against, figure, quantity
from compiler.model.solved import Solved
from compiler.model.types import Effect
from grammar.findings import Finding

# Calibre in metres, shortest and longest usual time from lift to burst in seconds: typical figures of
# the trade, lift plus time fuse; common practice, no published study was found.
LIFT_TO_BURST = (
    (0.064, 2.0, 2.5),
    (0.076, 2.5, 3.0),
    (0.102, 3.0, 3.5),
    (0.127, 3.5, 4.0),
    (0.152, 4.0, 4.5),
    (0.203, 4.8, 5.5),
    (0.254, 5.5, 6.5),
    (0.305, 6.0, 7.5),
)
_FACTOR = 2.0


def usual_s(calibre_m: float) -> tuple[float, float]:
    """Shortest and longest usual time from lift to burst of a calibre, in seconds."""
    smallest, largest = LIFT_TO_BURST[0], LIFT_TO_BURST[-1]
    if calibre_m <= smallest[0]:
        return smallest[1] * calibre_m / smallest[0], smallest[2]
    for (below_m, low, high), (above_m, next_low, next_high) in pairwise(LIFT_TO_BURST):
        if calibre_m <= above_m:
            share = (calibre_m - below_m) / (above_m - below_m)
            return low + share * (next_low - low), high + share * (next_high - high)
    return largest[1], largest[2] * calibre_m / largest[0]


def _none(effect: Effect) -> Finding:
    example = f"{figure(sum(usual_s(effect.calibre_m)) / 2, 2)} s" if effect.calibre_m else "2.7 s"
    return Finding(
        "prefire-implausible",
        f"the shell {effect.name} has no prefire: by its data it bursts as it is lit",
        at=f"effect:{effect.name}",
        subject=f"effect {effect.name}",
        values={"prefire_s": 0.0, "calibre_m": effect.calibre_m},
        detail="Every cue of it would be seen late by its time of flight.",
        hint=f"Write the time on the maker's label in effect {effect.name}, as in `prefire {example}`.",
    )


def _odd(effect: Effect, calibre_m: float) -> Finding | None:
    """The finding on a shell whose prefire does not go with its calibre; None where it does."""
    low_s, high_s = usual_s(calibre_m)
    prefire_s = effect.prefire_s.nominal
    if low_s / _FACTOR <= prefire_s <= high_s * _FACTOR:
        return None
    short = prefire_s < low_s
    shown, bound = against(prefire_s, low_s / _FACTOR if short else high_s * _FACTOR, "s")
    usual = f"{figure(low_s, 2)} to {figure(high_s, 2)} s"
    return Finding(
        "prefire-implausible",
        f"the shell {effect.name} of {figure(calibre_m * 1000)} mm has a prefire of {shown}, usual is {usual}",
        at=f"effect:{effect.name}",
        role="prefire",
        subject=f"effect {effect.name}",
        values={"prefire_s": prefire_s, "calibre_m": calibre_m, "usual_s": [low_s, high_s]},
        working=f"prefire {shown}, {'least' if short else 'most'} {bound} ({'half' if short else 'twice'} the usual)",
        detail="Usual: lift and time fuse, common practice. Its cues would be fired at the wrong time by the difference.",
        hint=f"Compare the label: was `prefire {quantity(prefire_s * (10 if short else 0.1), 's')}` meant?",
    )


def _check(solved: Solved) -> Iterable[Finding]:
    for effect in used_effects(solved):
        if effect.kind != "shell" or not is_plausible(effect.kind, effect.calibre_m):
            continue
        found = _none(effect) if effect.prefire_s.high == 0.0 else None
        if found is None and effect.calibre_m is not None:
            found = _odd(effect, effect.calibre_m)
        if found is not None:
            yield found


RULE = rule("prefire-implausible", "warning", __doc__, _check, waivable=True)
