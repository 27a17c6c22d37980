"""Everything that is wired was computed.

Protects from
    A hole that looks like a pass: a circuit, an instant or a limit that no check ever saw.

How it is computed
    What can't be computed is reported where it comes up, with the reason. Where nothing was, every
    circuit is looked at for results that are missing without a reason that another rule gives (no
    channel, no feed, missing data of match, module or battery), every supply for instants without
    a load, and the rule set for limits that the checks need.

Limit and source
    No value, no number; a missing number is never a pass. Never waived.

Breaks it
    module hungry-8 { channels 8; drop 15 V }
    supply Pack-1 of lead-acid-12 at Q1
    rail A of hungry-8 at Q1 { feed Pack-1 through 3 m of trunk-2.5 }

Keeps it
    module modest-8 { channels 8; drop 0.2 V }
    supply Pack-1 of lead-acid-12 at Q1
    rail A of modest-8 at Q1 { feed Pack-1 through 3 m of trunk-2.5 }
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compiler.checks.lookups import battery_of, feed_path, igniters, members, rail_of
from compiler.checks.missing_firing_data import lacking
from compiler.checks.rule import rule
from compiler.checks.words import many, names
from compiler.model.solved import CircuitResult, Solved
from grammar.findings import Finding

NEEDED = ("margin", "test-current", "test-fraction", "test-fault", "function-time", "chase-step")
"""Limits that checks and computing rooms look up by name."""


def supply_explains(solved: Solved, supply: str | None) -> bool:
    """Whether another rule already says why nothing on this supply is known."""
    battery = battery_of(solved, supply)
    return battery is None or battery.emf_v is None or battery.inner_ohm is None


def explained(solved: Solved, name: str) -> bool:
    """Whether another rule already says why this circuit has no result."""
    rail = rail_of(solved, name)
    module = None if rail is None else solved.model.modules.get(rail.module)
    if rail is None or module is None or module.driver_ohm is None or module.pulse_s is None:
        return True
    circuit, known = solved.model.circuits[name], solved.model.matches
    kinds = igniters(solved, circuit)
    if sum(map(len, kinds.values())) < sum(1 for _ in members(circuit.wiring)):
        return True
    wiring = solved.wirings.get(name)
    uses = set() if wiring is None else {wiring.topology.replace("single", "alone")}
    if any(kind not in known or lacking(known[kind], uses) for kind in kinds):
        return True
    return supply_explains(solved, feed_path(solved, rail.name)[1])


def all_explained(solved: Solved) -> set[str]:
    """Circuits without a result for a known reason: their own, or that of one alive beside them."""
    own = {name for name in solved.model.circuits if explained(solved, name)}
    beside = {
        name
        for instant in solved.instants
        if instant.supply_a is None and not own.isdisjoint(instant.circuits)
        for name in instant.circuits
    }
    return own | beside


def _holes(result: CircuitResult | None) -> list[str]:
    """What is missing of a circuit's result."""
    if result is None:
        return ["everything"]
    found = [
        word
        for word, value in (
            ("channel current", result.current_a),
            ("current into a short", result.shorted_current_a),
        )
        if value is None
    ]
    matches = result.matches.values()
    if not matches or any(match.current_a is None or match.required_a is None for match in matches):
        found.append("current of a match")
    if any(match.impulse_a2s is None or match.required_a2s is None for match in matches):
        found.append("impulse of a match")
    return found


def _circuits(holes: dict[str, list[str]], known: set[str]) -> Iterator[Finding]:
    for name, missing in holes.items():
        if name not in known:
            yield Finding(
                "not-computed",
                f"{names(missing)} of {name} could not be computed",
                at=f"circuit:{name}",
                subject=f"circuit {name}",
                values={"missing": missing},
                detail="No reason was given. It is not checked, so it must not be fired.",
                hint="Look at the findings above this one first; where none explains it, wire the "
                "circuit in a simpler way.",
            )


def _supplies(solved: Solved, known: set[str]) -> Iterator[Finding]:
    counts: dict[str, int] = {}
    for instant in solved.instants:
        if instant.supply_a is None and known.isdisjoint(instant.circuits):
            counts[instant.supply] = counts.get(instant.supply, 0) + 1
    for supply, count in counts.items():
        yield Finding(
            "not-computed",
            f"the load of supply {supply} could not be computed at {many(count, 'instant')}",
            at=f"supply:{supply}",
            subject=f"supply {supply}",
            values={"instants": count},
            detail="Rails, feeds, supply and fuse were not checked then.",
            hint="Look at the findings of the circuits on it first.",
        )


def _limits(solved: Solved) -> Iterator[Finding]:
    rules = solved.model.rules
    missing = [name for name in NEEDED if name not in rules.limits]
    if missing:
        yield Finding(
            "not-computed",
            f"rule set {rules.name} sets no {names(missing)}, so nothing was checked against it",
            at="show:",
            role="rules",
            subject=f"rule set {rules.name}",
            values={"missing": missing},
            hint=f'Write `ruleset "{rules.name}" like "strict" {{ … }}`: the rest is strict then.',
        )


def _check(solved: Solved) -> Iterable[Finding]:
    yield from _limits(solved)
    found = {name: _holes(solved.circuits.get(name)) for name in solved.model.circuits}
    holes = {name: missing for name, missing in found.items() if missing}
    if holes or any(instant.supply_a is None for instant in solved.instants):
        known = all_explained(solved)
        yield from _circuits(holes, known)
        yield from _supplies(solved, known)


RULE = rule("not-computed", "error", __doc__, _check)
