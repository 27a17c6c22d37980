"""Nothing is fired before the show starts.

Protects from
    A long prefire that puts the firing of an early cue before show zero, when people are still at
    work and nobody expects a bang.

How it is computed
    Firing time = time seen − prefire, rounded to the rail's tick. What counts from a press is
    `press-early`.

Limit and source
    0:00.0, show zero, itself allowed. Never waived: move the zero or the cue.

Breaks it
    cue 1 at 0:02.0 shell-75 at Q1 "seen two seconds in, lit before zero"

Keeps it
    cue 1 at 0:06.0 shell-75 at Q1 "seen six seconds in"
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import clock, names, quantity
from compiler.model.solved import FiredCue, Solved
from grammar.findings import Finding


def _sum(cue: FiredCue, *, lit: bool) -> str:
    if lit:
        return f"lit at {clock(cue.fired_s)}, limit 0:00.0"
    prefire = quantity(cue.prefire_s.nominal, "s")
    return f"seen {clock(_seen_s(cue))} − prefire {prefire} = {clock(cue.fired_s)}, limit 0:00.0"


def _seen_s(cue: FiredCue) -> float:
    return cue.fired_s + cue.prefire_s.nominal if cue.seen_s is None else cue.seen_s


def _mend(cue: FiredCue, *, lit: bool) -> str:
    if lit:
        return "Write `lit at 0:00.0` or later, or set the show's zero earlier."
    later = f"`at {clock(cue.prefire_s.nominal)}` or later, or set the show's zero earlier."
    if _seen_s(cue) < 0.0:
        return f"Write {later}"
    prefire = quantity(cue.prefire_s.nominal, "s")
    return (
        f"`at` is when it is seen, {prefire} after it is lit. If {clock(_seen_s(cue))} is the firing time, write "
        f"`lit at {clock(_seen_s(cue))}`; else {later}"
    )


def _check(solved: Solved) -> Iterable[Finding]:
    early = [cue for cue in solved.schedule.cues if cue.fired_s < 0.0 and cue.press is None]
    lit = {cue.number for cue in solved.model.cues if cue.lit_s is not None} if early else set()
    for cue in early:
        yield Finding(
            "fired-before-zero",
            f"cue {cue.number} fires {names(cue.circuits) or 'nothing'} {quantity(-cue.fired_s, 's')} before show zero",
            at=f"cue:{cue.number}",
            subject=f"cue {cue.number}",
            values={
                "fired_s": cue.fired_s,
                "seen_s": cue.seen_s,
                "prefire_s": cue.prefire_s.nominal,
            },
            working=_sum(cue, lit=cue.number in lit),
            detail="Before show zero the crew may still be forward.",
            hint=_mend(cue, lit=cue.number in lit),
        )


RULE = rule("fired-before-zero", "error", __doc__, _check)
