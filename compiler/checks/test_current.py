"""No continuity test can fire a match.

Protects from
    A match that fires under somebody's hands while the wiring is tested.

How it is computed
    Greatest test current: into a short at the terminals, at the greatest supply voltage, with no
    cable credited: `test-current` of the module, or greatest voltage ÷ least `test-resistor`.
    Limit: the lesser of the limit `test-current` and `test-fraction` × the lowest no-fire current
    in the circuit. Reported once per module and match type, at the worst rail.

Limit and source
    0.025 A under "strict" (1. SprengV Anlage 1 no. 54) and a fifth of no-fire (WAC 212-17-317(6)).
    Equal to the limit passes. Never waived; a show can only tighten it.

Breaks it
    module loud-8 { channels 8; test-current 40 mA }
    rail A of loud-8 at Q1 { feed Pack-1 }

Keeps it
    module quiet-8 { channels 8; test-current 8 mA }
    rail A of quiet-8 at Q1 { feed Pack-1 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import limit, limit_words, match_types, rail_of
from compiler.checks.rule import rule
from compiler.checks.words import against, figure, many, quantity
from compiler.model.solved import CircuitResult, Solved
from compiler.model.types import Match, Rail
from grammar.findings import Finding, Related


def _touchiest(solved: Solved, name: str) -> Match | None:
    """The match type of a circuit with the lowest no-fire current."""
    circuit = solved.model.circuits.get(name)
    found = [] if circuit is None else match_types(solved, circuit)
    known = [match for match in found if match.no_fire_a is not None]
    return min(known, key=lambda match: match.no_fire_a or 0.0) if known else None


def _limit_words(solved: Solved, result: CircuitResult, match: Match | None) -> tuple[str, str]:
    """The limit as a sum, and its source."""
    found = limit(solved, result.test_limit_id)
    words = "" if found is None else limit_words(found)
    if found is not None and found.id == "test-fraction" and match is not None:
        no_fire = quantity(match.no_fire_a or 0.0, "A")
        return f"{figure(found.value)} × no-fire {no_fire} = ", words
    return "", words


def _finding(solved: Solved, result: CircuitResult, rail: Rail, count: int) -> Finding:
    assert result.test_a is not None
    assert result.test_limit_a is not None
    shown, allowed = against(result.test_a, result.test_limit_a, "A")
    match = _touchiest(solved, result.name)
    total, words = _limit_words(solved, result, match)
    touchy = "" if match is None else f", match {match.name}"
    return Finding(
        "test-current",
        f"rail {rail.name} tests with up to {shown} into a short, the limit is {allowed}",
        at=f"rail:{rail.name}",
        subject=f"rail {rail.name}",
        values={
            "test_a": result.test_a,
            "limit_a": result.test_limit_a,
            "limit_id": result.test_limit_id,
            "circuits": count,
        },
        working=f"greatest supply into a short: {shown}, limit {total}{allowed}",
        detail=f"Module {rail.module}; {many(count, 'circuit')} concerned, first {result.name}{touchy}. {words}",
        hint="Don't test with this module while anything is connected: everyone clear of the pieces, "
        "rail unplugged from its supply, leads shunted. Use a module with a lower `test-current`, "
        "and test with a meter whose greatest current is known.",
        related=(Related(f"circuit:{result.name}", "a circuit tested by it"),),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    groups: dict[tuple[str, str, float], list[CircuitResult]] = {}
    for name, result in solved.circuits.items():
        rail = rail_of(solved, name)
        if rail is None or result.test_a is None or result.test_limit_a is None:
            continue
        if result.test_a > result.test_limit_a:
            key = rail.module, result.test_limit_id, result.test_limit_a
            groups.setdefault(key, []).append(result)
    for found in groups.values():
        worst = max(found, key=lambda result: result.test_a or 0.0)
        rail = rail_of(solved, worst.name)
        if rail is not None:
            yield _finding(solved, worst, rail, len(found))


RULE = rule("test-current", "error", __doc__, _check)
