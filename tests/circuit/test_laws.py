"""Laws of series-parallel circuits, tried on shows that hypothesis makes up."""

from __future__ import annotations

import random

from hypothesis import given, settings
from hypothesis import strategies as st
from making import MATCH, Bench, cable
from oracle.nodal import solve
from random_shows import random_moment

from compiler.circuit import Solution
from compiler.model.quantities import Given
from compiler.model.types import Group, Run
from compiler.model.values import replace

SEEDS = st.integers(0, 10**6)


def currents(solution: Solution) -> dict[str, tuple[float, float, float]]:
    """Least, nominal, greatest of every match."""
    return {
        name: tuple(match.current_a)
        for circuit in solution.circuits.values()
        for name, match in circuit.matches.items()
        if match.current_a is not None
    }


@given(SEEDS, st.integers(0, 10**6))
@settings(deadline=None, max_examples=60)
def test_the_corners_bound_every_random_sample(seed: int, draw: int) -> None:
    """Any values inside the tolerances, every match unfired, all circuits alive."""
    case = random_moment(seed, 14)
    found = currents(case.bench.solve())
    rnd = random.Random(draw)
    for _ in range(5):
        values = {key: rnd.uniform(each.low, each.high) for key, each in case.givens.items()}
        amps = solve(case.network, values).amps
        for key, (_, match) in case.bridges().items():
            least, _, greatest = found[match]
            assert least * (1 - 1e-9) <= amps[key] <= greatest * (1 + 1e-9)


@given(SEEDS)
@settings(deadline=None, max_examples=60)
def test_nominal_lies_between_least_and_greatest(seed: int) -> None:
    """For matches, channels and loads."""
    solution = random_moment(seed, 20).bench.solve()
    ranges = list(currents(solution).values())
    for circuit in solution.circuits.values():
        assert circuit.current_a is not None
        assert circuit.alone_current_a is not None
        assert circuit.shorted_current_a is not None
        assert circuit.alone_current_a.least >= circuit.current_a.least * (1 - 1e-12)
        assert circuit.shorted_current_a >= circuit.current_a.greatest
        ranges += [tuple(circuit.current_a), tuple(circuit.alone_current_a)]
        ranges.append(tuple(circuit.resistance_ohm))
    for instant in solution.instants:
        assert instant.supply_a is not None
        ranges += [tuple(load.amps) for load in instant.rails]
        ranges += [tuple(amps) for amps in (instant.supply_a, *instant.feeds.values())]
    assert all(0.0 < least <= nominal * (1 + 1e-12) for least, nominal, _ in ranges)
    assert all(nominal <= greatest * (1 + 1e-12) for _, nominal, greatest in ranges)


def line(count: int, lead_m: float, how: str, spacing_m: float | None) -> Bench:
    """One circuit on one rail."""
    bench = Bench(cables={"wire": cable("wire", Given(0.02, 0.025, 0.03))})
    bench.supply("P", Given(20.0, 24.0, 28.0), Given(0.1, 0.2, 0.4))
    bench.rail("A", "P", 3.0)
    spacing = None if spacing_m is None else Run(spacing_m, "wire")
    names = tuple(f"m{k}" for k in range(count))
    bench.circuit("C", Group(how, names, spacing, lead=Run(lead_m, "wire")), "A", (0, 1))
    return bench


LINES = {
    "count": st.integers(2, 12),
    "lead_m": st.floats(0.0, 80.0),
    "how": st.sampled_from(["series", "parallel"]),
    "spacing_m": st.none() | st.floats(0.0, 20.0),
}


@given(more_m=st.floats(0.01, 50.0), **LINES)
@settings(deadline=None, max_examples=60)
def test_a_longer_lead_never_raises_a_current(
    count: int, lead_m: float, how: str, spacing_m: float | None, more_m: float
) -> None:
    """Resistance in series with all of them: least, nominal and greatest fall."""
    before = currents(line(count, lead_m, how, spacing_m).solve())
    after = currents(line(count, lead_m + more_m, how, spacing_m).solve())
    for name, amps in before.items():
        pairs = zip(after[name], amps, strict=True)
        assert all(less <= more * (1 + 1e-12) for less, more in pairs)


@given(more_ohm=st.floats(0.01, 5.0), which=st.integers(0, 11), **LINES)
@settings(deadline=None, max_examples=60)
def test_more_resistance_in_a_match_never_raises_its_own_current(
    count: int, lead_m: float, how: str, spacing_m: float | None, more_ohm: float, which: int
) -> None:
    """Nor lowers that of a match beside it, nor raises that of one in series."""
    bench = line(count, lead_m, how, spacing_m)
    before = currents(bench.solve())
    match = f"m{which % count}"
    ohm = MATCH.bridge_ohm
    assert ohm is not None
    worse = Given(ohm.low + more_ohm, ohm.nominal + more_ohm, ohm.high + more_ohm)
    bench.matches["worse"] = replace(MATCH, name="worse", bridge_ohm=worse)
    bench.uses[match] = replace(bench.uses[match], igniter="worse")
    after = currents(bench.solve())
    for name, (least, nominal, _) in before.items():
        falls = how == "series" or name == match
        for was, now in ((least, after[name][0]), (nominal, after[name][1])):
            assert now <= was * (1 + 1e-12) if falls else now >= was * (1 - 1e-12)


@given(SEEDS, st.integers(1, 4))
@settings(deadline=None, max_examples=40)
def test_more_circuits_at_once_never_raise_the_least(seed: int, more: int) -> None:
    """Nor the nominal; the greatest takes them as absent and stays."""
    case = random_moment(seed, 12)
    before = currents(case.bench.solve())
    rail = min(case.bench.rails)
    for k in range(more):
        case.bench.circuit(f"X{k}", Group("single", (f"x{k}",), lead=Run(3.0, "wire")), rail, (0, 1))
    case.bench.alive[-more:] = [replace(each, to_us=100_000) for each in case.bench.alive[-more:]]
    after = currents(case.bench.solve())
    for name, (least, nominal, greatest) in before.items():
        assert after[name][0] <= least * (1 + 1e-12)
        assert after[name][1] <= nominal * (1 + 1e-12)
        assert after[name][2] == greatest


@given(SEEDS)
@settings(deadline=None, max_examples=30)
def test_order_of_declaration_changes_nothing(seed: int) -> None:
    """Circuits and alive times listed backwards give the same instants and currents."""
    bench = random_moment(seed, 14).bench
    before = bench.solve()
    bench.circuits = dict(reversed(bench.circuits.items()))
    bench.addresses = dict(reversed(bench.addresses.items()))
    bench.rails = dict(reversed(bench.rails.items()))
    bench.alive.reverse()
    after = bench.solve()
    assert before.instants == after.instants
    assert before.circuits == after.circuits
    assert currents(before) == currents(after)
