"""One circuit holds matches of one type, one make and one resistance group.

Protects from
    A sensitive match that opens the string before a dull one has its impulse, or takes the current
    of a branch beside it: the dull ones stay dark and live.

How it is computed
    Match types of all matches in the circuit; more than one type is a mixture, whatever the types
    have in common. Two types are two makes or two resistance groups.

Limit and source
    29 CFR 1926.906(c): one style and function, from one manufacturer. 1. SprengV s. 27(2): one
    resistance group, 0.25 ohm wide.

Breaks it
    device D1 of comet-x at Q1
    device D2 of comet-y at Q1
    circuit Pair on A.1 { lead 5 m of zip-18; series D1, D2 }

Keeps it
    circuit First on A.1 { lead 5 m of zip-18; series D1 }
    circuit Second on A.2 { lead 5 m of zip-18; series D2 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import igniters
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, names
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _words(solved: Solved, kind: str, matches: list[str]) -> str:
    found = solved.model.matches.get(kind)
    group = "" if found is None or not found.group else f" (group {found.group})"
    return f"{kind}{group}: {names(matches, 4)}"


def _related(solved: Solved, kinds: dict[str, list[str]]) -> Iterable[Related]:
    for kind, matches in kinds.items():
        use = solved.model.match_uses[matches[0]]
        yield Related(f"device:{use.device}", f"with {kind}")


def _check(solved: Solved) -> Iterable[Finding]:
    for name, circuit in solved.model.circuits.items():
        kinds = igniters(solved, circuit)
        if len(kinds) < 2:
            continue
        yield Finding(
            "mixed-matches",
            f"{name} mixes the match types {names(list(kinds))}",
            at=f"circuit:{name}",
            subject=f"circuit {name}",
            values={"types": {kind: len(found) for kind, found in kinds.items()}},
            working="; ".join(_words(solved, kind, found) for kind, found in kinds.items()),
            detail="Types, makes and resistance groups are never mixed in one circuit "
            "(29 CFR 1926.906(c)); in a string the quicker type opens it for the slower.",
            hint=f"Give each type its own circuit and channel. {FIELD}",
            related=tuple(_related(solved, kinds)),
        )


RULE = rule("mixed-matches", "error", __doc__, _check)
