"""Random shows for one moment: one supply, rails that may hang on each other, circuits alive.

Everything is invented and seeded. Every match has a type of its own, so that hardly any two
currents are equal.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

from making import FACTS, MATCH, MODULE, Bench, cable
from oracle.nodal import Network, solve
from oracle.physical import field_of

from compiler.model.quantities import ZERO, Given
from compiler.model.solved import Wiring
from compiler.model.types import Group, Model, Run
from compiler.model.values import replace


@dataclass(frozen=True)
class Moment:
    """A show with all its circuits alive at once, and what the oracles need of it."""

    bench: Bench
    model: Model
    wirings: dict[str, Wiring]
    network: Network
    givens: dict[str, Given]

    def at(self, corner: str) -> dict[str, float]:
        """All values low, nominal or high."""
        return {key: getattr(given, corner) for key, given in self.givens.items()}

    def bridges(self) -> dict[str, tuple[str, str]]:
        """Per key of a bridge its circuit and its match."""
        return {
            f"{name}/{element.id}": (name, element.match or "")
            for name, wiring in self.wirings.items()
            for element in wiring.elements.values()
            if element.what == "bridge"
        }


def spread(rnd: random.Random, least: float, most: float) -> Given:
    """A given with its nominal between two bounds and some tolerance to both sides."""
    nominal = rnd.uniform(least, most)
    return Given(nominal * rnd.uniform(0.8, 1.0), nominal, nominal * rnd.uniform(1.0, 1.25))


def random_moment(seed: int, most_matches: int) -> Moment:
    """One random show of up to that many matches, all circuits alive from 0 to 100 ms."""
    rnd = random.Random(seed)
    bench = _field(rnd)
    left = rnd.randint(1, most_matches)
    number = 0
    while left > 0 and number < 6:
        count = left if number == 5 else rnd.randint(1, left)
        rail = rnd.choice(sorted(bench.rails))
        _circuit(bench, rnd, f"C{number}", rail, count)
        left -= count
        number += 1
    return moment_of(bench)


def _field(rnd: random.Random) -> Bench:
    """Supply, rails and cables."""
    facts = replace(
        FACTS,
        ambient_c=(rnd.choice([-10.0, 5.0, 22.0]), rnd.choice([22.0, 30.0, 40.0])),
        joint_ohm=rnd.choice([ZERO, Given(0.0, 0.005, 0.01)]),
    )
    cables = {
        name: cable(name, spread(rnd, 0.01, 0.09), alpha_per_k=rnd.choice([0.00393, 0.0038]))
        for name in ("wire", "thin", "trunk")
    }
    bench = Bench(facts=facts, cables=cables)
    bench.supply("P", spread(rnd, 12.0, 48.0), spread(rnd, 0.02, 0.4))
    sources = ["P"]
    for name in "ABCD"[: rnd.randint(1, 4)]:
        drop = rnd.choice([ZERO, Given(0.1, 0.2, 0.3)])
        module = replace(MODULE, name=f"of-{name}", driver_ohm=spread(rnd, 0.05, 0.3), driver_drop_v=drop)
        bench.modules[module.name] = module
        length = rnd.choice([0.0, 2.0, 12.0])
        bench.rail(name, rnd.choice(sources), length, "trunk", module.name)
        sources.append(name)
    return bench


def _circuit(bench: Bench, rnd: random.Random, name: str, rail: str, count: int) -> None:
    """One circuit of that many matches on a rail."""
    matches = [f"{name}m{k}" for k in range(count)]
    wiring = replace(_group(rnd, matches, 0), lead=_run(rnd))
    bench.circuit(name, wiring, rail, (0, 100_000))
    for match in matches:
        legs = rnd.choice([0.0, 1.0, 3.0])
        kind = replace(
            MATCH,
            name=f"type-{match}",
            bridge_ohm=spread(rnd, 0.8, 2.5),
            leg_length_m=legs,
            leg_cable="thin" if legs else None,
        )
        bench.matches[kind.name] = kind
        bench.uses[match] = replace(bench.uses[match], igniter=kind.name)


def _run(rnd: random.Random) -> Run:
    """A length of cable; now and then none at all."""
    return Run(rnd.choice([0.0, 2.0, 5.5, 40.0]), rnd.choice(["wire", "thin"]))


def _group(rnd: random.Random, matches: list[str], depth: int) -> Group:
    """A random group over these matches."""
    if len(matches) == 1:
        return Group("single", tuple(matches), lead=rnd.choice([None, _run(rnd)]))
    members: list[str | Group] = []
    rest = list(matches)
    while rest:
        nest = depth < 3 and len(rest) > 1 and rnd.random() < 0.3
        size = rnd.randint(2, len(rest)) if nest else 1
        if size == len(matches):
            size -= 1
        part, rest = rest[:size], rest[size:]
        members.append(part[0] if len(part) == 1 else _group(rnd, part, depth + 1))
    how = rnd.choice(["series", "parallel"])
    spacing = rnd.choice([None, _run(rnd)])
    fed = rnd.choice(matches) if how == "parallel" and rnd.random() < 0.5 else None
    # One lead per first match: a second one would bear the first one's id with a number.
    plain = isinstance(members[0], str)
    lead = _run(rnd) if depth and plain and rnd.random() < 0.3 else None
    return Group(how, tuple(members), spacing, fed, lead)


def moment_of(bench: Bench) -> Moment:
    """What the oracles need of a show with one supply `P` whose circuits are all alive at once."""
    model, wirings = bench.model(), bench.wirings()
    battery = model.batteries[model.supplies["P"].battery]
    assert battery.emf_v is not None
    assert battery.inner_ohm is not None
    givens = {"emf": battery.emf_v, "inner": battery.inner_ohm}
    cold = min(model.show.ambient_c[0], 20.0) - 20.0
    sun = model.rules.limits["sun-heating"].value
    hot = max(model.show.ambient_c[1] + sun, 20.0) - 20.0
    for rail in model.rails.values():
        feed = rail.feed
        assert feed is not None
        givens[f"feed:{rail.name}"] = ZERO
        if feed.length_m:
            wire = model.cables[feed.cable or ""]
            low, nominal, high = (2.0 * feed.length_m * each for each in wire.ohm_per_m)
            alpha = wire.alpha_per_k
            givens[f"feed:{rail.name}"] = Given(low * (1.0 + alpha * cold), nominal, high * (1.0 + alpha * hot))
    rails_of = {name: address.rail for name, address in bench.addresses.items()}
    for name, rail_name in rails_of.items():
        module = model.modules[model.rails[rail_name].module]
        assert module.driver_ohm is not None
        givens[f"driver:{name}"] = module.driver_ohm
        givens[f"drop:{name}"] = module.driver_drop_v
        for element in wirings[name].elements.values():
            givens[f"{name}/{element.id}"] = element.ohm
    network = field_of(model, rails_of, list(rails_of))
    return Moment(bench, model, wirings, network, givens)


def adverse(moment: Moment, rises: dict[str, float], *, fixed: dict[str, float] | None = None) -> dict[str, float]:
    """The values that make a watched current least, told by the sign of its sensitivities."""
    values = {key: given.low if rises[key] > 0.0 else given.high for key, given in moment.givens.items()}
    return {**values, **(fixed or {})}


def least_by_signs(moment: Moment, key: str, fixed: dict[str, float] | None = None) -> tuple[float, dict[str, float]]:
    """The least current of a key and the corner where it occurs, with some values fixed."""
    nominal = {**moment.at("nominal"), **(fixed or {})}
    (rises,) = solve(moment.network, nominal, watch=(key,)).rises
    corner = adverse(moment, rises, fixed=fixed)
    return solve(moment.network, corner).amps[key], corner
