"""Every match is wired in one place.

Protects from
    Two leads on one match: two channels tied together, current from one feeding the other, and a
    test that shows a path where there should be none.

How it is computed
    Every match is counted over all circuits. Reported once per match and second circuit.

Limit and source
    Once. Never waived.

Breaks it
    circuit First on A.1 { lead 5 m of zip-18; series D1 }
    circuit Second on A.2 { lead 5 m of zip-18; series D1, D2 }

Keeps it
    circuit First on A.1 { lead 5 m of zip-18; series D1 }
    circuit Second on A.2 { lead 5 m of zip-18; series D2 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import members
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, many, names
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _clashes(solved: Solved) -> dict[tuple[str, str], list[str]]:
    """(first circuit, second circuit): the matches that are in both."""
    first: dict[str, str] = {}
    found: dict[tuple[str, str], list[str]] = {}
    for circuit in solved.model.circuits.values():
        for match in members(circuit.wiring):
            if match in first:
                found.setdefault((first[match], circuit.name), []).append(match)
            else:
                first[match] = circuit.name
    return found


def _check(solved: Solved) -> Iterable[Finding]:
    for (first, second), matches in _clashes(solved).items():
        verb = "is" if len(matches) == 1 else "are"
        where = f"twice in {second}" if first == second else f"in {first} and again in {second}"
        yield Finding(
            "match-wired-twice",
            f"{names(matches)} {verb} wired {where}",
            at=f"circuit:{second}",
            subject=f"circuit {second}",
            values={"matches": matches, "first": first, "second": second},
            working=f"{many(len(matches), 'match')} wired twice, limit once",
            detail="Two leads on one match tie two channels together.",
            hint=f"Take {names(matches)} out of one of them. {FIELD}",
            related=() if first == second else (Related(f"circuit:{first}", "first wired here"),),
        )


RULE = rule("match-wired-twice", "error", __doc__, _check)
