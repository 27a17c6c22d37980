"""The shows of the checkout are clean, and the demo is as large as it says."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from compiler.compile import solve
from compiler.model.types import Model
from grammar.formatter import format_text

SHOWS = Path(__file__).resolve().parents[2] / "shows"


@pytest.fixture(scope="module")
def quay() -> Model:
    """The demo show's model."""
    return solve(SHOWS / "lantern-quay" / "lantern-quay.show").solved.model


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


@pytest.mark.parametrize("path", sorted(SHOWS.rglob("*.show")), ids=lambda path: path.name)
def test_the_shows_stand_in_the_canonical_layout(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert format_text(text) == text


def test_every_shell_of_the_demo_has_a_tube_of_its_own(quay: Model) -> None:
    shells = [d for d in quay.devices.values() if quay.effects[d.effect].kind in ("shell", "chain")]
    tubes = [tube for device in shells for tube in device.tubes]
    assert len(shells) > 70
    assert len(set(tubes)) == len(tubes)
    wanted = {
        d.name: quay.effects[d.effect].shells if quay.effects[d.effect].kind == "chain" else d.count for d in shells
    }
    assert {d.name: len(d.tubes) for d in shells} == wanted
    for device in shells:
        for tube in device.tubes:
            rack = quay.racks[tube.rpartition(".")[0]]
            assert (rack.position, rack.calibre_m) == (device.position, quay.effects[device.effect].calibre_m)


def test_the_three_blasts_of_the_horn_are_one_match(quay: Model) -> None:
    (horn,) = (d for d in quay.devices.values() if d.effect == "horn-blue")
    assert (len(horn.matches), len(horn.tubes)) == (1, 3)


def test_the_demos_rails_all_answer_to_the_firing_point(quay: Model) -> None:
    for rail in quay.rails.values():
        seen, at = set(), rail
        while at.control is not None and at.control.source in quay.rails:
            assert at.name not in seen
            seen.add(at.name)
            at = quay.rails[at.control.source]
        assert at.control is not None, rail.name
        assert at.control.source in quay.firing_points


def test_what_is_fired_by_hand_in_the_demo_has_a_battery_of_its_own(lantern_quay: Any) -> None:
    circuits, rails = lantern_quay.rows("circuits"), lantern_quay.rows("rails")
    by_hand = {name for cue in lantern_quay.plan["cues"] if cue["by"] == "hand" for name in cue["circuits"]}
    assert by_hand
    supplies = {rails[circuits[name]["rail"]]["supply"] for name in by_hand}
    assert {n for n, c in circuits.items() if rails[c["rail"]]["supply"] in supplies} == by_hand


def test_what_is_fired_twice_in_the_demo_hangs_on_two_supplies(lantern_quay: Any) -> None:
    circuits, rails = lantern_quay.rows("circuits"), lantern_quay.rows("rails")
    twice = [name for name in circuits if name.endswith("-again")]
    assert twice
    for name in twice:
        pair = (circuits[name], circuits[name.removesuffix("-again")])
        assert len({rails[one["rail"]]["supply"] for one in pair}) == 2
