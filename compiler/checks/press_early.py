"""Nothing that follows a press is fired before it.

Protects from
    A shell two seconds after a press that takes 2.7 s to burst: it would have to be fired before
    anybody has pressed, and comes late or not at all.

How it is computed
    Firing time after the press = time seen after the press − prefire, rounded to the rail's tick.

Limit and source
    0 s, the press itself. Never waived: it can't be done.

Breaks it
    cue 1 by hand comet-gold at Q1
    cue 2 at 2 s after 1 shell-75 at Q1     # lit 0.7 s before the press

Keeps it
    cue 1 by hand comet-gold at Q1
    cue 2 at 3 s after 1 shell-75 at Q1
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import figure, names, quantity
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    for cue in solved.schedule.cues:
        if cue.press is None or cue.fired_s >= 0.0:
            continue
        prefire_s = cue.prefire_s.nominal
        seen_s = cue.fired_s + prefire_s if cue.seen_s is None else cue.seen_s
        yield Finding(
            "press-early",
            f"cue {cue.number} would fire {names(cue.circuits) or 'nothing'} "
            f"{quantity(-cue.fired_s, 's')} before the press of cue {cue.press}",
            at=f"cue:{cue.number}",
            subject=f"cue {cue.number}",
            values={"press": cue.press, "fired_s": cue.fired_s, "seen_s": seen_s, "prefire_s": prefire_s},
            working=(
                f"seen {quantity(seen_s, 's')} after the press − prefire {quantity(prefire_s, 's')} "
                f"= {figure(cue.fired_s)} s, limit 0 s"
            ),
            detail="Nobody has pressed yet.",
            hint=f"Let it be seen {figure(prefire_s)} s after the press or later: `at {figure(prefire_s)} s after {cue.press}`.",
            related=(Related(f"cue:{cue.press}", "the press"),),
        )


RULE = rule("press-early", "error", __doc__, _check)
