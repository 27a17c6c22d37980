"""Every circuit is fired by one cue.

Protects from
    A second cue for matches that are burnt already: nothing lights, and a channel is fired into
    wires that may have shorted.

How it is computed
    Circuits are counted over all cues. Reported once per circuit, at its second cue.

Limit and source
    Once: an electric match fires once.

Breaks it
    cue 1 at 0:10.0 First "once"
    cue 2 at 0:20.0 First "and again"

Keeps it
    cue 1 at 0:10.0 First "once"
    cue 2 at 0:20.0 Second "its own matches"
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import fired_circuits
from compiler.checks.rule import rule
from compiler.checks.words import many, names
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    for circuit, cues in fired_circuits(solved).items():
        if len(cues) < 2:
            continue
        again = "twice in one cue" if len(set(cues)) == 1 else f"by the cues {names(cues)}"
        yield Finding(
            "circuit-fired-twice",
            f"{circuit} is fired {again}",
            at=f"cue:{cues[1]}",
            subject=f"circuit {circuit}",
            values={"circuit": circuit, "cues": cues},
            working=f"fired {many(len(cues), 'time')}, limit 1",
            detail="Its matches are burnt after the first.",
            hint=f"Take {circuit} out of cue {cues[1]}, or wire what that cue should light as a circuit of its own.",
            related=(
                Related(f"circuit:{circuit}", "the circuit"),
                Related(f"cue:{cues[0]}", "first fired here"),
            ),
        )


RULE = rule("circuit-fired-twice", "error", __doc__, _check)
