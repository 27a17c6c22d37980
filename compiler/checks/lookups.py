"""Ways from one entity to another over `Solved`, shared by the rules. None where a way ends.

A way that ends is reported by the rule or room that owns the missing piece.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from compiler.model.solved import Element, FiredCue, Solved
from compiler.model.types import Battery, Circuit, Device, Effect, Feed, Group, Limit, Match, Module, Origin, Rail


def members(group: Group) -> Iterator[str]:
    """Names of the matches of a group and of those nested in it, in wiring order."""
    for member in group.members:
        if isinstance(member, str):
            yield member
        else:
            yield from members(member)


def igniters(solved: Solved, circuit: Circuit) -> dict[str, list[str]]:
    """Match types of a circuit, each with its matches, in wiring order. Untyped ones left out."""
    found: dict[str, list[str]] = {}
    for name in members(circuit.wiring):
        use = solved.model.match_uses.get(name)
        if use is not None and use.igniter is not None:
            found.setdefault(use.igniter, []).append(name)
    return found


def used_matches(solved: Solved) -> dict[str, list[str]]:
    """Known match types that circuits use, each with the names of those circuits."""
    found: dict[str, list[str]] = {}
    for circuit in solved.model.circuits.values():
        for kind in igniters(solved, circuit):
            if kind in solved.model.matches:
                found.setdefault(kind, []).append(circuit.name)
    return found


def match_types(solved: Solved, circuit: Circuit) -> list[Match]:
    """The known match types of a circuit."""
    known = solved.model.matches
    return [known[kind] for kind in igniters(solved, circuit) if kind in known]


def rail_of(solved: Solved, circuit: str) -> Rail | None:
    """The rail a circuit is on."""
    address = solved.addresses.get(circuit)
    return None if address is None else solved.model.rails.get(address.rail)


def module_on(solved: Solved, rail: str) -> Module | None:
    """The module type of a rail."""
    found = solved.model.rails.get(rail)
    return None if found is None else solved.model.modules.get(found.module)


def module_of(solved: Solved, circuit: str) -> Module | None:
    """The module type a circuit is connected to."""
    rail = rail_of(solved, circuit)
    return None if rail is None else solved.model.modules.get(rail.module)


def rails_of_modules(solved: Solved) -> dict[str, list[Rail]]:
    """Module types in use, each with the rails made of it."""
    found: dict[str, list[Rail]] = {}
    for rail in solved.model.rails.values():
        if rail.module in solved.model.modules:
            found.setdefault(rail.module, []).append(rail)
    return found


def feed_path(solved: Solved, rail: str) -> tuple[tuple[Feed, ...], str | None]:
    """Feeds from a rail back to its supply, nearest first, and the supply's name.

    The supply is None where a rail has no feed, a source is unknown or the feeds run in a ring.
    """
    feeds: list[Feed] = []
    seen: set[str] = set()
    name = rail
    while name in solved.model.rails and name not in seen:
        seen.add(name)
        feed = solved.model.rails[name].feed
        if feed is None:
            return tuple(feeds), None
        feeds.append(feed)
        name = feed.source
    return tuple(feeds), name if name in solved.model.supplies else None


def battery_of(solved: Solved, supply: str | None) -> Battery | None:
    """The battery type of a supply."""
    found = solved.model.supplies.get(supply or "")
    return None if found is None else solved.model.batteries.get(found.battery)


def top_lead(solved: Solved, circuit: Circuit) -> Element | None:
    """The lead between rail and line, as laid out; None for a circuit without one."""
    wiring = solved.wirings.get(circuit.name)
    if wiring is None:
        return None
    return next((part for part in wiring.elements.values() if part.what == "lead"), None)


def fired_circuits(solved: Solved) -> dict[str, list[str]]:
    """Circuits that cues fire, each with the numbers of those cues, in cue order."""
    found: dict[str, list[str]] = {}
    for cue in solved.model.cues:
        for circuit in cue.circuits:
            found.setdefault(circuit, []).append(cue.number)
    return found


def devices_of(solved: Solved, cue: FiredCue) -> Iterator[Device]:
    """The devices a cue fires, each once."""
    seen: set[str] = set()
    for name in cue.circuits:
        circuit = solved.model.circuits.get(name)
        for match in members(circuit.wiring) if circuit is not None else ():
            use = solved.model.match_uses.get(match)
            if use is not None and use.device not in seen and use.device in solved.model.devices:
                seen.add(use.device)
                yield solved.model.devices[use.device]


def used_effects(solved: Solved) -> list[Effect]:
    """Effects that devices are made of, and the shells of chains, in order of name."""
    known = solved.model.effects
    names = {device.effect for device in solved.model.devices.values()} & known.keys()
    names |= {shell for name in names if (shell := known[name].shell) in known}
    return [known[name] for name in sorted(names)]


def stem(number: str) -> str:
    """``102`` of ``102.3``: what the parts of one cue share."""
    return number.partition(".")[0]


def ring(rails: Mapping[str, Rail], start: str, cable: Callable[[Rail], Feed | None]) -> tuple[str, ...]:
    """The rails of the ring that `start` lies on, each fed by the next; empty where there is none."""
    way, name = [start], start
    while True:
        feed = cable(rails[name])
        if feed is None or feed.source not in rails:
            return ()
        name = feed.source
        if name == start:
            return tuple(way)
        if name in way:
            return ()
        way.append(name)


def limit(solved: Solved, name: str) -> Limit | None:
    """A limit of the rule set in force; a missing one is reported by `not_computed`."""
    return solved.model.rules.limits.get(name)


def limit_words(found: Limit) -> str:
    """Where a limit comes from: ``limit margin, set by strict; source: …``."""
    source = "; ".join(part for part in (found.source, found.confidence) if part)
    return f"Limit {found.id}, set by {found.set_by}; source: {source or 'none stated'}."


def part_words(what: str, name: str, origin: Origin) -> str:
    """Where a part's limit comes from: ``The limit is stated by module dc-16; source: …``."""
    source = "; ".join(part for part in (origin.source, origin.confidence) if part)
    return f"The limit is stated by {what} {name}; source: {source or 'none stated'}."


def free_channel(solved: Solved, besides: str) -> str | None:
    """A free channel on another rail, as ``B.4``, for a hint; None where every rail is full."""
    taken = {(found.rail, found.channel) for found in solved.addresses.values()}
    for rail in solved.model.rails.values():
        module = solved.model.modules.get(rail.module)
        if rail.name == besides or module is None:
            continue
        for channel in range(1, module.channels + 1):
            if (rail.name, channel) not in taken:
                return f"{rail.name}.{channel}"
    return None


def move_words(solved: Solved, circuit: str, *, same_rail: bool = False) -> str:
    """How to move a circuit to another channel, of another rail unless said, as text to paste."""
    address = solved.addresses.get(circuit)
    free = free_channel(solved, "" if address is None or same_rail else address.rail)
    if address is None or free is None:
        return f"put {circuit} on {'another channel' if same_rail else 'another rail'}"
    stated = solved.model.circuits.get(circuit)
    if stated is not None and stated.rail is not None:
        return f"write `{free}` for `{address.rail}.{address.channel}` where {circuit} is put there"
    return f"write `bind {circuit} to {free}`"
