"""Everything that is fired was computed.

Protects from
    A hole that looks like a pass: a circuit, an instant or a limit that no check ever saw.

How it is computed
    Rooms report what they could not compute, with the reason. On top of that every fired circuit is
    looked at for results that are missing without a reason that another rule gives (no channel, no
    feed, missing data of match, module or battery), every supply for instants without a load,
    and the rule set for limits that the checks need.

Limit and source
    No value, no number; a missing number is never a pass. Never waived.

Breaks it
    ruleset "half" { dated 2027-01-01; margin 1.5 source "own measure" }
    show "Half a rule set" { rules "half" }

Keeps it
    ruleset "whole" like "strict" { dated 2027-01-01; margin 1.5 source "own measure" }
    show "A whole rule set" { rules "whole" }
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compiler.checks.lookups import battery_of, feed_path, fired_circuits, igniters, members, rail_of
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
    circuit, rail = solved.model.circuits[name], rail_of(solved, name)
    if rail is None or name not in solved.wirings:
        return name not in solved.addresses or rail is None
    module = solved.model.modules.get(rail.module)
    if module is None or module.driver_ohm is None or module.pulse_s is None:
        return True
    kinds = igniters(solved, circuit)
    if sum(map(len, kinds.values())) < sum(1 for _ in members(circuit.wiring)):
        return True
    if any(kind not in solved.model.matches for kind in kinds):
        return True
    uses = {solved.wirings[name].topology.replace("single", "alone")}
    if any(lacking(solved.model.matches[kind], uses) for kind in kinds):
        return True
    return supply_explains(solved, feed_path(solved, rail.name)[1])


def _holes(result: CircuitResult | None) -> list[str]:
    """What is missing of a fired circuit's result."""
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


def _circuits(solved: Solved) -> Iterator[Finding]:
    fired = fired_circuits(solved)
    for name in solved.model.circuits:
        holes = _holes(solved.circuits.get(name)) if name in fired else []
        if not holes or explained(solved, name):
            continue
        yield Finding(
            "not-computed",
            f"{names(holes)} of {name} could not be computed",
            at=f"circuit:{name}",
            subject=f"circuit {name}",
            values={"missing": holes},
            detail="No reason was given. It is not checked, so it must not be fired.",
            hint="Look at the findings above this one first; where none explains it, wire the circuit "
            "in a simpler way.",
        )


def _supplies(solved: Solved) -> Iterator[Finding]:
    counts: dict[str, int] = {}
    for instant in solved.instants:
        if instant.supply_a is None and not supply_explains(solved, instant.supply):
            if not all(explained(solved, name) for name in instant.circuits):
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
            hint=f'Write `ruleset "{rules.name}" like "strict" {{ … }}`, and what it does not set is as strict.',
        )


def _check(solved: Solved) -> Iterable[Finding]:
    yield from _limits(solved)
    yield from _circuits(solved)
    yield from _supplies(solved)


RULE = rule("not-computed", "error", __doc__, _check)
