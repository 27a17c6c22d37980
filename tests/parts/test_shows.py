"""The shows of the checkout are clean, and the demo is as large as it says."""

from __future__ import annotations

from typing import Any


def test_the_first_show_is_clean(first_show: Any) -> None:
    assert first_show.serious == []


def test_the_first_show_is_small_enough_to_read_in_ten_minutes(first_show: Any) -> None:
    assert len(first_show.plan["cues"]) == 11
    assert len(first_show.plan["positions"]) == 3
    assert [rail["name"] for rail in first_show.plan["rails"]] == ["A"]
    assert first_show.rows("circuits")["Fence"]["topology"] == "series"


def test_the_demo_show_is_clean(lantern_quay: Any) -> None:
    assert lantern_quay.serious == []


def test_the_demo_show_is_a_whole_evening(lantern_quay: Any) -> None:
    plan = lantern_quay.plan
    numbers = {cue["number"] for cue in plan["cues"]}
    assert len(numbers) == len(plan["cues"]) >= 300
    assert len(plan["rails"]) >= 8
    assert len({rail["supply"] for rail in plan["rails"]}) >= 3
    assert all(any(c["rail"] == rail["name"] for c in plan["circuits"]) for rail in plan["rails"])


def test_the_demo_show_computes_everything_it_prints(lantern_quay: Any) -> None:
    for circuit in lantern_quay.plan["circuits"]:
        assert circuit["channel"] is not None, circuit["name"]
        assert circuit["current_a"]["least"] > 0.0, circuit["name"]
        for match in circuit["matches"]:
            assert match["current_a"]["least"] >= 1.5 * match["required_a"], match["name"]


def test_the_curtain_hangs_on_two_lines_that_fail_differently(lantern_quay: Any) -> None:
    circuits, rails = lantern_quay.rows("circuits"), lantern_quay.rows("rails")
    odd, even = circuits["Curtain-A"], circuits["Curtain-B"]
    assert (odd["topology"], even["topology"]) == ("parallel", "series")
    assert sorted(match["name"] for match in odd["matches"]) == [f"Curtain.{n}" for n in (1, 3, 5, 7, 9)]
    assert sorted(match["name"] for match in even["matches"]) == [f"Curtain.{n}" for n in (10, 2, 4, 6, 8)]
    assert odd["rail"] != even["rail"]
    assert rails[odd["rail"]]["supply"] != rails[even["rail"]]["supply"]
    curtain = lantern_quay.rows("devices")["Curtain"]
    assert (curtain["count"], len(curtain["matches"]), curtain["key"]) == (30, 10, True)


def test_the_demo_show_has_mixed_circuits_and_more_than_one_metal(lantern_quay: Any) -> None:
    circuits = lantern_quay.rows("circuits")
    mixed = {name for name, circuit in circuits.items() if circuit["topology"] == "mixed"}
    assert {"Sail-W", "Sail-E", "Crown", "Bow"} <= mixed
    metals = {cable["metal"] for cable in lantern_quay.plan["cables"]}
    assert metals == {"copper", "copper-clad-steel"}


def test_a_circuit_with_a_generic_match_says_so_in_the_demo(lantern_quay: Any) -> None:
    circuits = lantern_quay.rows("circuits")
    assert circuits["Bow"]["makers_data_missing"] is True
    assert circuits["Curtain-A"]["makers_data_missing"] is False
