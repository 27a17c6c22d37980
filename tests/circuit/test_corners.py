"""Corners by brute force: every combination of low and high, and of open and shorted siblings."""

from __future__ import annotations

from itertools import product

import pytest
from making import COLD_FACTS, MATCH, MODULE, Bench, cable, rules
from oracle.nodal import solve
from random_shows import Moment, moment_of

from compiler.model.quantities import ZERO, Given
from compiler.model.types import Group, Run
from compiler.model.values import replace

LINES = {
    "alone": [Group("single", ("a",), lead=Run(20.0, "wire"))],
    "series": [Group("series", ("a", "b", "c"), lead=Run(20.0, "wire"))],
    "parallel": [Group("parallel", ("a", "b", "c"), lead=Run(20.0, "wire"))],
    "ladder": [Group("parallel", ("a", "b", "c"), Run(6.0, "wire"), lead=Run(20.0, "wire"))],
    "middle-fed": [Group("parallel", ("a", "b", "c"), Run(6.0, "wire"), "b")],
    "blocks": [
        Group(
            "parallel",
            (Group("series", ("a", "b")), Group("series", ("c", "d"))),
            lead=Run(9.0, "wire"),
        )
    ],
    "series of parallels": [
        Group(
            "series",
            (Group("parallel", ("a", "b")), Group("parallel", ("c", "d"))),
            lead=Run(9.0, "wire"),
        )
    ],
    "two at once": [
        Group("series", ("a", "b"), lead=Run(20.0, "wire")),
        Group("single", ("c",), lead=Run(5.0, "wire")),
    ],
    "three at once": [
        Group("single", ("a",), lead=Run(20.0, "wire")),
        Group("single", ("b",), lead=Run(5.0, "wire")),
        Group("single", ("c",), lead=Run(9.0, "wire")),
    ],
}


def moment(title: str) -> Moment:
    """The circuits of a title on two rails in a daisy chain, one of them with a drop."""
    wide = cable("wire", Given(0.020, 0.025, 0.032))
    bench = Bench(facts=COLD_FACTS, rules=rules(sun_heating=0.0), cables={"wire": wide})
    bench.modules["near"] = replace(MODULE, name="near", driver_drop_v=Given(0.1, 0.4, 0.9))
    bench.modules["far"] = replace(MODULE, name="far", driver_ohm=Given(0.1, 0.2, 0.5))
    bench.supply("P", Given(20.0, 24.0, 29.0), Given(0.1, 0.3, 0.8))
    bench.rail("A", "P", 4.0, "wire", "near")
    bench.rail("B", "A", 7.0, "wire", "far")
    for k, group in enumerate(LINES[title]):
        bench.circuit(f"C{k}", group, "AB"[k % 2], (0, 1))
    for k, match in enumerate(bench.uses):
        kind = replace(MATCH, name=f"type-{match}", bridge_ohm=Given(1.1 + k / 9, 1.6 + k / 9, 2.2))
        bench.matches[kind.name] = kind
        bench.uses[match] = replace(bench.uses[match], igniter=kind.name)
    return moment_of(bench)


def uncertain(case: Moment, keys: list[str]) -> list[dict[str, float]]:
    """Every combination of low and high of these keys."""
    ends = [{case.givens[key].low, case.givens[key].high} for key in keys]
    return [dict(zip(keys, values, strict=True)) for values in product(*map(sorted, ends))]


@pytest.mark.parametrize("title", LINES)
def test_no_combination_of_corners_gives_less_than_the_least(title: str) -> None:
    """And one of them gives exactly the least: it is a corner, not just a bound."""
    case = moment(title)
    circuits = case.bench.solve().circuits
    least = dict.fromkeys(case.bridges(), float("inf"))
    for values in uncertain(case, [key for key, given in case.givens.items() if given != ZERO]):
        amps = solve(case.network, {**case.at("nominal"), **values}).amps
        for key in least:
            least[key] = min(least[key], amps[key])
    for key, (circuit, match) in case.bridges().items():
        current = circuits[circuit].matches[match].current_a
        assert current is not None
        assert current.least == pytest.approx(least[key], rel=1e-9)


@pytest.mark.parametrize("title", LINES)
def test_no_state_of_its_siblings_gives_more_than_the_greatest(title: str) -> None:
    """Every other match unfired, open or shorted; every other circuit alive or absent."""
    case = moment(title)
    circuits = case.bench.solve().circuits
    bridges = case.bridges()
    strong = {**case.at("low"), "emf": case.givens["emf"].high}
    for key, (circuit, match) in bridges.items():
        others = [other for other in bridges if other != key]
        drivers = [k for k in case.givens if k.startswith("driver:") and k != f"driver:{circuit}"]
        greatest = 0.0
        states = product(("unfired", "open", "short"), repeat=len(others))
        for state in states:
            for gone in product((False, True), repeat=len(drivers)):
                absent = {d for d, away in zip(drivers, gone, strict=True) if away}
                absent |= {o for o, s in zip(others, state, strict=True) if s == "open"}
                shorts = {o: 0.0 for o, s in zip(others, state, strict=True) if s == "short"}
                amps = solve(case.network, {**strong, **shorts}, absent=frozenset(absent)).amps
                greatest = max(greatest, amps[key])
        current = circuits[circuit].matches[match].current_a
        assert current is not None
        assert current.greatest == pytest.approx(greatest, rel=1e-9)


@pytest.mark.parametrize("title", ["series", "ladder", "blocks", "two at once"])
def test_the_channel_gets_least_at_a_corner_too(title: str) -> None:
    """Own circuit and path high, what is beside it low."""
    case = moment(title)
    circuits = case.bench.solve().circuits
    for name, result in circuits.items():
        least = min(
            solve(case.network, {**case.at("nominal"), **values}).amps[f"driver:{name}"]
            for values in uncertain(case, [key for key, g in case.givens.items() if g != ZERO])
        )
        assert result.current_a is not None
        assert result.current_a.least == pytest.approx(least, rel=1e-9)


def test_the_short_of_a_channel_credits_the_lead_and_nothing_after_it() -> None:
    """Greatest supply, least inner, feed, driver and lead; no leg, no segment, no bridge."""
    case = moment("ladder")
    givens = case.givens
    ohm = givens["inner"].low + givens["feed:A"].low + givens["driver:C0"].low
    wanted = (29.0 - 0.1) / (ohm + 2 * 20.0 * 0.020)
    assert case.bench.solve().circuits["C0"].shorted_current_a == pytest.approx(wanted, rel=1e-12)


def test_equally_quick_matches_count_the_one_whose_short_hurts() -> None:
    """Two blocks of two: a short in the own block helps, one in the other block starves."""
    bench = Bench(facts=COLD_FACTS, rules=rules(sun_heating=0.0))
    bench.supply("P", 24.0, 0.5)
    bench.rail("A", "P")
    blocks = tuple(Group("series", (f"{k}a", f"{k}b")) for k in "xy")
    bench.circuit("C", Group("parallel", blocks, lead=Run(50.0, "wire")), "A", (0, 1))
    case = moment_of(bench)
    starved = {**case.at("low"), "emf": 24.0, "C/bridge:ya": 0.0, "driver:C": 0.12}
    starved |= {"C/bridge:xa": 1.8, "C/bridge:xb": 1.8}
    wanted = solve(case.network, starved).amps["C/bridge:xa"]
    for match in bench.solve().circuits["C"].matches.values():
        assert match.least_sibling_shorted_a == pytest.approx(wanted, rel=1e-9)
        assert match.current_a is not None
        assert wanted < match.current_a.least


def test_equally_quick_circuits_count_the_one_on_the_same_rail() -> None:
    """Its short pulls on the own feed as well."""
    bench = Bench(facts=COLD_FACTS, rules=rules(sun_heating=0.0))
    bench.supply("P", 24.0, 0.1)
    for rail in "AB":
        bench.rail(rail, "P", 10.0)
        for k in "12":
            bench.circuit(f"{rail}{k}", Group("single", (f"m{rail}{k}",), lead=Run(5.0, "wire")), rail, (0, 1))
    case = moment_of(bench)
    values = {**case.at("low"), "C": 0.0, "B1/bridge:mB1": 1.8, "driver:B1": 0.12}
    wanted = solve(case.network, {**values, "B2/bridge:mB2": 0.0}).amps["B1/bridge:mB1"]
    other = solve(case.network, {**values, "A1/bridge:mA1": 0.0}).amps["B1/bridge:mB1"]
    found = bench.solve().circuits["B1"].matches["mB1"].least_sibling_shorted_a
    assert found == pytest.approx(wanted, rel=1e-9)
    assert wanted < other


def test_a_match_right_beside_a_dead_short_gets_nothing() -> None:
    """No legs, no joints: the shorted match takes it all."""
    bench = Bench()
    bench.supply("P", 24.0, 0.1)
    bench.rail("A", "P")
    bench.circuit("C", Group("parallel", ("a", "b")), "A", (0, 1))
    found = bench.solve().circuits["C"].matches
    assert [each.least_sibling_shorted_a for each in found.values()] == [0.0, 0.0]


def test_a_lone_match_has_no_sibling_so_both_statements_agree() -> None:
    """Neither in its circuit nor beside it."""
    bench = Bench()
    bench.supply("P", 24.0, 0.1)
    bench.rail("A", "P")
    bench.circuit("C", Group("single", ("a",), lead=Run(5.0, "wire")), "A", (0, 1))
    found = bench.solve().circuits["C"].matches["a"]
    assert found.current_a is not None
    assert found.least_sibling_shorted_a == found.current_a.least
