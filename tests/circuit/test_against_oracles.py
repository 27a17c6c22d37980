"""520 random shows against dense nodal analysis and against ngspice, to 1e-9 of the largest current.

The networks are wired conductor by conductor from what the show says, see `oracle.physical`; the
corner of a least current is found by the signs of its sensitivities, not from any tree. ngspice:
a general-purpose circuit simulator, open source, run as a program.
"""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from making import names_of
from oracle import spice
from oracle.nodal import solve
from random_shows import Moment, least_by_signs, random_moment

from compiler.circuit import Solution
from compiler.model.quantities import Range
from compiler.model.types import Group

BATCHES = 20
PER_BATCH = 26
CLOSE = 1e-9


def moments(batch: int) -> list[tuple[Moment, random.Random]]:
    """The shows of a batch, two of them with up to 200 matches."""
    seeds = range(batch * PER_BATCH, (batch + 1) * PER_BATCH)
    return [(random_moment(seed, 200 if seed % 13 == 0 else 24), random.Random(-seed)) for seed in seeds]


def solved(moment: Moment) -> Solution:
    """The engine's answer, which must be whole."""
    solution = moment.bench.solve()
    assert solution.findings == ()
    assert len(solution.instants) == 1
    return solution


def some(moment: Moment, rnd: random.Random, count: int) -> list[tuple[str, str, str]]:
    """A few matches as (key of the bridge, circuit, match)."""
    bridges = [(key, *where) for key, where in moment.bridges().items()]
    return rnd.sample(bridges, min(count, len(bridges)))


def agree(ours: float, theirs: float, largest: float) -> bool:
    """Whether two currents agree, measured by the largest current of the network."""
    return abs(ours - theirs) <= CLOSE * largest


def largest(amps: dict[str, float]) -> float:
    """The largest current of a network."""
    return max(abs(each) for each in amps.values())


@pytest.mark.parametrize("batch", range(BATCHES))
def test_nominal_and_least_currents_agree_with_nodal_analysis_and_with_spice(batch: int, tmp_path: Path) -> None:
    """Every match's nominal and, for two matches of each show, the least current."""
    cases: list[spice.Case] = []
    wanted: list[tuple[float, float]] = []
    for moment, rnd in moments(batch):
        circuits = solved(moment).circuits
        nominal = moment.at("nominal")
        answer = solve(moment.network, nominal)
        top = largest(answer.amps)
        bridges = moment.bridges()
        for key, (circuit, match) in bridges.items():
            current = circuits[circuit].matches[match].current_a
            assert current is not None
            assert agree(current.nominal, answer.amps[key], top)
        cases.append((moment.network, nominal, frozenset(), tuple(bridges)))
        for circuit, match in bridges.values():
            current = circuits[circuit].matches[match].current_a
            assert current is not None
            wanted.append((current.nominal, top))
        for key, circuit, match in some(moment, rnd, 2):
            amps, corner = least_by_signs(moment, key)
            current = circuits[circuit].matches[match].current_a
            assert current is not None
            top = largest(solve(moment.network, corner).amps)
            assert agree(current.least, amps, top)
            cases.append((moment.network, corner, frozenset(), (key,)))
            wanted.append((current.least, top))
    theirs = [amps for case in spice.solve_all(cases, tmp_path) for amps in case.values()]
    assert len(theirs) == len(wanted)
    assert [k for k, (ours, top) in enumerate(wanted) if not agree(ours, theirs[k], top)] == []


@pytest.mark.parametrize("batch", range(BATCHES))
def test_a_shorted_match_beside_it_counts_in_the_second_statement(batch: int, tmp_path: Path) -> None:
    """The quickest other match of the circuit, and of the other circuits, replaced by a short."""
    cases: list[spice.Case] = []
    wanted: list[tuple[float, float]] = []
    compared = 0
    for moment, rnd in moments(batch):
        circuits = solved(moment).circuits
        nominal = solve(moment.network, moment.at("nominal")).amps
        for key, circuit, match in some(moment, rnd, 1):
            inside, outside = quickest_others(moment, nominal, key, circuit)
            if not 1 <= len(inside) + len(outside) <= 6:
                continue
            compared += 1
            groups = [
                [least_by_signs(moment, key, {short: 0.0}) for short in shorts]
                for shorts in (inside, outside)
                if shorts
            ]
            ours = circuits[circuit].matches[match].least_sibling_shorted_a
            assert ours is not None
            amps, corner = min(groups[-1], key=lambda each: each[0])
            top = largest(solve(moment.network, corner).amps)
            assert min(a for group in groups for a, _ in group) - CLOSE * top <= ours
            assert ours <= min(max(a for a, _ in group) for group in groups) + CLOSE * top
            cases.append((moment.network, corner, frozenset(), (key,)))
            wanted.append((amps, top))
    assert compared >= PER_BATCH // 2
    theirs = [next(iter(case.values())) for case in spice.solve_all(cases, tmp_path)]
    assert [k for k, (ours, top) in enumerate(wanted) if not agree(ours, theirs[k], top)] == []


def quickest_others(moment: Moment, nominal: dict[str, float], key: str, circuit: str) -> tuple[list[str], list[str]]:
    """The other matches with the greatest nominal current, of the circuit and of all others."""
    found = []
    for inside in (True, False):
        rest = [other for other, (name, _) in moment.bridges().items() if other != key and (name == circuit) == inside]
        most = max((nominal[other] for other in rest), default=0.0)
        found.append([other for other in rest if nominal[other] >= most * (1.0 - CLOSE)])
    return found[0], found[1]


@pytest.mark.parametrize("batch", range(BATCHES))
def test_greatest_currents_agree_with_absent_open_and_shorted_siblings(batch: int, tmp_path: Path) -> None:
    """Other circuits absent, parallel siblings open, series siblings shorted, all else low."""
    cases: list[spice.Case] = []
    wanted: list[tuple[float, float]] = []
    for moment, rnd in moments(batch):
        circuits = solved(moment).circuits
        for key, circuit, match in some(moment, rnd, 2):
            values = {**moment.at("low"), "emf": moment.givens["emf"].high}
            absent = {other for other in moment.givens if other.startswith("driver:")}
            absent.discard(f"driver:{circuit}")
            wiring = moment.model.circuits[circuit].wiring
            for other in names_of(wiring):
                if other == match:
                    continue
                bridge = f"{circuit}/bridge:{other}"
                if joined(wiring, match, other) == "parallel":
                    absent.add(bridge)
                else:
                    values[bridge] = 0.0
            answer = solve(moment.network, values, absent=frozenset(absent))
            current = circuits[circuit].matches[match].current_a
            assert current is not None
            assert agree(current.greatest, answer.amps[key], largest(answer.amps))
            cases.append((moment.network, values, frozenset(absent), (key,)))
            wanted.append((current.greatest, largest(answer.amps)))
    theirs = [next(iter(case.values())) for case in spice.solve_all(cases, tmp_path)]
    assert [k for k, (ours, top) in enumerate(wanted) if not agree(ours, theirs[k], top)] == []


def joined(group: Group, one: str, other: str) -> str:
    """How the innermost group that holds both matches joins its members."""
    here = group
    while True:
        inner = [
            member for member in here.members if isinstance(member, Group) and {one, other} <= set(names_of(member))
        ]
        if not inner:
            return here.how
        here = inner[0]


@pytest.mark.parametrize("batch", range(BATCHES))
def test_loads_of_supply_rails_and_feeds_agree_with_nodal_analysis(batch: int) -> None:
    """Nominal with all alive, least at its corner, greatest with circuits shorted and absent."""
    for moment, rnd in moments(batch):
        solution = solved(moment)
        (instant,) = solution.instants
        assert instant.supply_a is not None
        on = {name: address.rail for name, address in moment.bench.addresses.items()}
        nominal = solve(moment.network, moment.at("nominal")).amps
        check_load(moment, nominal, instant.supply_a, "inner", set(on))
        for name, amps in rnd.sample(sorted(instant.feeds.items()), 1):
            rail = name.split(">")[1]
            behind = {circuit for circuit in on if rail in upward(moment, on[circuit])}
            check_load(moment, nominal, amps, f"feed:{rail}", behind)
        for load in rnd.sample(instant.rails, 1):
            own = {circuit for circuit in on if on[circuit] == load.rail}
            assert load.count == len(own)
            key = f"driver:{min(own)}" if len(own) == 1 else ""
            check_load(moment, nominal, load.amps, key, own)
        assert [load.rail for load in instant.rails] == sorted(set(on.values()))
        check_alone(moment, solution, rnd)


def check_load(moment: Moment, nominal: dict[str, float], amps: Range, key: str, carried: set[str]) -> None:
    """One load against the sum over the circuits it carries; least where one edge bears it all."""
    total = sum(nominal[f"driver:{circuit}"] for circuit in carried)
    assert agree(amps.nominal, total, largest(nominal))
    others = {f"driver:{circuit}" for circuit in moment.bench.addresses if circuit not in carried}
    shorted = short_behind_leads(moment)
    most = solve(moment.network, shorted, absent=frozenset(others)).amps
    assert agree(amps.greatest, most["inner"], largest(most))
    if key and moment.givens[key].nominal:
        least, corner = least_by_signs(moment, key)
        assert agree(amps.least, least, largest(solve(moment.network, corner).amps))
    assert amps.least <= amps.nominal <= amps.greatest


def upward(moment: Moment, rail: str) -> list[str]:
    """A rail and all rails that feed it."""
    found = [rail]
    while (feed := moment.model.rails[found[-1]].feed) and feed.source in moment.model.rails:
        found.append(feed.source)
    return found


def short_behind_leads(moment: Moment) -> dict[str, float]:
    """Values with everything low, the supply high, and nothing but the leads in each circuit."""
    values = {**moment.at("low"), "emf": moment.givens["emf"].high}
    for key in moment.givens:
        circuit, slash, element = key.partition("/")
        if slash and not (element == "lead" or element in own_leads(moment, circuit)):
            values[key] = 0.0
    return values


def own_leads(moment: Moment, circuit: str) -> list[str]:
    """Leads of groups that directly follow the circuit's own lead, with nothing beside them."""
    found = []
    group = moment.model.circuits[circuit].wiring
    while len(group.members) == 1 and isinstance(group.members[0], Group):
        group = group.members[0]
        found.append(f"lead:{names_of(group)[0]}")
    if group.how == "series":
        first = group.members[0]
        while isinstance(first, Group) and (first.lead is not None or first.how != "parallel"):
            found.append(f"lead:{names_of(first)[0]}")
            if first.how == "parallel":
                break
            first = first.members[0]
    return found


def check_alone(moment: Moment, solution: Solution, rnd: random.Random) -> None:
    """One circuit of the show with all others absent."""
    name = rnd.choice(sorted(moment.bench.addresses))
    absent = frozenset(key for key in moment.givens if key.startswith("driver:") and key != f"driver:{name}")
    result = solution.circuits[name]
    assert result.alone_current_a is not None
    for corner, volts, ours in (
        ("high", "low", result.alone_current_a.least),
        ("nominal", "nominal", result.alone_current_a.nominal),
        ("low", "high", result.alone_current_a.greatest),
    ):
        values = {**moment.at(corner), "emf": getattr(moment.givens["emf"], volts)}
        amps = solve(moment.network, values, absent=absent).amps
        assert agree(ours, amps["inner"], largest(amps))
