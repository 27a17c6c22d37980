"""Nothing is fired before the show starts.

Protects from
    A long prefire that puts the firing of an early cue before show zero, when people are still at
    work and nobody expects a bang.

How it is computed
    Firing time = time seen − prefire, rounded to the rail's tick.

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


def _sum(cue: FiredCue) -> str:
    if cue.seen_s is None:
        return f"lit at {clock(cue.fired_s)}, limit 0:00.0"
    prefire = quantity(cue.prefire_s.nominal, "s")
    return f"seen {clock(cue.seen_s)} − prefire {prefire} = {clock(cue.fired_s)}, limit 0:00.0"


def _check(solved: Solved) -> Iterable[Finding]:
    for cue in solved.schedule.cues:
        if cue.fired_s >= 0.0:
            continue
        earliest = clock(cue.prefire_s.nominal)
        mend = f"at {earliest}" if cue.seen_s is not None else "lit at 0:00.0"
        yield Finding(
            "fired-before-zero",
            f"cue {cue.number} fires {names(cue.circuits) or 'nothing'} "
            f"{quantity(-cue.fired_s, 's')} before show zero",
            at=f"cue:{cue.number}",
            subject=f"cue {cue.number}",
            values={
                "fired_s": cue.fired_s,
                "seen_s": cue.seen_s,
                "prefire_s": cue.prefire_s.nominal,
            },
            working=_sum(cue),
            detail="Before show zero the crew may still be forward.",
            hint=f"Write `{mend}` or later, or set the show's zero earlier.",
        )


RULE = rule("fired-before-zero", "error", __doc__, _check)
