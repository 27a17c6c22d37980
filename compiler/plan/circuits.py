"""The plan's section about circuits: what hangs on each channel, and what it was found to carry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from compiler.model.quantities import Range
from compiler.model.solved import CircuitResult, Element, MatchResult, Reading, Solved, Wiring
from compiler.model.types import Circuit, Group
from compiler.plan.notes import Notes
from compiler.plan.numbers import given, number, result, seconds
from compiler.plan.order import natural
from compiler.plan.power import supply_of
from compiler.plan.shape import shape, walked

Json = dict[str, object]


@dataclass(frozen=True, slots=True)
class Peak:
    """The greatest load of a rail or supply while a circuit is alive, and in which instant."""

    amps: float
    instant: int


@dataclass(frozen=True, slots=True)
class Index:
    """What is looked up many times, made once per plan.

    `moved`     index of `Solved.instants` to index of the plan's instants
    `rail`, `supply`  circuit name to the greatest load of its rail, of its supply
    `alive`     circuit name to its alive intervals, each with its cue
    """

    moved: dict[int, int] = field(default_factory=dict)
    rail: dict[str, Peak] = field(default_factory=dict)
    supply: dict[str, Peak] = field(default_factory=dict)
    alive: dict[str, list[Json]] = field(default_factory=dict)


def index(solved: Solved, order: Sequence[int]) -> Index:
    """Read the instants and the schedule once, in the plan's order."""
    made = Index(moved={old: new for new, old in enumerate(order)})
    for new, old in enumerate(order):
        instant = solved.instants[old]
        by_rail = {load.rail: load.amps for load in instant.rails}
        for name in instant.circuits:
            address = solved.addresses.get(name)
            _raise(made.supply, name, instant.supply_a, new)
            _raise(made.rail, name, by_rail.get(address.rail) if address else None, new)
    for alive in solved.schedule.alive:
        span: Json = {
            "cue": alive.cue,
            "press": alive.press,
            "from_s": seconds(alive.from_us),
            "to_s": seconds(alive.to_us),
        }
        made.alive.setdefault(alive.circuit, []).append(span)
    return made


def _raise(peaks: dict[str, Peak], name: str, amps: Range | None, instant: int) -> None:
    if amps is None:
        return
    if name not in peaks or amps.greatest > peaks[name].amps:
        peaks[name] = Peak(amps.greatest, instant)


def circuits(solved: Solved, found: Index, notes: Notes) -> list[Json]:
    """Every circuit of the show, in natural name order."""
    names = natural(solved.model.circuits)
    return [_circuit(solved, solved.model.circuits[name], found, notes) for name in names]


def match_names(group: Group) -> Iterator[str]:
    """The matches of a wiring, from the rail outward."""
    stack: list[str | Group] = [group]
    while stack:
        member = stack.pop()
        if isinstance(member, str):
            yield member
        else:
            stack.extend(reversed(member.members))


def _circuit(solved: Solved, circuit: Circuit, found: Index, notes: Notes) -> Json:
    name = circuit.name
    address = solved.addresses.get(name)
    outcome = solved.circuits.get(name)
    uses = natural(match_names(circuit.wiring))
    return {
        "name": name,
        "rail": address.rail if address else None,
        "channel": address.channel if address else None,
        "bound": address.bound if address else False,
        "supply": supply_of(solved.model, address.rail if address else None),
        "position": circuit.place,
        "distance_m": number(solved.distances_m.get(name)),
        "label": _label(solved, circuit),
        "key_effect": circuit.key_effect,
        "apart_from": circuit.apart_from,
        "devices": natural(_devices(solved, uses)),
        "splices": len(uses),
        **_wiring(solved.wirings.get(name)),
        **_outcome(outcome),
        "loads": _loads(solved, name, outcome, found),
        "matches": [_match(solved, use, outcome, found) for use in uses],
        "makers_data_missing": any(_generic(solved, use) for use in uses),
        "alive": found.alive.get(name, []),
        "notes": notes.about(name),
    }


def _label(solved: Solved, circuit: Circuit) -> str:
    """What is written on the tag at the lead's end: as the show says, else address and place."""
    if circuit.label:
        return circuit.label
    address = solved.addresses.get(circuit.name)
    at = f"{address.rail}.{address.channel} " if address else ""
    return f"{at}{circuit.place or circuit.name}"


def _devices(solved: Solved, uses: Sequence[str]) -> Iterator[str]:
    known = solved.model.match_uses
    return (known[use].device for use in uses if use in known)


def _generic(solved: Solved, use: str) -> bool:
    """Whether a match is not known by its maker's data: generic, or of no known type."""
    match_use = solved.model.match_uses.get(use)
    igniter = solved.model.matches.get(match_use.igniter or "") if match_use else None
    return igniter is None or igniter.generic


# --- what it is made of -------------------------------------------------------------------------


def _wiring(wiring: Wiring | None) -> Json:
    """Elements from the rail outward, and the pieces that a crew cuts and joins."""
    ids = walked(wiring.tree) if wiring else []
    elements = [wiring.elements[each] for each in ids] if wiring else []
    lead = elements[0] if elements and elements[0].what == "lead" else None
    return {
        "topology": wiring.topology if wiring else None,
        "lead": {"cable": lead.part, "length_m": number(lead.length_m)} if lead else None,
        "cables": _cables(elements),
        "elements": [_element(element) for element in elements],
        **shape(wiring.tree if wiring else None),
    }


def _cables(elements: Sequence[Element]) -> list[Json]:
    """Metres of pair to cut from each cable: leads and segments, legs not counted."""
    metres: dict[str, float] = {}
    for element in elements:
        if element.what in ("lead", "segment") and element.length_m is not None:
            metres[element.part] = metres.get(element.part, 0.0) + element.length_m
    return [{"cable": part, "length_m": number(metres[part])} for part in natural(metres)]


def _element(element: Element) -> Json:
    return {
        "id": element.id,
        "what": element.what,
        "part": element.part,
        "metal": element.metal,
        "length_m": number(element.length_m),
        "match": element.match,
        "ohm_at_20C": given(element.ohm_20),
        "ohm": given(element.ohm),
    }


# --- what it was found to carry -----------------------------------------------------------------


def _outcome(outcome: CircuitResult | None) -> Json:
    return {
        "resistance_ohm": given(outcome.resistance_ohm if outcome else None),
        "readings": [_reading(reading) for reading in outcome.readings] if outcome else [],
        "current_a": result(outcome.current_a if outcome else None),
        "alone_current_a": result(outcome.alone_current_a if outcome else None),
        "shorted_current_a": number(outcome.shorted_current_a if outcome else None),
        "test": {
            "greatest_a": number(outcome.test_a if outcome else None),
            "limit_a": number(outcome.test_limit_a if outcome else None),
            "limit_id": outcome.test_limit_id if outcome else "",
        },
    }


def _reading(reading: Reading) -> Json:
    return {
        "at_degC": number(reading.at_c),
        "low": number(reading.low),
        "nominal": number(reading.nominal),
        "high": number(reading.high),
        "meter_low": number(reading.meter_low),
        "meter_high": number(reading.meter_high),
    }


def _loads(solved: Solved, name: str, outcome: CircuitResult | None, found: Index) -> Json:
    """What driver, rail and supply must bear because of this circuit, each beside its limit."""
    model = solved.model
    address = solved.addresses.get(name)
    rail = model.rails.get(address.rail) if address else None
    module = model.modules.get(rail.module) if rail else None
    supply = model.supplies.get(supply_of(model, rail.name if rail else None) or "")
    battery = model.batteries.get(supply.battery) if supply else None
    limits = [x for x in (battery.limit_a, battery.fuse_a) if x is not None] if battery else []
    return {
        "channel_a": number(outcome.shorted_current_a if outcome else None),
        "channel_limit_a": number(module.channel_limit_a if module else None),
        **_peak("rail", found.rail.get(name), module.rail_limit_a if module else None),
        **_peak("supply", found.supply.get(name), min(limits, default=None)),
    }


def _peak(what: str, peak: Peak | None, limit_a: float | None) -> Json:
    return {
        f"{what}_a": number(peak.amps if peak else None),
        f"{what}_limit_a": number(limit_a),
        f"{what}_instant": peak.instant if peak else None,
    }


def _match(solved: Solved, use: str, outcome: CircuitResult | None, found: Index) -> Json:
    match_use = solved.model.match_uses.get(use)
    margin = solved.model.rules.limits.get("margin")
    return {
        "name": use,
        "device": match_use.device if match_use else None,
        "igniter": match_use.igniter if match_use else None,
        **_carried(outcome.matches.get(use) if outcome else None, found),
        "margin_required": number(margin.value if margin else None),
    }


def _carried(match: MatchResult | None, found: Index) -> Json:
    if match is None:
        return dict.fromkeys(_NOT_COMPUTED) | {"least_at": {"instant": None, "corner": ""}}
    instant = None if match.least_instant is None else found.moved.get(match.least_instant)
    return {
        "use": match.use,
        "current_a": result(match.current_a),
        "least_sibling_shorted_a": number(match.least_sibling_shorted_a),
        "required_a": number(match.required_a),
        "required_from": match.required_from,
        "margin": number(_margin(match)),
        "impulse_a2s": result(match.impulse_a2s),
        "required_a2s": number(match.required_a2s),
        "least_at": {"instant": instant, "corner": match.least_corner},
    }


_NOT_COMPUTED = (
    "use",
    "current_a",
    "least_sibling_shorted_a",
    "required_a",
    "required_from",
    "margin",
    "impulse_a2s",
    "required_a2s",
)


def _margin(match: MatchResult) -> float | None:
    """Least current over required current, all unfired; None if either is unknown."""
    if match.current_a is None or not match.required_a:
        return None
    return match.current_a.least / match.required_a
