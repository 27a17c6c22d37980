"""Channels, drivers, rails, feeds, supplies and fuses: broken, kept, and at the limit."""

from __future__ import annotations

from compiler.model.quantities import Range
from compiler.model.solved import Solved
from compiler.model.values import replace
from tests.rules.builders import check_of, instant, rail, remodelled, well, with_part, with_result


def _loaded(amps: float, *more: float) -> Solved:
    """Rail A loaded with `amps` at its first instant and `more` at later ones."""
    instants = [instant("First", "Second", at_s=10.0 + index, amps=each) for index, each in enumerate((amps, *more))]
    return replace(well(), instants=tuple(instants))


def test_a_channel_above_its_limit_is_an_overload() -> None:
    (found,) = check_of("channel-overload")(with_result(well(), current_a=Range(5.0, 6.0, 15.1)))
    assert (found.at, found.values) == ("circuit:First", {"current_a": 15.1, "limit_a": 15.0})
    assert "A.1" in found.headline
    assert "15.1 A" in found.headline
    assert "invented for this test" in found.detail


def test_a_channel_at_its_limit_passes() -> None:
    assert not check_of("channel-overload")(with_result(well(), current_a=Range(5.0, 6.0, 15.0)))


def test_a_circuit_of_no_cue_is_held_to_its_limit_alone() -> None:
    solved = with_result(well(), current_a=None, alone_current_a=Range(5.0, 6.0, 16.0))
    assert len(check_of("channel-overload")(solved)) == 1


def test_a_driver_that_cannot_stand_a_short_is_told() -> None:
    (found,) = check_of("driver-short")(with_result(well(), shorted_current_a=15.5))
    assert (found.at, found.role, found.values["shorted_current_a"]) == ("circuit:First", "lead", 15.5)
    assert "8 m of zip-18" in found.working


def test_a_short_at_the_limit_passes() -> None:
    assert not check_of("driver-short")(with_result(well(), shorted_current_a=15.0))


def test_a_short_is_no_echo_of_an_overload_as_wired() -> None:
    solved = with_result(well(), current_a=Range(5.0, 6.0, 16.0), shorted_current_a=20.0)
    assert not check_of("driver-short")(solved)


def test_a_rail_is_reported_once_at_its_worst_instant() -> None:
    (found,) = check_of("rail-overload")(_loaded(41.0, 48.0, 45.0, 12.0))
    assert (found.at, found.values["current_a"], found.values["other_instants"]) == ("rail:A", 48.0, 2)
    assert "0:11.0" in found.headline
    assert "First and Second" in found.detail
    assert [one.at for one in found.related] == ["circuit:First", "circuit:Second"]


def test_a_rail_at_its_limit_passes() -> None:
    assert not check_of("rail-overload")(_loaded(40.0))


def test_a_rail_overload_names_the_circuit_that_draws_most() -> None:
    solved = replace(_loaded(48.0), circuits=with_result(well(), "Second", shorted_current_a=14.0).circuits)
    (found,) = check_of("rail-overload")(solved)
    assert "Second can draw most: 14 A" in found.detail
    assert "bind Second to B.2" in found.hint


def test_a_feed_above_what_its_cable_stands_is_told() -> None:
    (found,) = check_of("feed-overload")(_loaded(51.0))
    assert (found.at, found.role, found.values["limit_a"]) == ("rail:A", "feed", 50.0)
    assert "zip-18" in found.headline
    assert "3 m of zip-18" in found.hint


def test_a_feed_at_what_its_cable_stands_passes() -> None:
    assert not check_of("feed-overload")(_loaded(50.0))


def test_a_daisy_chained_feed_names_the_circuits_behind_it() -> None:
    solved = _loaded(51.0)
    rails = {**solved.model.rails, "B": rail("B", "A", length_m=2.0)}
    both = replace(instant("First", "Third", amps=51.0), feeds={"Pack-1>A": Range(1.0, 2.0, 51.0)})
    (found,) = check_of("feed-overload")(replace(remodelled(solved, rails=rails), instants=(both,)))
    assert found.values["circuits"] == ["First", "Third"]


def test_a_supply_above_its_limit_is_told_once() -> None:
    (found,) = check_of("supply-overload")(_loaded(61.0, 62.0))
    assert (found.at, found.values["current_a"], found.values["other_instants"]) == ("supply:Pack-1", 62.0, 1)


def test_a_supply_at_its_limit_passes() -> None:
    assert not check_of("supply-overload")(_loaded(60.0))


def test_an_instant_above_the_fuse_is_told_with_its_time_and_circuits() -> None:
    (found,) = check_of("fuse-overload")(_loaded(12.0, 40.5))
    assert (found.values["at_s"], found.values["circuits"]) == (11.0, ["First", "Second"])
    assert "its fuse is 40 A" in found.headline


def test_an_instant_at_the_fuse_passes() -> None:
    assert not check_of("fuse-overload")(_loaded(40.0))


def test_loads_without_a_stated_limit_are_left_to_the_rule_that_asks_for_it() -> None:
    solved = with_part(_loaded(500.0), "batteries", "pack-24", limit_a=None, fuse_a=None)
    assert not check_of("supply-overload")(solved)
    assert not check_of("fuse-overload")(solved)
    assert check_of("supply-missing-data")(solved)
    assert check_of("fuse-missing")(solved)
