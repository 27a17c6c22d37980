"""Every match in use states the current that can't fire it.

Protects from
    A continuity test on a match whose no-fire current nobody knows.

How it is computed
    Match types that circuits use and that lack `no-fire`. Reported once per type.

Limit and source
    A fifth of no-fire bounds the test current (WAC 212-17-317(6)); without it there is no bound.
    Never waived.

Breaks it
    match shy { bridge 1.6 ohm; legs none; alone 0.5 A; series 1 A; parallel 1 A; impulse 1 .. 3 A2ms }
    effect comet-x { kind comet; match shy }
    cue 1 at 0:10.0 comet-x at Q1

Keeps it
    match told { bridge 1.6 ohm; legs none; no-fire 0.2 A; alone 0.5 A; series 1 A; parallel 1 A; impulse 1 .. 3 A2ms }
    effect comet-x { kind comet; match told }
    cue 1 at 0:10.0 comet-x at Q1
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import used_matches
from compiler.checks.rule import rule
from compiler.checks.words import use_it
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    for kind, circuits in used_matches(solved).items():
        if solved.model.matches[kind].no_fire_a is not None:
            continue
        yield Finding(
            "missing-no-fire",
            f"match {kind} states no no-fire current, so no test of it is known to be safe",
            at=f"match:{kind}",
            subject=f"match {kind}",
            values={"match": kind, "circuits": len(circuits)},
            detail=f"{use_it(len(circuits), 'circuit')}, first {circuits[0]}.",
            hint=f"Write the maker's value in match {kind}, as in `no-fire 0.18 A`. Until it is "
            "known nobody tests those circuits.",
            related=(Related(f"circuit:{circuits[0]}", "used here first"),),
        )


RULE = rule("missing-no-fire", "error", __doc__, _check)
