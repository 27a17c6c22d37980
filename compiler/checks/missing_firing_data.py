"""Every match in use states what it needs to fire.

Protects from
    A guess that reads as a pass: without bridge, firing current and impulse nothing is known about
    whether a match fires.

How it is computed
    Match types that circuits use and that lack `bridge`, `impulse`, or the firing current for the way
    they are wired (`alone`, `series`, `parallel`). Matches of no stated type count too. Reported once
    per type.

Limit and source
    No value, no number. Never waived: take a generic match, which is the least favourable class, or
    ask the maker.

Breaks it
    match bare { legs none; no-fire 0.2 A; alone 0.5 A; series 1 A; parallel 1 A; impulse 1 .. 3 A2ms }
    effect comet-x { kind comet; match bare }
    cue 1 at 0:10.0 comet-x at Q1

Keeps it
    match whole { bridge 1.6 ohm; legs none; no-fire 0.2 A; alone 0.5 A; series 1 A; parallel 1 A; impulse 1 .. 3 A2ms }
    effect comet-x { kind comet; match whole }
    cue 1 at 0:10.0 comet-x at Q1
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compiler.checks.lookups import members, used_matches
from compiler.checks.rule import rule
from compiler.checks.words import names, use_it
from compiler.model.solved import Solved
from compiler.model.types import Match
from grammar.findings import Finding, Related

_EXAMPLE = {
    "bridge": "bridge 1.6 ohm ± 0.2",
    "impulse": "impulse 0.8 .. 3.0 A2ms",
    "alone": "alone 0.6 A",
    "series": "series 1.0 A",
    "parallel": "parallel 1.0 A",
}


def _uses(solved: Solved, circuits: list[str]) -> set[str]:
    """How a type is wired in its circuits: alone, series, parallel, mixed."""
    found: set[str] = set()
    for name in circuits:
        wiring = solved.wirings.get(name)
        if wiring is not None:
            found.add("alone" if wiring.topology == "single" else wiring.topology)
    return found


def lacking(match: Match, uses: set[str]) -> list[str]:
    """The properties a type lacks for the ways it is used."""
    strings, rows = uses & {"series", "mixed"}, uses & {"parallel", "mixed"}
    stated = {
        "bridge": match.bridge_ohm is not None,
        "alone": match.fires_alone_a is not None or "alone" not in uses,
        "series": match.fires_series_a is not None or not strings,
        "parallel": match.fires_parallel_a is not None or not rows,
        "impulse": match.impulse_a2s is not None,
    }
    return [name for name, known in stated.items() if not known]


def untyped(solved: Solved) -> Iterator[tuple[str, list[str]]]:
    """Circuits with matches of no stated type, and those matches."""
    for circuit in solved.model.circuits.values():
        found = [
            name
            for name in members(circuit.wiring)
            if (use := solved.model.match_uses.get(name)) is not None and use.igniter is None
        ]
        if found:
            yield circuit.name, found


def _check(solved: Solved) -> Iterable[Finding]:
    for kind, circuits in used_matches(solved).items():
        missing = lacking(solved.model.matches[kind], _uses(solved, circuits))
        if missing:
            example = "; ".join(_EXAMPLE[name] for name in missing)
            yield Finding(
                "missing-firing-data",
                f"match {kind} states no {names(missing)}, so its firing can't be checked",
                at=f"match:{kind}",
                subject=f"match {kind}",
                values={"match": kind, "missing": missing, "circuits": len(circuits)},
                detail=f"{use_it(len(circuits), 'circuit')}, first {circuits[0]}.",
                hint=f"Write the maker's values in match {kind}, as in `{example}`.",
                related=(Related(f"circuit:{circuits[0]}", "used here first"),),
            )
    for circuit, found in untyped(solved):
        yield Finding(
            "missing-firing-data",
            f"no match type is stated for {names(found)} in {circuit}",
            at=f"circuit:{circuit}",
            subject=f"circuit {circuit}",
            values={"matches": found},
            hint="Write `match generic-match`, or the maker's, in the effect.",
        )


RULE = rule("missing-firing-data", "error", __doc__, _check)
