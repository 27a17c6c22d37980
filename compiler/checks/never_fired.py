"""Every circuit is fired by a cue.

Protects from
    Something loaded and wired that no cue lights: it stands live in the field after the show.

How it is computed
    Circuits that no cue names. Its firing current is checked as if it were alone on
    its supply; no instant is checked with it.

Limit and source
    None may be left over. A warning, so that lines can be checked before their cues are written.

Breaks it
    circuit First on A.1 { lead 5 m of zip-18; series D1 }

Keeps it
    circuit First on A.1 { lead 5 m of zip-18; series D1 }
    cue 1 at 0:10.0 First
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import fired_circuits
from compiler.checks.rule import rule
from compiler.checks.words import FIELD
from compiler.model.solved import Solved
from grammar.findings import Finding


def _check(solved: Solved) -> Iterable[Finding]:
    fired = fired_circuits(solved)
    for name in solved.model.circuits:
        if name in fired:
            continue
        yield Finding(
            "never-fired",
            f"{name} is wired, but no cue fires it",
            at=f"circuit:{name}",
            subject=f"circuit {name}",
            detail="It would stand live after the show. No instant is checked with it.",
            hint=f"Write a cue for it, as in `cue 1 at 0:10.0 {name}`, or take it out of the show. {FIELD}",
        )


RULE = rule("never-fired", "warning", __doc__, _check, waivable=True)
