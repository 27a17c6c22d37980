"""Addresses: bound ones stand; every other circuit takes the nearest rail with a free channel.

Circuits are served by fired time, then by natural name, never by the order of writing.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from compiler.layout.runs import distance_m, joined_at
from compiler.model.solved import Address
from compiler.model.types import Circuit, Model, Rail
from compiler.vocabulary.names import natural
from grammar.findings import Finding


class Addressed(NamedTuple):
    """Addresses by circuit, and a finding for those without."""

    addresses: dict[str, Address]
    findings: tuple[Finding, ...]


def addresses(model: Model) -> Addressed:
    """Find a channel for every circuit. A circuit that finds none is a finding."""
    found: dict[str, Address] = {}
    taken: dict[str, set[int]] = {rail: set() for rail in model.rails}
    for circuit in model.circuits.values():
        if circuit.rail is not None and circuit.channel is not None and circuit.rail in model.rails:
            found[circuit.name] = Address(circuit.rail, circuit.channel, bound=True)
            taken[circuit.rail].add(circuit.channel)
    free = {name: _free(model, rail, taken[name]) for name, rail in model.rails.items()}
    rails = sorted(model.rails.values(), key=lambda rail: natural(rail.name))
    near = _Nearest(model, rails)
    apart = _Apart(model, found)
    homeless: list[Circuit] = []
    for circuit in _by_time(model):
        if circuit.name in found or circuit.rail is not None:
            continue
        rail = apart.best(circuit, [rail for rail in near.rails(circuit) if free[rail.name]])
        if rail is None:
            homeless.append(circuit)
        else:
            found[circuit.name] = Address(rail.name, free[rail.name].pop(), bound=False)
            apart.take(circuit, rail)
    return Addressed(found, _homeless(model, homeless))


def spare_of(model: Model, rail: Rail) -> int:
    """How many channels of a rail stay free: as it says, else by the limits."""
    if rail.spare is not None:
        return rail.spare
    channels = model.modules[rail.module].channels
    share, least = model.rules.limits["spare-share"].value, model.rules.limits["spare-least"].value
    return min(channels, max(int(least), math.ceil(share * channels - 1e-9)))


def _free(model: Model, rail: Rail, taken: set[int]) -> list[int]:
    """Free channels, the lowest last; the spare ones, at the top of the rail, left out."""
    channels = model.modules[rail.module].channels
    free = [number for number in range(1, channels + 1) if number not in taken]
    keep = len(free) - spare_of(model, rail)
    return free[: max(0, keep)][::-1]


def _by_time(model: Model) -> list[Circuit]:
    fired: dict[str, float] = {}
    for cue in model.cues:
        at = cue.lit_s if cue.lit_s is not None else (cue.seen_s or 0.0) - cue.prefire_s.nominal
        for name in cue.circuits:
            fired[name] = min(at, fired.get(name, math.inf))
    return sorted(model.circuits.values(), key=lambda c: (fired.get(c.name, math.inf), natural(c.name)))


class _Apart:
    """Keeps the lines of a key effect on different supplies, or at least on different rails."""

    def __init__(self, model: Model, found: dict[str, Address]) -> None:
        self.model = model
        self.used: dict[str, list[Rail]] = {}
        for name, address in found.items():
            self.take(model.circuits[name], model.rails[address.rail])

    def take(self, circuit: Circuit, rail: Rail) -> None:
        """Remember where a line of a key effect went."""
        if circuit.key_effect is not None:
            self.used.setdefault(circuit.key_effect, []).append(rail)

    def best(self, circuit: Circuit, rails: list[Rail]) -> Rail | None:
        """The nearest rail, of another supply and rail than the effect's other lines where there is one."""
        others = self.used.get(circuit.key_effect, []) if circuit.key_effect is not None else []
        if others:
            supplies, names = {self.supply(rail) for rail in others}, {rail.name for rail in others}
            better = [r for r in rails if self.supply(r) not in supplies] or [r for r in rails if r.name not in names]
            rails = better or rails
        return rails[0] if rails else None

    def supply(self, rail: Rail) -> str:
        """The supply at the root of a rail's feeds; empty where there is none."""
        seen: set[str] = set()
        while rail.feed is not None and rail.name not in seen:
            seen.add(rail.name)
            if rail.feed.source not in self.model.rails:
                return rail.feed.source
            rail = self.model.rails[rail.feed.source]
        return ""


class _Nearest:
    """Rails by distance for each spot, computed once a spot."""

    def __init__(self, model: Model, rails: list[Rail]) -> None:
        self.model = model
        self.all = [rail for rail in rails if not rail.serves]
        self.serving: dict[str, list[Rail]] = {}
        for rail in rails:
            for place in rail.serves:
                self.serving.setdefault(place, []).append(rail)
        self._known: dict[tuple[str, float, float, float], list[Rail]] = {}

    def rails(self, circuit: Circuit) -> list[Rail]:
        use = self.model.match_uses[joined_at(circuit.wiring)]
        key = (circuit.place, use.x_m, use.y_m, use.z_m)
        known = self._known.get(key)
        if known is None:
            fit = sorted((*self.all, *self.serving.get(circuit.place, ())), key=lambda rail: natural(rail.name))
            route, positions = self.model.show.route, self.model.positions
            fit.sort(key=lambda r: (circuit.place not in r.prefers, distance_m(positions[r.position], use, route)))
            known = self._known[key] = fit
        return known


def _homeless(model: Model, circuits: list[Circuit]) -> tuple[Finding, ...]:
    """One finding a place: the mend is one."""
    by_place: dict[str, list[Circuit]] = {}
    for circuit in circuits:
        by_place.setdefault(circuit.place, []).append(circuit)
    return tuple(_one_place(model, place, some) for place, some in by_place.items())


def _one_place(model: Model, place: str, circuits: list[Circuit]) -> Finding:
    first, more = circuits[0], len(circuits) - 1
    serving = [rail.name for rail in model.rails.values() if not rail.serves or place in rail.serves]
    serving.sort(key=natural)
    which = (
        f"circuit `{first.name}` at `{place}` has"
        if not more
        else f"{more + 1} circuits at `{place}`, `{first.name}` first, have"
    )
    if not model.rails:
        why, hint = "the show has no rail", "Add one: `rail A of dc-16 at Q1 { feed Pack-1 through 3 m of trunk-2.5 }`."
    elif not serving:
        why, hint = "no rail serves the place", f"Add `{place}` to a rail's `serves`."
    else:
        full = f"{', '.join(serving)} {'is' if len(serving) == 1 else 'are'} full"
        why = f"{full} but for spare channels"
        hint = f"Add a rail with {more + 1} channels or more that serves `{place}`, or let another rail serve it."
    return Finding(
        "no-free-channel", f"{which} no channel: {why}", f"circuit:{first.name}",
        subject=f"circuit {first.name}", values={"place": place, "circuits": [c.name for c in circuits]}, hint=hint,
    )  # fmt: skip
