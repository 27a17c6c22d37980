"""Leads along the site: route, slack, and the straight distance that no lead can undercut."""

from __future__ import annotations

from typing import NamedTuple

from compiler.model.solved import Address
from compiler.model.types import Circuit, Group, MatchUse, Model, Position, Run
from compiler.model.values import replace
from grammar.findings import Finding


def straight_m(rail_at: Position, use: MatchUse) -> float:
    """Straight distance in metres from a rail to a match, height included."""
    return float(((rail_at.x_m - use.x_m) ** 2 + (rail_at.y_m - use.y_m) ** 2 + (rail_at.z_m - use.z_m) ** 2) ** 0.5)


def distance_m(rail_at: Position, use: MatchUse, route: str) -> float:
    """Length of the route in metres: along the axes of the site, or straight."""
    if route == "straight":
        return straight_m(rail_at, use)
    return abs(rail_at.x_m - use.x_m) + abs(rail_at.y_m - use.y_m) + abs(rail_at.z_m - use.z_m)


class LaidOut(NamedTuple):
    """Circuits with every run's length and cable known, and straight distances by circuit."""

    circuits: dict[str, Circuit]
    distances_m: dict[str, float]
    findings: tuple[Finding, ...]


def laid_out(model: Model, addresses: dict[str, Address]) -> LaidOut:
    """Fill in what the show does not say: route plus slack for the lead, the default cable everywhere.

    A circuit without an address keeps a lead of unknown length; a run without any cable is a finding.
    """
    circuits: dict[str, Circuit] = {}
    distances: dict[str, float] = {}
    bare: list[str] = []
    for name, circuit in model.circuits.items():
        address = addresses.get(name)
        length = None
        if address is not None:
            rail_at = model.positions[model.rails[address.rail].position]
            use = model.match_uses[joined_at(circuit.wiring)]
            distances[name] = straight_m(rail_at, use)
            route = distance_m(rail_at, use, model.show.route)
            length = model.show.slack_m + route * (1.0 + model.show.slack_ratio)
        wiring = _filled(circuit.wiring, length, model.show.lead_cable, top=True)
        if _bare(wiring):
            bare.append(name)
        circuits[name] = replace(circuit, wiring=wiring)
    return LaidOut(circuits, distances, _no_cable(bare))


def joined_at(group: Group) -> str:
    """The match at which the lead comes in."""
    if group.feed_at is not None:
        return group.feed_at
    first = group.members[0]
    return joined_at(first) if isinstance(first, Group) else first


def _filled(group: Group, lead_m: float | None, cable: str | None, *, top: bool) -> Group:
    lead = group.lead
    if top:
        said = lead or Run(None, None)
        lead = Run(lead_m if said.length_m is None else said.length_m, said.cable or cable)
    elif lead is not None:
        lead = Run(lead.length_m, lead.cable or cable)
    spacing = group.spacing
    if spacing is not None:
        spacing = Run(spacing.length_m, spacing.cable or cable)
    members = tuple(
        _filled(member, None, cable, top=False) if isinstance(member, Group) else member for member in group.members
    )
    return Group(group.how, members, spacing, group.feed_at, lead)


def _bare(group: Group) -> bool:
    """True if a run with a length has no cable."""
    runs = [run for run in (group.lead, group.spacing) if run is not None]
    if any(run.cable is None for run in runs):
        return True
    return any(_bare(member) for member in group.members if isinstance(member, Group))


def _no_cable(names: list[str]) -> tuple[Finding, ...]:
    """One finding for all circuits without a cable: the mend is one line."""
    if not names:
        return ()
    more = f" and {len(names) - 1} more" if len(names) > 1 else ""
    return (
        Finding(
            "missing-property", f"the cable of circuit `{names[0]}`{more} is not said", f"circuit:{names[0]}",
            "lead", f"circuit {names[0]}", hint="Say it once for all: `defaults { lead zip-18 }`, or with each lead.",
        ),
    )  # fmt: skip
