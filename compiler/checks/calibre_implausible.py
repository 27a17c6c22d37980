"""Every calibre is one that is fired.

Protects from
    `75 in` for `75 mm`, `3 mm` for `3 in`: the tube, the distance and the prefire of the wrong shell.

How it is computed
    Calibres of effects in use, of the shells of chains, and of racks. Greatest: 650 mm. Least: 10 mm
    for shells, chains and racks; a comet or a candle ball may be smaller.

Limit and source
    Displays fire shells of 2 in to 24 in, 610 mm; larger ones are single pieces made for a record
    (common practice).

Breaks it
    effect our-shell { kind shell; match generic-match; calibre 75 in; prefire 2.7 s; burn 1.5 s }
    cue 1 at 0:10.0 our-shell at Q1

Keeps it
    effect our-shell { kind shell; match generic-match; calibre 75 mm; prefire 2.7 s; burn 1.5 s }
    cue 1 at 0:10.0 our-shell at Q1
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compiler.checks.lookups import used_effects
from compiler.checks.rule import rule
from compiler.checks.words import figure, in_order
from compiler.model.solved import Solved
from grammar.findings import Finding

MOST_M = 0.65
LEAST_M = 0.01
_TUBES = ("shell", "chain", "rack")


def is_plausible(kind: str, calibre_m: float | None) -> bool:
    """True for a calibre that is fired, and where none is stated. `kind`: of effect, or ``rack``."""
    return calibre_m is None or (calibre_m <= MOST_M and (calibre_m >= LEAST_M or kind not in _TUBES))


def _calibres(solved: Solved) -> Iterator[tuple[str, str, str, float]]:
    """Kind of entity, name, kind of effect and calibre. A chain that has its shell's is left out."""
    effects = solved.model.effects
    for effect in used_effects(solved):
        shell = effects.get(effect.shell or "")
        if effect.calibre_m is not None and (shell is None or shell.calibre_m != effect.calibre_m):
            yield "effect", effect.name, effect.kind, effect.calibre_m
    for name in in_order(solved.model.racks):
        yield "rack", name, "rack", solved.model.racks[name].calibre_m


def _meant(calibre_m: float) -> str:
    """The same digits in the unit that makes a calibre of them; empty where none does."""
    for unit, size_m in (("mm", 0.001), ("in", 0.0254)):
        for other, other_m in (("mm", 0.001), ("in", 0.0254), ("cm", 0.01), ("m", 1.0)):
            digits = calibre_m / other_m
            if other != unit and 0.02 <= digits * size_m <= MOST_M and abs(digits - round(digits, 2)) < 1e-6:
                return f"Was `calibre {figure(digits)} {unit}` meant? "
    return ""


def _check(solved: Solved) -> Iterable[Finding]:
    for what, name, kind, calibre_m in _calibres(solved):
        if is_plausible(kind, calibre_m):
            continue
        above = calibre_m > MOST_M
        limit_m = MOST_M if above else LEAST_M
        shown = f"{figure(calibre_m * 1000)} mm"
        yield Finding(
            "calibre-implausible",
            f"{what} {name} has a calibre of {shown}, {'the greatest is' if above else 'the least is'} {figure(limit_m * 1000)} mm",
            at=f"{what}:{name}",
            role="calibre" if what == "effect" else "tubes",
            subject=f"{what} {name}",
            values={"calibre_m": calibre_m, "limit_m": limit_m},
            working=f"calibre {shown}, limit {figure(limit_m * 1000)} mm",
            detail="Displays fire 2 in to 24 in (common practice).",
            hint=f"{_meant(calibre_m)}Compare the label and write the calibre with its unit.".strip(),
        )


RULE = rule("calibre-implausible", "warning", __doc__, _check, waivable=True)
