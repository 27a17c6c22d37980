"""Firing circuits with known answers; every row of the data names its source and confidence."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from making import COLD_FACTS, FACTS, MATCH, MODULE, Bench, cable, rules

from compiler.circuit.needs import Need, impulse, limit_of_test
from compiler.model.conductors import gauge_ohm_per_m, iec60228_ohm_per_m
from compiler.model.quantities import ZERO, Given, Range
from compiler.model.solved import CircuitResult
from compiler.model.types import Group, Run
from compiler.model.values import replace

Row = dict[str, Any]
ROWS: dict[str, Row] = {
    row["id"]: row
    for row in tomllib.loads((Path(__file__).parent / "data" / "circuits.toml").read_text(encoding="utf-8"))["example"]
}
PRINTED = 5e-6


def rows(*prefixes: str) -> list[object]:
    """The rows whose id begins so."""
    return [pytest.param(row, id=key) for key, row in ROWS.items() if key.startswith(prefixes)]


def result(
    row: Row, wiring: Group, *, lead_ohm_per_m: float | None = None, bridge_ohm: float | None = None
) -> CircuitResult:
    """The circuit of a row behind its source, everything exact, cable at 20 degC.

    The lead of `wiring` is 100 m unless it says so; its loop is the row's.
    """
    lead = row.get("cable_loop_ohm", 0.0) / 200.0 if lead_ohm_per_m is None else lead_ohm_per_m
    bench = Bench(facts=COLD_FACTS, rules=rules(sun_heating=0.0))
    bench.matches["match"] = replace(MATCH, bridge_ohm=Given.exact(bridge_ohm or row["match_ohm"]))
    bench.modules["module"] = replace(MODULE, driver_ohm=ZERO)
    bench.cables["wire"] = cable("wire", lead)
    volts = row.get("source_v", row.get("volts_at_terminals", row.get("volts_required")))
    inner = row.get("source_internal_ohm", row.get("series_ohm", 1e-6))
    bench.supply("P", float(volts), inner)
    bench.rail("A", "P")
    bench.circuit("C", wiring, "A", (0, 1))
    solution = bench.solve()
    assert solution.findings == ()
    return solution.circuits["C"]


def matches(count: int, prefix: str = "m") -> tuple[str, ...]:
    """That many names."""
    return tuple(f"{prefix}{k}" for k in range(count))


def amps(found: CircuitResult) -> list[float]:
    """Nominal currents in wiring order."""
    return [m.current_a.nominal for m in found.matches.values() if m.current_a is not None]


HANDLED = (
    "fm5-250", "moving-earth", "cfr-7-64", "sprengv-series", "sprengv-parallel", "series-5",
    "parallel-", "sp-3x4", "unbalanced", "bus-4-taps", "test-current", "impulse", "max-series",
)  # fmt: skip


def test_every_row_of_the_data_belongs_to_one_of_the_checks() -> None:
    """A row that no check reads would look like agreement."""
    assert all(key.startswith(HANDLED) for key in ROWS)
    assert all(rows(prefix) for prefix in HANDLED)
    assert all(row["source"] and row["confidence"] for row in ROWS.values())


@pytest.mark.parametrize("row", rows("series-5-cable075", "series-5-cable24awg", "series-5-cable20cu"))
def test_a_series_over_a_named_cable(row: Row) -> None:
    """80 m of cable by class or gauge; with a temperature the reading is that at it."""
    named = {
        "series-5-cable24awg": gauge_ohm_per_m(24),
        "series-5-cable20cu": gauge_ohm_per_m(20),
    }
    flexible = iec60228_ohm_per_m(0.75, 5)
    assert flexible is not None
    per_m = named.get(row["id"], flexible)
    row = {**ROWS["series-5-cable075"], **row}
    bench = Bench(facts=replace(FACTS, ambient_c=(-10.0, 40.0)))
    bench.matches["match"] = replace(MATCH, bridge_ohm=Given.exact(row["match_ohm"]))
    bench.modules["module"] = replace(MODULE, driver_ohm=ZERO)
    bench.cables["wire"] = cable("wire", per_m)
    bench.supply("P", row["source_v"], row["source_internal_ohm"])
    bench.rail("A", "P")
    bench.circuit("C", Group("series", matches(5), lead=Run(80.0, "wire")), "A", (0, 1))
    found = bench.solve().circuits["C"]
    at_c = row.get("cable_temperature_c", 20)
    (reading,) = [each for each in found.readings if each.at_c == at_c]
    assert reading.nominal == pytest.approx(row["cable_loop_ohm"] + 8.0, rel=PRINTED)
    total = reading.nominal + row["source_internal_ohm"]
    assert total == pytest.approx(row["total_ohm"], rel=PRINTED)
    assert row["source_v"] / total == pytest.approx(row["current_per_match_a"], rel=PRINTED)
    if at_c == 20:
        assert amps(found) == pytest.approx([row["current_per_match_a"]] * 5, rel=PRINTED)


@pytest.mark.parametrize("row", rows("parallel-"))
def test_a_parallel_at_one_point(row: Row) -> None:
    """Four and ten matches at the end of one cable."""
    count = row["n_matches"]
    found = result(row, Group("parallel", matches(count), lead=Run(100.0, "wire")))
    assert amps(found) == pytest.approx([row["current_per_match_a"]] * count, rel=PRINTED)
    assert found.current_a is not None
    assert found.current_a.nominal == pytest.approx(row["total_current_a"], rel=PRINTED)


@pytest.mark.parametrize("row", rows("sp-3x4", "unbalanced"))
def test_branches_of_several_in_series_side_by_side(row: Row) -> None:
    """Balanced and unbalanced: the weakest branch is what counts, not the mean."""
    row = {"match_ohm": 1.6, **row}
    if "branch_ohm" in row:
        counts = [round(each / 1.6) for each in row["branch_ohm"]]
        branch = row["branch_current_a"]
    else:
        counts = [row["matches_per_branch"]] * row["branches"]
        branch = [row["current_per_match_a"]] * row["branches"]
    members = tuple(Group("series", matches(n, f"b{k}-")) for k, n in enumerate(counts))
    found = result(row, Group("parallel", members, lead=Run(100.0, "wire")))
    wanted = [each for each, count in zip(branch, counts, strict=True) for _ in range(count)]
    assert amps(found) == pytest.approx(wanted, rel=PRINTED)
    assert found.current_a is not None
    assert found.current_a.nominal == pytest.approx(row["total_current_a"], rel=PRINTED)


@pytest.mark.parametrize("row", rows("bus-4-taps"))
def test_a_far_tap_gets_less_than_a_near_one(row: Row) -> None:
    """A line tapped along its length is a ladder, not a lumped parallel."""
    line = Group("parallel", matches(4), Run(row["segment_m"], "wire"), lead=Run(50.0, "wire"))
    found = result(row, line, lead_ohm_per_m=gauge_ohm_per_m(20))
    assert amps(found) == pytest.approx(row["tap_current_a"], rel=PRINTED)
    near, *_, far = amps(found)
    assert near / far == pytest.approx(row["nearest_to_farthest_ratio"], rel=PRINTED)
    total = found.resistance_ohm.nominal + row["source_internal_ohm"]
    assert total == pytest.approx(row["total_ohm"], rel=PRINTED)


@pytest.mark.parametrize("row", rows("sprengv-parallel"))
def test_the_test_load_for_parallel_firing(row: Row) -> None:
    """Many branches behind one resistor: the stated volts drive the stated current."""
    count = row["branches"]
    found = result(row, Group("parallel", matches(count)), bridge_ohm=row["branch_ohm"])
    (wanted,) = [value for key, value in row.items() if key.startswith("branch_current")]
    assert amps(found) == pytest.approx([wanted] * count, rel=PRINTED)
    assert found.resistance_ohm.nominal + row["series_ohm"] == pytest.approx(row["total_ohm"])


@pytest.mark.parametrize("row", rows("sprengv-series"))
def test_the_circuit_resistance_of_many_in_series(row: Row) -> None:
    """Up to 400 matches: the published greatest resistance is a lead and a sum of matches."""
    base, each = {"A": (10.0, 5.0), "U": (20.0, 3.5)}[row["id"][-1]]
    for count, most in zip(row["n_igniters"], row["max_ohm"], strict=True):
        line = Group("series", matches(count), lead=Run(100.0, "wire"))
        found = result({"cable_loop_ohm": base, "source_v": 24.0}, line, bridge_ohm=each)
        assert found.resistance_ohm.nominal == pytest.approx(most)


@pytest.mark.parametrize("row", rows("fm5-250"))
def test_twenty_in_series_over_gauge_18(row: Row) -> None:
    """1000 ft of conductor are a run of 500 ft; the stated volts drive 1.5 A."""
    line = Group("series", matches(row["n_caps"]), lead=Run(500.0 * 0.3048, "wire"))
    found = result(row, line, lead_ohm_per_m=gauge_ohm_per_m(row["wire_awg"]), bridge_ohm=2.0)
    assert found.resistance_ohm.nominal == pytest.approx(row["total_ohm"], rel=PRINTED)
    assert amps(found) == pytest.approx([1.5] * row["n_caps"], rel=PRINTED)


@pytest.mark.parametrize("row", rows("moving-earth"))
def test_the_current_of_a_parallel_is_the_sum_of_its_matches(row: Row) -> None:
    """Ten caps at 0.5 A each draw 5 A."""
    each = row["parallel_current_per_cap_a"]
    line = Group("parallel", matches(row["n_caps"]))
    found = result({"source_v": each * 2.0, "source_internal_ohm": 1e-8}, line, bridge_ohm=2.0)
    assert amps(found) == pytest.approx([each] * row["n_caps"], rel=PRINTED)
    assert found.current_a is not None
    assert found.current_a.nominal == pytest.approx(row["parallel_total_a"], rel=PRINTED)


@pytest.mark.parametrize("row", rows("cfr-7-64"))
def test_the_acceptance_of_a_blasting_unit(row: Row) -> None:
    """300 V through 150 ohm are 2 A; for 5 ms they are 20 mJ per ohm."""
    ohm, volts = row["max_circuit_ohm_at_least"], row["mean_volts_needed_at_150_ohm"]
    source = {"source_v": volts, "source_internal_ohm": 1e-6}
    found = result(source, Group("single", ("m",)), bridge_ohm=ohm)
    (current,) = amps(found)
    assert current == pytest.approx(row["mean_current_first_5ms_a"], rel=PRINTED)
    counted = impulse(Range(current, current, current), Need(1.0, "alone", None, 0.010), Given.exact(0.005))
    assert counted is not None
    assert counted.nominal * 1000 == pytest.approx(row["impulse_lower_bound_mj_per_ohm"], rel=1e-5)


@pytest.mark.parametrize("row", rows("max-series"))
def test_one_match_more_in_series_is_too_many(row: Row) -> None:
    """n matches reach the current, n + 1 do not."""
    for count, key in (
        (row["n_max"], "current_at_n_max_a"),
        (row["n_max"] + 1, "current_at_n_max_plus_1_a"),
    ):
        found = result(row, Group("series", matches(count), lead=Run(100.0, "wire")))
        assert amps(found)[0] == pytest.approx(row[key], rel=PRINTED)
        assert (amps(found)[0] >= row["required_a"]) == (count == row["n_max"])


@pytest.mark.parametrize("row", rows("test-current"))
def test_the_test_current_limit_of_a_rule_set(row: Row) -> None:
    """The lesser of 0.05 A and a fifth of no-fire, as that rule set says."""
    limits = rules(test_current=0.05).limits
    kind = replace(MATCH, no_fire_a=row["no_fire_a"])
    limit_a, limit_id = limit_of_test([kind], limits)
    assert limit_a == pytest.approx(row["limit_a"], rel=PRINTED)
    expected = {"20 % of no-fire": {"test-fraction"}, "0.05 A": {"test-current"}}
    assert limit_id in expected.get(row["governing"], {"test-current", "test-fraction"})


@pytest.mark.parametrize("row", rows("impulse"))
def test_the_time_to_a_firing_impulse(row: Row) -> None:
    """A constant current has the impulse I2 t, while it reaches the firing current."""
    i = row["current_a"]
    for sense in ("min:time_most_sensitive_ms", "max:time_least_sensitive_ms"):
        bound, key = sense.split(":")
        pulse = Given.exact(row[key] / 1000.0)
        counted = impulse(Range(i, i, i), Need(i, "alone", None, 0.010), pulse)
        assert counted is not None
        wanted = row[f"impulse_{bound}_mj_per_ohm"] / 1000.0
        assert counted == pytest.approx((wanted, wanted, wanted), rel=PRINTED)
