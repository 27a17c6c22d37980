"""Worked firing circuits, through the show language, to their printed precision.

Each row names its own source in `data/blasting_circuits.toml`: the German explosives ordinance
(1. SprengV, Anlage 1 and 2), 30 CFR 7.64 and 7.66, WAC 212-17-317(6), Moving the Earth p. 9.36, and
textbook arithmetic marked `computed`.
"""

from __future__ import annotations

import math

import pytest

from tests.reference.bench import EXAMPLES, bench, devices
from tests.shows import circuit, compiled, plan_of

SERIES_LINE = {
    "series-5-cable075": "area 0.75 mm2 class 5",
    "series-5-cable24awg": "gauge 24 awg",
    "series-5-cable20cu": "gauge 20 awg",
}


def close(value: float, printed: float) -> bool:
    """Equal to the six significant figures that a row prints."""
    return math.isclose(value, printed, rel_tol=5.1e-6)


def nominal_of(text: str) -> tuple[float, list[float]]:
    """Circuit resistance at 20 degC and the nominal current of each match."""
    one = circuit(plan_of(text), "C")
    return one["resistance_ohm"]["nominal"], [m["current_a"]["nominal"] for m in one["matches"]]


@pytest.mark.parametrize("name", SERIES_LINE)
def test_a_series_line_on_each_cable_has_its_worked_resistance_and_current(name: str) -> None:
    row = EXAMPLES[name]
    text = bench(devices(5) + "circuit C on A.1 { lead 80 m; series D1..D5 }", line=SERIES_LINE[name], inner=0.5)
    ohm, currents = nominal_of(text)
    assert close(ohm + 0.5, row["total_ohm"])
    assert all(close(current, row["current_per_match_a"]) for current in currents)


@pytest.mark.parametrize("name", ["parallel-4-cable20", "parallel-10-cable20"])
def test_matches_in_parallel_at_one_point_share_the_worked_current(name: str) -> None:
    row = EXAMPLES[name]
    n = row["n_matches"]
    text = bench(devices(n) + f"circuit C on A.1 {{ lead 60 m; parallel D1..D{n} }}", line="gauge 20 awg", inner=0.5)
    ohm, currents = nominal_of(text)
    assert close(ohm + 0.5, row["total_ohm"])
    assert close(sum(currents), row["total_current_a"])
    assert all(close(current, row["current_per_match_a"]) for current in currents)


def test_three_branches_of_four_matches_get_their_worked_current() -> None:
    row = EXAMPLES["sp-3x4-cable15"]
    wiring = "circuit C on A.1 { lead 100 m; parallel { series D1..D4; series D5..D8; series D9..D12 } }"
    ohm, currents = nominal_of(bench(devices(12) + wiring, line="area 1.5 mm2 class 5", inner=0.5, volts=48))
    assert close(ohm + 0.5, row["total_ohm"])
    assert all(close(current, row["current_per_match_a"]) for current in currents)


def test_unbalanced_branches_show_their_weakest_not_their_mean() -> None:
    row = EXAMPLES["unbalanced-4-6-6"]
    wiring = "circuit C on A.1 { lead 100 m; parallel { series D1..D4; series D5..D10; series D11..D16 } }"
    ohm, currents = nominal_of(bench(devices(16) + wiring, line="area 1.5 mm2 class 5", inner=0.5))
    assert close(ohm + 0.5, row["total_ohm"])
    assert close(min(currents), row["weakest_branch_a"])
    assert close(max(currents), row["branch_current_a"][0])


def test_a_bus_with_four_taps_is_a_ladder_and_the_far_tap_starves() -> None:
    row = EXAMPLES["bus-4-taps"]
    wiring = "circuit C on A.1 { lead 50 m; parallel D1..D4 spaced 25 m of line }"
    ohm, currents = nominal_of(bench(devices(4) + wiring, line="gauge 20 awg", inner=0.5))
    assert close(ohm + 0.5, row["total_ohm"])
    assert all(close(a, b) for a, b in zip(currents, row["tap_current_a"], strict=True))
    assert close(currents[0] / currents[-1], row["nearest_to_farthest_ratio"])


@pytest.mark.parametrize("name", [f"series-5-cable075-at-{t}C" for t in ("minus10", "20", "40")])
def test_the_reading_follows_the_temperature_of_the_copper(name: str) -> None:
    row = EXAMPLES[name]
    at = row["cable_temperature_c"]
    text = bench(
        devices(5) + "circuit C on A.1 { lead 80 m; series D1..D5 }", line="area 0.75 mm2 class 5", inner=0.5,
        ambient=f"{at} .. {at} degC",
    )  # fmt: skip
    readings = circuit(plan_of(text), "C")["readings"]
    reading = next(r for r in readings if r["at_degC"] == at)
    assert close(reading["nominal"] + 0.5, row["total_ohm"])
    assert close(24 / (reading["nominal"] + 0.5), row["current_per_match_a"])


@pytest.mark.parametrize("name", ["max-series-24V-1A", "max-series-24V-0.6A"])
def test_one_match_more_than_the_longest_series_falls_below_its_current(name: str) -> None:
    row = EXAMPLES[name]
    for n, printed in ((row["n_max"], row["current_at_n_max_a"]), (row["n_max"] + 1, row["current_at_n_max_plus_1_a"])):
        text = bench(
            devices(n) + f"circuit C on A.1 {{ lead 80 m; series D1..D{n} }}", line="area 0.75 mm2 class 5", inner=0.5,
            fire=row["required_a"],
        ).replace("limits { margin 1.5 }", 'limits { margin 1 because "worked example" by "test" }')  # fmt: skip
        current = nominal_of(text)[1][0]
        assert close(current, printed)
        assert (current >= row["required_a"]) == (n == row["n_max"])


@pytest.mark.parametrize("name", ["sprengv-parallel-A-50", "sprengv-parallel-A-100", "sprengv-parallel-U-50"])
def test_the_ordinances_parallel_load_gets_its_impulse_at_the_worked_voltage(name: str) -> None:
    row = EXAMPLES[name]
    n = row["branches"]
    wanted = next(row[key] for key in row if key.startswith("branch_current_for"))
    text = bench(
        devices(n) + f"circuit C on A.1 {{ lead 500 m; parallel D1..D{n} }}", line="resistance 1 ohm per km",
        cap=row["branch_ohm"], volts=row["volts_at_terminals"],
    )  # fmt: skip
    ohm, currents = nominal_of(text)
    assert close(ohm, row["total_ohm"])
    assert close(currents[0], wanted)
    assert close(sum(currents), row["total_current_a"])


@pytest.mark.parametrize("name", ["sprengv-series-max-ohm-type-A", "sprengv-series-max-ohm-type-U"])
def test_the_ordinances_largest_series_resistance_is_the_edge_of_the_module(name: str) -> None:
    row = EXAMPLES[name]
    base, per = (10, 5.0) if "type-A" in name else (20, 3.5)
    for n, most in zip(row["n_igniters"], row["max_ohm"], strict=True):
        if n > 100:
            continue
        for lead_ohm, clean in ((base, True), (base + 0.01, False)):
            text = bench(
                devices(n) + f"circuit C on A.1 {{ lead 500 m; series D1..D{n} }}", cap=per,
                line=f"resistance {lead_ohm} ohm per km; tempco 0 per K",
            ).replace("circuit 0 .. 100000 ohm", f"circuit 0 .. {most} ohm")  # fmt: skip
            rules = [f.rule for f in compiled(text).findings]
            assert ("circuit-resistance" not in rules) == clean, (n, lead_ohm)


def test_a_blasting_units_mean_current_gives_its_impulse() -> None:
    row = EXAMPLES["cfr-7-64-7-66-blasting-unit"]
    text = bench(
        devices(70) + "circuit C on A.1 { lead 500 m; series D1..D70 }", cap=2.0, line="resistance 10 ohm per km",
        volts=row["mean_volts_needed_at_150_ohm"], pulse=5,
    )  # 140 ohm of caps and 10 ohm of line
    match = circuit(plan_of(text), "C")["matches"][0]
    assert close(match["current_a"]["nominal"], row["mean_current_first_5ms_a"])
    assert close(match["impulse_a2s"]["nominal"] * 1e3, row["impulse_lower_bound_mj_per_ohm"])


def test_twenty_caps_in_series_on_a_thousand_feet_need_their_worked_voltage() -> None:
    row = EXAMPLES["fm5-250-series-20-exact-wire"]
    text = bench(
        devices(20) + "circuit C on A.1 { lead 500 ft; series D1..D20 }", cap=2.0, line="gauge 18 awg", volts=row["volts_required"]
    )
    ohm, currents = nominal_of(text)
    assert close(ohm, row["total_ohm"])
    assert close(currents[0] * row["total_ohm"], row["volts_required"])
    assert close(currents[0] ** 2 * ohm, row["watts"])


def test_ten_caps_in_parallel_at_half_an_ampere_each_draw_five() -> None:
    row = EXAMPLES["moving-earth-parallel"]
    volts = row["parallel_total_a"] * (1.0 + 1.6 / row["n_caps"])  # 1 ohm of line before the caps
    text = bench(devices(10) + "circuit C on A.1 { lead 500 m; parallel D1..D10 }", line="resistance 1 ohm per km", volts=volts)
    currents = nominal_of(text)[1]
    assert all(close(current, row["parallel_current_per_cap_a"]) for current in currents)
    assert close(sum(currents), row["parallel_total_a"])


TEST_CURRENTS = [name for name in EXAMPLES if name.startswith("test-current")]


@pytest.mark.parametrize("name", TEST_CURRENTS)
@pytest.mark.parametrize("volts", [9, 12])
def test_the_test_current_limit_and_its_smallest_resistor_follow_the_washington_rule(name: str, volts: int) -> None:
    row = EXAMPLES[name]
    smallest = row[f"min_series_resistor_at_{volts}v_ohm"]
    for ohm, clean in ((smallest * 1.0001, True), (smallest * 0.999, False)):
        text = bench(
            devices(1) + "circuit C on A.1 { lead 1 m; series D1 }", rules="wac-212-17", no_fire=row["no_fire_a"],
            volts=volts, test=f"test-resistor {ohm:.6f} ohm",
        )  # fmt: skip
        result = compiled(text)
        test = circuit(result.plan(), "C")["test"]
        assert close(test["limit_a"], row["limit_a"])
        assert close(test["greatest_a"], volts / round(ohm, 6))
        assert ("test-current" not in [f.rule for f in result.findings]) == clean


IMPULSES = [name for name in EXAMPLES if name.startswith("impulse-")]


@pytest.mark.parametrize("name", IMPULSES)
def test_a_constant_current_delivers_the_firing_impulse_in_the_worked_time(name: str) -> None:
    row = EXAMPLES[name]
    for key, needed in (("time_most_sensitive_ms", "impulse_min_mj_per_ohm"), ("time_least_sensitive_ms", "impulse_max_mj_per_ohm")):
        text = bench(
            devices(1) + "circuit C on A.1 { lead 500 m; series D1 }", cap=1, volts=2 * row["current_a"], pulse=row[key],
            fire=row["current_a"], line="resistance 1 ohm per km",
        )  # fmt: skip
        match = circuit(plan_of(text), "C")["matches"][0]
        assert math.isclose(match["impulse_a2s"]["nominal"] * 1e3, row[needed], rel_tol=1e-5)
