"""No value, no number: what is missing leaves None and one finding per culprit."""

from __future__ import annotations

from making import COLD_FACTS, MODULE, Bench, rules, single
from oracle.nodal import solve
from random_shows import moment_of

from compiler.circuit import Solution, build_wiring, solve_show
from compiler.model.quantities import ZERO, Given
from compiler.model.solved import Address, Schedule
from compiler.model.types import Feed
from compiler.model.values import replace


def bench() -> Bench:
    """Three circuits alive at once on two rails of one supply, and one on another supply."""
    made = Bench()
    made.supply("P", 24.0, 0.5)
    made.supply("S", 24.0, 0.5)
    made.rail("A", "P", 2.0)
    made.rail("B", "P", 2.0)
    made.rail("Z", "S")
    made.circuit("a1", single("ma1", 5.0), "A", (0, 10))
    made.circuit("a2", single("ma2", 5.0), "A", (0, 10))
    made.circuit("b1", single("mb1", 5.0), "B", (0, 10))
    made.circuit("z1", single("mz1", 5.0), "Z", (0, 10))
    return made


def told(solution: Solution) -> list[tuple[str, object, str]]:
    """Rule, place and role of the findings."""
    return [(each.rule, each.at, each.role) for each in solution.findings]


def known(solution: Solution) -> set[str]:
    """The circuits whose current is known; the others must be None throughout."""
    found = set()
    for name, result in solution.circuits.items():
        matches = result.matches.values()
        if result.current_a is None:
            assert all(m.current_a is None and m.impulse_a2s is None for m in matches)
            assert all(m.least_sibling_shorted_a is None for m in matches)
        else:
            assert all(m.current_a is not None for m in matches)
            found.add(name)
        assert result.resistance_ohm.low > 0.0
        assert result.readings
    return found


def test_a_whole_show_has_no_findings() -> None:
    """The base from which the others take something away."""
    solution = bench().solve()
    assert solution.findings == ()
    assert known(solution) == {"a1", "a2", "b1", "z1"}


def test_a_battery_without_voltage_or_inner_resistance_is_told_once_for_each() -> None:
    """Everything on that supply is unknown, nothing on the other."""
    made = bench()
    made.batteries["of-P"] = replace(made.batteries["of-P"], emf_v=None, inner_ohm=None)
    solution = made.solve()
    assert told(solution) == [
        ("not-computed", "battery:of-P", "voltage"),
        ("not-computed", "battery:of-P", "inner"),
    ]
    assert known(solution) == {"z1"}
    (broken,) = [each for each in solution.instants if each.supply == "P"]
    assert (broken.supply_a, broken.rails, broken.feeds) == (None, (), {})
    assert broken.circuits == ("a1", "a2", "b1")


def test_a_module_without_driver_resistance_takes_its_whole_moment_with_it() -> None:
    """What is alive with an unknown load is not known either; alone it still is."""
    made = bench()
    made.modules["blank"] = replace(MODULE, name="blank", driver_ohm=None)
    made.rails["B"] = replace(made.rails["B"], module="blank")
    solution = made.solve()
    assert told(solution) == [("not-computed", "module:blank", "driver")]
    assert known(solution) == {"z1"}
    assert solution.circuits["a1"].alone_current_a is not None
    assert solution.circuits["b1"].alone_current_a is None
    assert solution.circuits["b1"].shorted_current_a is None


def test_a_rail_without_a_feed_is_told() -> None:
    """Its circuits have no moment, for no supply feeds them."""
    made = bench()
    made.rails["B"] = replace(made.rails["B"], feed=None)
    solution = made.solve()
    assert told(solution) == [("not-computed", "rail:B", "feed")]
    assert known(solution) == {"a1", "a2", "z1"}


def test_a_feed_from_nowhere_or_through_nothing_is_told() -> None:
    """An unknown source, an unknown cable, no cable."""
    for feed, told_of in (
        (Feed("X>B", "X", "B", 2.0, "wire"), "is fed from X"),
        (Feed("P>B", "P", "B", 2.0, "rope"), "through cable rope"),
        (Feed("P>B", "P", "B", 2.0, None), "through a cable"),
    ):
        made = bench()
        made.rails["B"] = replace(made.rails["B"], feed=feed)
        solution = made.solve()
        assert told(solution) == [("not-computed", "rail:B", "feed")]
        assert told_of in solution.findings[0].headline
        assert "b1" not in known(solution)


def test_feeds_that_lead_round_in_a_ring_are_told_once() -> None:
    """Also for the rails that hang on the ring."""
    made = bench()
    made.rail("B", "A", 2.0)
    made.rail("A", "B", 2.0)
    made.rail("C", "A", 2.0)
    made.circuit("c1", single("mc1", 5.0), "C", (0, 10))
    solution = made.solve()
    assert told(solution) == [("not-computed", "rail:A", "feed")]
    assert "A from B from A" in solution.findings[0].headline
    assert known(solution) == {"z1"}


def test_a_rail_that_no_circuit_is_on_is_not_asked_about() -> None:
    """Nothing depends on it."""
    made = bench()
    made.rails["Spare"] = replace(made.rails["B"], name="Spare", feed=None)
    assert made.solve().findings == ()


def test_a_circuit_without_an_address_keeps_its_resistance_and_readings() -> None:
    """Its currents are None, without a finding of the engine."""
    made = bench()
    made.circuit("free", single("mf", 5.0))
    solution = made.solve()
    assert solution.findings == ()
    assert known(solution) == {"a1", "a2", "b1", "z1"}
    free = solution.circuits["free"]
    assert (free.alone_current_a, free.shorted_current_a, free.test_a) == (None, None, None)
    assert (free.test_limit_a, free.test_limit_id) == (0.025, "test-current")
    assert free.matches["mf"].required_a == 0.6


def test_an_address_on_an_unknown_rail_gives_no_currents() -> None:
    """The engine does not fall over it."""
    made = bench()
    made.addresses["a1"] = Address("Q", 1, True)
    solution = made.solve()
    assert solution.circuits["a1"].current_a is None
    assert told(solution) == [("not-computed", "rail:Q", "")]


def test_a_circuit_without_a_wiring_leaves_its_moment_unknown() -> None:
    """Its load beside the others is not known."""
    made = bench()
    wirings = made.wirings()
    del wirings["b1"]
    solution = solve_show(made.model(), wirings, made.addresses, Schedule((), tuple(made.alive)))
    assert set(solution.circuits) == {"a1", "a2", "z1"}
    assert known(solution) == {"z1"}


def test_a_drop_that_eats_the_voltage_is_told_once_per_rail() -> None:
    """A current backwards is no current."""
    made = bench()
    made.modules["diode"] = replace(MODULE, name="diode", driver_drop_v=Given(1.0, 20.0, 25.0))
    made.rails["A"] = replace(made.rails["A"], module="diode")
    solution = made.solve()
    assert told(solution) == [("not-computed", "rail:A", "")]
    assert known(solution) == {"z1"}
    assert solution.circuits["b1"].alone_current_a is not None


def test_a_blocked_driver_never_feeds_what_is_beside_it() -> None:
    """A short pulls the rails below a drop of 2 V: its drivers block, they push nothing back.

    Beside them a match gets no more than with their circuits absent; they get nothing.
    """
    made = Bench(facts=COLD_FACTS, rules=rules(sun_heating=0.0))
    made.supply("P", 24.0, 2.0)
    made.modules["diode"] = replace(MODULE, name="diode", driver_drop_v=Given(2.0, 2.5, 3.0))
    made.rail("A", "P", module="diode")
    made.rail("B", "P")
    made.circuit("quick", single("mq", 0.0), "B", (0, 10))
    made.circuit("beside", single("mb", 5.0), "B", (0, 10))
    for k in "12":
        made.circuit(f"a{k}", single(f"ma{k}", 5.0), "A", (0, 10))
    solution = made.solve()
    assert solution.findings == ()
    case = moment_of(made)
    values = {**case.at("low"), "driver:beside": 0.12, "beside/bridge:mb": 1.8}
    values["quick/bridge:mq"] = 0.0
    absent = frozenset({"driver:a1", "driver:a2"})
    exact = solve(case.network, values, absent=absent).amps["beside/bridge:mb"]
    pushed = solve(case.network, values).amps
    assert pushed["driver:a1"] < 0.0
    assert pushed["beside/bridge:mb"] > exact
    found = solution.circuits["beside"].matches["mb"].least_sibling_shorted_a
    assert found is not None
    assert 0.5 * exact < found <= exact
    assert solution.circuits["a1"].matches["ma1"].least_sibling_shorted_a == 0.0


def test_a_short_that_nothing_limits_has_no_number() -> None:
    """Neither infinite nor enormous: not computed, and told."""
    made = Bench()
    made.supply("P", 24.0, 0.0)
    made.modules["module"] = replace(MODULE, driver_ohm=ZERO)
    made.rail("A", "P")
    made.circuit("C", single("M", 0.0), "A", (0, 10))
    solution = made.solve()
    assert told(solution) == [("not-computed", "rail:A", "")]
    assert known(solution) == set()
    assert solution.circuits["C"].shorted_current_a is None


def test_feeds_are_listed_with_both_conductors_over_the_ambient_range() -> None:
    """2 m of 0.03 ohm per m; a feed of no length is no ohm; an unknown cable is left out."""
    made = bench()
    made.rail("X", "P", 5.0, "rope")
    feeds = made.solve().feeds_ohm
    assert set(feeds) == {"P>A", "P>B", "S>Z"}
    low, nominal, high = feeds["P>A"]
    assert abs(nominal - 0.12) < 1e-15
    assert low == 0.12 * (1 - 0.00393 * 15)
    assert high == 0.12 * (1 + 0.00393 * 35)
    assert feeds["S>Z"] == ZERO


def test_every_finding_says_where_why_and_what_to_do() -> None:
    """Headline, subject, detail and remedy."""
    made = bench()
    made.modules["blank"] = replace(MODULE, name="blank", driver_ohm=None)
    made.rails["B"] = replace(made.rails["B"], module="blank")
    made.rails["A"] = replace(made.rails["A"], feed=None)
    made.batteries["of-S"] = replace(made.batteries["of-S"], emf_v=None)
    made.cables = {}
    findings = list(made_findings(made))
    assert len(findings) >= 4
    for each in findings:
        assert each.headline
        assert not each.headline.endswith(".")
        assert each.detail.endswith(".")
        assert "`" in each.hint
        assert each.at
        assert each.subject


def made_findings(made: Bench) -> list[object]:
    """Findings of the solver and of the wiring together."""
    whole = bench()
    solution = solve_show(made.model(), whole.wirings(), made.addresses, Schedule((), tuple(made.alive)))
    wiring = [f for c in made.circuits.values() for f in build_wiring(c, made.model())[1]]
    return [*solution.findings, *wiring]
