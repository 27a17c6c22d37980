"""Requirements, impulse, test current and readings."""

from __future__ import annotations

from typing import Any

import pytest
from making import MATCH, MODULE, Bench, rules

from compiler.model.quantities import Given
from compiler.model.solved import CircuitResult, MatchResult
from compiler.model.types import Group, Match, Run
from compiler.model.values import replace

LINES = {
    "alone": Group("single", ("a",)),
    "series": Group("series", ("a", "b")),
    "parallel": Group("parallel", ("a", "b")),
    "mixed": Group("parallel", (Group("series", ("a", "b")), "c")),
}


def result(use: str, match: Match = MATCH, lead_m: float = 10.0, **module: Any) -> CircuitResult:
    """One circuit of that use; keywords change the module."""
    bench = Bench(matches={"match": match})
    bench.modules["module"] = replace(MODULE, **module)
    bench.supply("P", Given(21.0, 24.0, 28.0), Given(0.1, 0.2, 0.4))
    bench.rail("A", "P")
    bench.circuit("C", replace(LINES[use], lead=Run(lead_m, "wire")), "A", (0, 10))
    return bench.solve().circuits["C"]


def first(*args: Any, **kwargs: Any) -> MatchResult:
    """The first match of `result`."""
    return result(*args, **kwargs).matches["a"]


@pytest.mark.parametrize(
    ("use", "required", "source"),
    [
        ("alone", 0.6, "alone"),
        ("series", 1.0, "series"),
        ("parallel", 0.9, "parallel"),
        ("mixed", 1.0, "series and parallel"),
    ],
)
def test_a_match_needs_the_firing_current_of_its_use(use: str, required: float, source: str) -> None:
    """In a mixed circuit the greater of both."""
    match = first(use)
    assert (match.use, match.required_a, match.required_from) == (use, required, source)
    assert match.required_a2s == 0.003


def test_a_mixed_circuit_takes_the_parallel_current_where_it_is_the_greater() -> None:
    """Whichever is the greater."""
    assert first("mixed", replace(MATCH, fires_parallel_a=1.3)).required_a == 1.3


@pytest.mark.parametrize("use", LINES)
def test_a_firing_current_that_is_not_stated_is_none(use: str) -> None:
    """No number is taken from another use; in a mixed circuit both are needed."""
    for missing in {
        "alone": ["fires_alone_a"],
        "series": ["fires_series_a"],
        "parallel": ["fires_parallel_a"],
        "mixed": ["fires_series_a", "fires_parallel_a"],
    }[use]:
        match = first(use, replace(MATCH, **{missing: None}))
        assert match.required_a is None
        assert match.impulse_a2s is None
        assert match.current_a is not None


def test_a_match_without_an_impulse_states_none() -> None:
    """The current is still checked; what the pulse gives is still known."""
    match = first("alone", replace(MATCH, impulse_a2s=None))
    assert match.required_a2s is None
    assert match.impulse_a2s is not None


def test_impulse_counts_for_the_function_time_at_most() -> None:
    """A pulse of 95 to 105 ms, but 10 ms where the class is unknown."""
    match = first("alone")
    assert match.current_a is not None
    assert match.impulse_a2s == pytest.approx([i * i * 0.010 for i in match.current_a])
    longer = first("alone", replace(MATCH, function_s=0.050))
    assert longer.impulse_a2s == pytest.approx([i * i * 0.050 for i in match.current_a])


def test_impulse_counts_no_longer_than_the_pulse_lasts() -> None:
    """Shortest pulse with least current, longest with greatest."""
    match = first("alone", pulse_s=Given(0.002, 0.003, 0.004))
    assert match.current_a is not None
    wanted = [i * i * t for i, t in zip(match.current_a, (0.002, 0.003, 0.004), strict=True)]
    assert match.impulse_a2s == pytest.approx(wanted)


def test_impulse_below_the_firing_current_counts_nothing() -> None:
    """However long it lasts."""
    match = first("alone", replace(MATCH, fires_alone_a=1000.0))
    assert match.impulse_a2s == (0.0, 0.0, 0.0)
    middle = first("alone")
    assert middle.current_a is not None
    edge = first("alone", replace(MATCH, fires_alone_a=middle.current_a.nominal))
    assert edge.impulse_a2s is not None
    assert edge.impulse_a2s.least == 0.0
    assert edge.impulse_a2s.nominal > 0.0


def test_a_module_without_a_pulse_is_told_and_gives_no_impulse() -> None:
    """Once per module."""
    bench = Bench()
    bench.modules["module"] = replace(MODULE, pulse_s=None)
    bench.supply("P", 24.0, 0.1)
    bench.rail("A", "P")
    for k in range(3):
        bench.circuit(f"C{k}", Group("single", (f"m{k}",)), "A", (k, k))
    solution = bench.solve()
    assert [(f.rule, f.at, f.role) for f in solution.findings] == [("not-computed", "module:module", "pulse")]
    assert solution.circuits["C0"].matches["m0"].impulse_a2s is None


def test_a_stated_test_current_counts_before_a_resistor() -> None:
    """And the resistor at its low end against the greatest voltage where none is stated."""
    assert result("alone").test_a == 0.008
    ohm = Given(2800.0, 3000.0, 3200.0)
    assert result("alone", test_resistor_ohm=ohm).test_a == 0.008
    found = result("alone", test_current_a=None, test_resistor_ohm=ohm).test_a
    assert found == pytest.approx(28.0 / 2800.0)
    assert result("alone", test_current_a=None).test_a is None


@pytest.mark.parametrize(
    ("no_fire", "limit", "governs"),
    [(0.10, 0.02, "test-fraction"), (0.18, 0.025, "test-current"), (0.125, 0.025, "test-current")],
)
def test_the_lesser_test_limit_governs(no_fire: float, limit: float, governs: str) -> None:
    """A fifth of no-fire or 25 mA."""
    found = result("alone", replace(MATCH, no_fire_a=no_fire))
    assert found.test_limit_a == pytest.approx(limit)
    assert found.test_limit_id == governs


def test_the_lowest_no_fire_of_a_circuit_counts_and_a_missing_one_leaves_none() -> None:
    """Types that should not be mixed are still tested at the weakest."""
    bench = Bench()
    bench.matches["weak"] = replace(MATCH, name="weak", no_fire_a=0.05)
    bench.circuit("C", LINES["series"])
    bench.uses["b"] = replace(bench.uses["b"], igniter="weak")
    assert bench.solve().circuits["C"].test_limit_a == pytest.approx(0.01)
    bench.matches["weak"] = replace(MATCH, name="weak", no_fire_a=None)
    found = bench.solve().circuits["C"]
    assert (found.test_limit_a, found.test_limit_id) == (None, "")


def test_readings_are_at_cable_temperatures_with_the_meters_error() -> None:
    """Ambient 5 to 30 degC and 25 K for the sun; meter 0.1 ohm plus 1.5 %."""
    found = result("alone")
    assert [each.at_c for each in found.readings] == [5.0, 20.0, 30.0, 55.0]
    for each in found.readings:
        cable = 0.6 * (1 + 0.00393 * (each.at_c - 20))
        assert (each.low, each.nominal, each.high) == pytest.approx((cable + 1.4, cable + 1.6, cable + 1.8))
        assert each.meter_low == pytest.approx(each.low * 0.985 - 0.1)
        assert each.meter_high == pytest.approx(each.high * 1.015 + 0.1)
    assert found.resistance_ohm == pytest.approx(
        (found.readings[0].low, found.readings[1].nominal, found.readings[-1].high)
    )


def test_a_reading_of_a_parallel_line_is_not_scaled_as_a_whole() -> None:
    """Only its cable warms up, not its bridges."""
    found = result("parallel")
    for each in found.readings:
        cable = 0.6 * (1 + 0.00393 * (each.at_c - 20))
        assert each.nominal == pytest.approx(cable + 0.8)


def test_each_temperature_is_read_once() -> None:
    """20 degC is often an end of the range."""
    bench = Bench(rules=rules(sun_heating=0.0))
    bench.facts = replace(bench.facts, ambient_c=(20.0, 20.0))
    bench.circuit("C", LINES["alone"])
    assert [each.at_c for each in bench.solve().circuits["C"].readings] == [20.0]


def test_a_meter_reads_nothing_below_zero() -> None:
    """Its error is larger than the line."""
    bench = Bench()
    bench.facts = replace(bench.facts, meter_ohm=5.0)
    bench.circuit("C", LINES["alone"])
    assert all(each.meter_low == 0.0 for each in bench.solve().circuits["C"].readings)


def test_a_match_that_is_wired_twice_keeps_the_worse_result() -> None:
    """The double wiring is an error of its own."""
    bench = Bench()
    bench.supply("P", 24.0, 0.5)
    bench.rail("A", "P")
    bench.circuit("C", Group("parallel", ("a", "b", "a"), Run(9.0, "wire")), "A", (0, 10))
    far = Bench()
    far.supply("P", 24.0, 0.5)
    far.rail("A", "P")
    far.circuit("C", Group("parallel", ("a", "b", "c"), Run(9.0, "wire")), "A", (0, 10))
    twice = bench.solve().circuits["C"].matches
    once = far.solve().circuits["C"].matches
    assert twice["a"].current_a == once["c"].current_a
    assert list(twice) == ["a", "b"]
