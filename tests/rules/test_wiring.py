"""Wiring, channels, leads, feeds and key effects: broken and kept."""

from __future__ import annotations

import pytest

from compiler.model.solved import Address, Solved
from compiler.model.types import Device, Group, MatchUse
from compiler.model.values import replace
from tests.rules.builders import (
    BATTERY,
    CABLE,
    MATCH,
    check_of,
    circuit,
    cue,
    rail,
    remodelled,
    well,
    wiring,
    with_circuits,
    with_part,
)  # fmt: skip


def _mixed() -> Solved:
    solved = well()
    uses = {**solved.model.match_uses, "D2": replace(solved.model.match_uses["D2"], igniter="blue-tag")}
    matches = {"red-tag": MATCH, "blue-tag": replace(MATCH, name="blue-tag", group="another maker")}
    return remodelled(solved, match_uses=uses, matches=matches)


def _falls(*lines: tuple[str, str, int]) -> Solved:
    """A key row of four matches on lines of two: circuit, rail, channel."""
    solved = well()
    names = tuple(f"Row.{n}" for n in range(1, 5))
    uses = {name: MatchUse(name, "Row", "red-tag", 0.0, 0.0, 0.0) for name in names}
    halves = (names[0::2], names[1::2])
    circuits = [circuit(line, *halves[index], how="series") for index, (line, *_) in enumerate(lines)]
    solved = remodelled(
        with_circuits(solved, *circuits),
        devices={"Row": Device("Row", "comet-x", "Q1", names, key=True)},
        match_uses=uses,
    )
    return replace(solved, addresses={line: Address(on, channel, True) for line, on, channel in lines})


def test_two_match_types_in_one_circuit_are_a_mixture() -> None:
    solved = with_circuits(_mixed(), circuit("Pair", "D1", "D2", how="series"))
    (found,) = check_of("mixed-matches")(solved)
    assert found.at == "circuit:Pair"
    assert "red-tag and blue-tag" in found.headline
    assert {one.at for one in found.related} == {"device:D1", "device:D2"}


def test_two_match_types_in_two_circuits_are_none() -> None:
    assert not check_of("mixed-matches")(_mixed())


def test_a_match_in_two_circuits_is_told_with_both() -> None:
    solved = with_circuits(well(), circuit("One", "D1"), circuit("Two", "D1", "D2", "D3", how="series"))
    (found,) = check_of("match-wired-twice")(solved)
    assert (found.at, found.values["matches"]) == ("circuit:Two", ["D1"])
    assert [one.at for one in found.related] == ["circuit:One"]


def test_a_match_twice_in_one_circuit_is_told() -> None:
    (found,) = check_of("match-wired-twice")(with_circuits(well(), circuit("One", "D1", "D1", how="series")))
    assert "twice in One" in found.headline


def test_nested_groups_count_too() -> None:
    nested = circuit("One", "D1", how="parallel")
    nested = replace(nested, wiring=Group("parallel", (Group("series", ("D1", "D2")), Group("series", ("D3", "D1")))))
    assert len(check_of("match-wired-twice")(with_circuits(well(), nested))) == 1


def test_every_match_in_one_circuit_is_well() -> None:
    assert not check_of("match-wired-twice")(well())
    assert not check_of("match-unwired")(well())


def test_matches_in_no_circuit_are_told_once_per_device() -> None:
    solved = _falls(("Row-A", "A", 1))
    (found,) = check_of("match-unwired")(solved)
    assert (found.at, found.values["matches"]) == ("device:Row", ["Row.2", "Row.4"])


def test_a_cue_for_something_unwired_is_told_at_the_cue_and_only_there() -> None:
    solved = remodelled(_falls(), cues=(cue("7", 10.0, "Row"),))
    (found,) = check_of("cue-unwired")(solved)
    assert found.at == "cue:7"
    assert "wired in no circuit" in found.headline
    assert not check_of("match-unwired")(solved)


def test_a_cue_for_a_circuit_without_matches_is_told() -> None:
    solved = remodelled(well(), circuits={"First": replace(circuit("First"), wiring=Group("series", ()))})
    assert "has no match" in check_of("cue-unwired")(solved)[0].headline


def test_cues_for_wired_circuits_are_well() -> None:
    assert not check_of("cue-unwired")(well())


def test_two_circuits_on_one_channel_are_told_at_the_second() -> None:
    solved = well()
    clash = replace(solved, addresses={**solved.addresses, "Second": Address("A", 1, True)})
    (found,) = check_of("channel-used-twice")(clash)
    assert (found.at, found.related[0].at) == ("circuit:Second", "circuit:First")
    assert "A.1" in found.headline


def test_one_number_on_two_rails_is_two_channels() -> None:
    assert not check_of("channel-used-twice")(well())


@pytest.mark.parametrize(("channel", "count"), [(8, 0), (9, 1), (0, 1)])
def test_channels_run_from_one_to_the_last_of_the_module(channel: int, count: int) -> None:
    solved = with_circuits(well(), circuit("First", "D1", rail="A", channel=channel))
    assert len(check_of("channel-unknown")(solved)) == count


def test_a_lead_shorter_than_the_straight_way_is_told() -> None:
    solved = replace(well(), distances_m={"First": 8.01})
    (found,) = check_of("lead-out-of-reach")(solved)
    assert (found.at, found.role) == ("circuit:First", "lead")
    assert "8.01 m" in found.headline


def test_a_lead_as_long_as_the_straight_way_passes() -> None:
    assert not check_of("lead-out-of-reach")(replace(well(), distances_m={"First": 8.0}))


@pytest.mark.parametrize(("lead_m", "count"), [(100.0, 0), (100.1, 1)])
def test_a_lead_ends_at_the_reach_of_its_module(lead_m: float, count: int) -> None:
    solved = well()
    far = replace(solved, wirings={**solved.wirings, "First": wiring("D1", lead_m=lead_m)})
    assert len(check_of("lead-out-of-reach")(far)) == count


def test_a_key_effect_with_one_line_is_told() -> None:
    (found,) = check_of("key-effect-one-feed")(_falls(("Row-A", "A", 1)))
    assert found.at == "device:Row"
    assert "one line only" in found.headline


def test_a_key_effect_on_one_rail_is_told_with_the_rail() -> None:
    (found,) = check_of("key-effect-one-feed")(_falls(("Row-A", "A", 1), ("Row-B", "A", 2)))
    assert found.values["shared"] == ["rail", "A"]


def test_a_key_effect_on_one_supply_is_told_with_the_supply() -> None:
    solved = _falls(("Row-A", "A", 1), ("Row-B", "B", 1))
    solved = remodelled(solved, rails={**solved.model.rails, "B": rail("B", "Pack-1", length_m=3.0)})
    (found,) = check_of("key-effect-one-feed")(solved)
    assert found.values["shared"] == ["supply", "Pack-1"]


def test_a_key_effect_behind_one_feed_is_told_with_the_rail_it_hangs_on() -> None:
    solved = _falls(("Row-A", "A", 1), ("Row-B", "B", 1))
    solved = remodelled(solved, rails={**solved.model.rails, "B": rail("B", "A", length_m=3.0)})
    (found,) = check_of("key-effect-one-feed")(solved)
    assert found.values["shared"] == ["rail", "A"]


def test_a_key_effect_on_two_rails_of_two_supplies_is_well() -> None:
    assert not check_of("key-effect-one-feed")(_falls(("Row-A", "A", 1), ("Row-B", "B", 1)))


def test_a_rail_without_a_feed_is_told() -> None:
    solved = remodelled(well(), rails={"A": rail("A", None), "B": rail("B", "A")})
    assert [found.at for found in check_of("rail-unfed")(solved)] == ["rail:A"]


def test_rails_that_feed_each_other_are_told_once() -> None:
    rails = {"A": rail("A", "B"), "B": rail("B", "A"), "C": rail("C", "A")}
    (found,) = check_of("feed-cycle")(remodelled(well(), rails=rails))
    assert (found.at, found.values["rails"]) == ("rail:A", ["A", "B"])


def test_a_rail_that_feeds_itself_is_told() -> None:
    assert len(check_of("feed-cycle")(remodelled(well(), rails={"A": rail("A", "A")}))) == 1


def test_a_chain_of_rails_from_a_supply_is_well() -> None:
    rails = {"A": rail("A", "Pack-1"), "B": rail("B", "A"), "C": rail("C", "B")}
    solved = remodelled(well(), rails=rails)
    assert not check_of("feed-cycle")(solved)
    assert not check_of("rail-unfed")(solved)


def test_a_feed_of_unknown_strength_is_told_once_per_cable() -> None:
    solved = remodelled(well(), cables={"zip-18": replace(CABLE, limit_a=None)})
    (found,) = check_of("missing-cable-data")(solved)
    assert found.values["rails"] == ["A", "B"]


def test_a_rail_plugged_straight_into_its_supply_needs_no_cable() -> None:
    solved = remodelled(well(), cables={"zip-18": replace(CABLE, limit_a=None)}, rails={"A": rail("A", "Pack-1")})
    assert not check_of("missing-cable-data")(solved)


@pytest.mark.parametrize("name", ["emf_v", "inner_ohm", "limit_a"])
def test_a_battery_that_lacks_a_value_is_told_once(name: str) -> None:
    (found,) = check_of("supply-missing-data")(with_part(well(), "batteries", "pack-24", **{name: None}))
    assert (found.at, found.values["supplies"]) == ("battery:pack-24", ["Pack-1", "Pack-2"])


def test_a_battery_without_a_fuse_is_told_once_and_no_more() -> None:
    solved = remodelled(well(), batteries={"pack-24": replace(BATTERY, fuse_a=None)})
    assert len(check_of("fuse-missing")(solved)) == 1
    assert not check_of("supply-missing-data")(solved)
