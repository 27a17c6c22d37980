"""The plan's sections about power: supplies, feeds, rails and what they carry when."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil

from compiler.model.solved import Instant, RailLoad, Solved
from compiler.model.types import Battery, Feed, Model, Module, Rail
from compiler.plan.notes import Notes
from compiler.plan.numbers import given, number, result, seconds
from compiler.plan.order import natural, natural_key
from compiler.plan.outs import rail_orders

Json = dict[str, object]


def supplies(model: Model, notes: Notes) -> list[Json]:
    """Each supply with its battery's figures; what a capacitor would state is null."""
    return [_supply(model, name, notes) for name in natural(model.supplies)]


def _supply(model: Model, name: str, notes: Notes) -> Json:
    supply = model.supplies[name]
    battery = model.batteries.get(supply.battery)
    return {
        "name": name,
        "kind": "battery",
        "type": supply.battery,
        "position": supply.position,
        "emf_v": given(battery.emf_v if battery else None),
        "inner_ohm": given(battery.inner_ohm if battery else None),
        "limit_a": number(battery.limit_a if battery else None),
        "fuse_a": number(battery.fuse_a if battery else None),
        "capacitance_f": None,
        "charge_v": None,
        "recharge_ohm": None,
        **_origin(battery),
        "notes": notes.about(name),
    }


def feeds(solved: Solved) -> list[Json]:
    """Each feed cable from a supply, or from a rail up the chain, to a rail."""
    found = {rail.feed.name: rail.feed for rail in solved.model.rails.values() if rail.feed}
    return [_feed(solved, found[name]) for name in natural(found)]


def _feed(solved: Solved, feed: Feed) -> Json:
    cable = solved.model.cables.get(feed.cable or "")
    return {
        "name": feed.name,
        "from": feed.source,
        "to": feed.rail,
        "cable": feed.cable,
        "length_m": number(feed.length_m),
        "ohm": given(solved.feeds_ohm.get(feed.name)),
        "limit_a": number(cable.limit_a if cable else None),
    }


def supply_of(model: Model, rail: str | None) -> str | None:
    """The supply at the head of a rail's chain of feeds; None where there is none or a ring."""
    seen: set[str] = set()
    at = rail
    while at in model.rails and at not in seen:
        seen.add(at)
        feed = model.rails[at].feed
        at = feed.source if feed else None
    return at if at in model.supplies else None


def rails(solved: Solved, used: Mapping[str, set[int]], notes: Notes) -> list[Json]:
    """Each rail with its module's figures and the channels that nothing is wired to."""
    model = solved.model
    return [_rail(model, model.rails[name], used, notes) for name in natural(model.rails)]


def _rail(model: Model, rail: Rail, used: Mapping[str, set[int]], notes: Notes) -> Json:
    module = model.modules.get(rail.module)
    channels = module.channels if module else 0
    taken = used.get(rail.name, set())
    return {
        "name": rail.name,
        "type": rail.module,
        "supply": supply_of(model, rail.name),
        "feed": rail.feed.name if rail.feed else None,
        "position": rail.position,
        "serves": natural(rail.serves),
        "prefers": natural(rail.prefers),
        "control": _control(rail),
        "channels": channels,
        **_module(module),
        "spare_wanted": _spare_wanted(model, rail, channels),
        "spare_channels": [n for n in range(1, channels + 1) if n not in taken],
        **_origin(module),
        "outs": rail_orders(model, rail),
        "notes": notes.about(rail.name),
    }


def _control(rail: Rail) -> Json | None:
    """The control cable of a rail, as said."""
    if rail.control is None:
        return None
    return {"from": rail.control.source, "length_m": number(rail.control.length_m), "cable": rail.control.cable}


def _module(module: Module | None) -> Json:
    return {
        "driver_ohm": given(module.driver_ohm if module else None),
        "driver_drop_v": given(module.driver_drop_v if module else None),
        "channel_limit_a": number(module.channel_limit_a if module else None),
        "rail_limit_a": number(module.rail_limit_a if module else None),
        "most_at_once": module.most_at_once if module else None,
        "pulse_s": given(module.pulse_s if module else None),
        "recovery_s": number(module.recovery_s if module else None),
        "tick_s": number(module.tick_s if module else None),
        "jitter_s": number(module.jitter_s if module else None),
        "circuit_ohm_range": _bounds(module.circuit_ohm_range if module else None),
        "test_current_a": number(module.test_current_a if module else None),
        "test_resistor_ohm": given(module.test_resistor_ohm if module else None),
        "test_fault_a": number(module.test_fault_a if module else None),
        "reach_m": number(module.reach_m if module else None),
    }


def _bounds(pair: tuple[float, float] | None) -> list[float | None] | None:
    return None if pair is None else [number(pair[0]), number(pair[1])]


def _origin(part: Battery | Module | None) -> Json:
    return {
        "source": part.origin.source if part else "",
        "confidence": part.origin.confidence if part else "",
    }


def _spare_wanted(model: Model, rail: Rail, channels: int) -> int:
    """Channels to keep free: as the rail says, else the share and the least of the limits."""
    if rail.spare is not None:
        return rail.spare
    limits = model.rules.limits
    share = limits["spare-share"].value if "spare-share" in limits else 0.1
    least = limits["spare-least"].value if "spare-least" in limits else 2.0
    # rounded first: a tenth of thirty is 3.0000000000000004 in binary
    return max(ceil(round(share * channels, 9)), ceil(least))


def ordered_instants(solved: Solved) -> list[int]:
    """Indices into `solved.instants` in the plan's order: show time before presses, then time and supply."""

    def key(index: int) -> tuple[object, ...]:
        instant = solved.instants[index]
        after = instant.press is not None, natural_key(instant.press or "")
        return *after, instant.from_us, instant.to_us, natural_key(instant.supply), index

    return sorted(range(len(solved.instants)), key=key)


def instants(solved: Solved, order: list[int]) -> list[Json]:
    """Each stretch of time with one set of circuits alive on one supply."""
    return [_instant(solved.instants[index]) for index in order]


def _instant(instant: Instant) -> Json:
    return {
        "supply": instant.supply,
        "press": instant.press,
        "from_s": seconds(instant.from_us),
        "to_s": seconds(instant.to_us),
        "circuits": natural(instant.circuits),
        "supply_a": result(instant.supply_a),
        "rails": [_load(load) for load in sorted(instant.rails, key=lambda x: natural_key(x.rail))],
        "feeds": [{"name": name, "amps": result(instant.feeds[name])} for name in natural(instant.feeds)],
    }


def _load(load: RailLoad) -> Json:
    return {"name": load.rail, "amps": result(load.amps), "count": load.count}
