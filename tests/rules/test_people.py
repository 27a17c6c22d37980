"""Holds, crowds, zones, presses and control lines: broken, kept, and at the limit."""

from __future__ import annotations

import pytest

from compiler.model.quantities import Given
from compiler.model.solved import Schedule, Solved
from compiler.model.types import CrowdLine, Feed, Hold, MatchUse, Place, Position, Rack, Zone
from compiler.model.values import replace
from tests.rules.builders import alive, check_of, fired, remodelled, well, with_part

# --- holds; the comets of the well show are lit at 10, 20 and 30 s and burn for 2 s ---


def _held(from_s: float, to_s: float, **effect: object) -> Solved:
    return with_part(
        remodelled(well(), holds=(Hold("Ferry", from_s, to_s, "the ferry passes"),)), "effects", "comet-x", **effect
    )


@pytest.mark.parametrize(
    ("from_s", "to_s", "cues"),
    [
        (12.0, 20.0, []),  # the first has just gone out, the second is lit as it ends
        (11.999, 20.0, ["cue:1"]),
        (12.0, 20.001, ["cue:2"]),
        (20.0, 20.5, ["cue:2"]),  # lit as it begins
        (5.0, 40.0, ["cue:1", "cue:2", "cue:3"]),
    ],
)
def test_a_hold_is_broken_by_what_is_lit_in_it_or_burns_into_it(from_s: float, to_s: float, cues: list[str]) -> None:
    assert [one.at for one in check_of("hold-broken")(_held(from_s, to_s))] == cues


def test_the_longest_prefire_counts_and_the_times_to_paste_keep_the_hold() -> None:
    solved = _held(12.5, 19.0, prefire_s=Given(0.4, 0.5, 0.7))
    (found,) = check_of("hold-broken")(solved)
    assert found.working == "lit 0:10.0 + prefire 700 ms + burn 2 s = 0:12.7; hold 0:12.5 to 0:19.0"
    assert "still burns 200 ms into the hold" in found.headline
    assert "`at 0:10.3` or earlier, or `at 0:19.5` or later" in found.hint


@pytest.mark.parametrize(("burn_s", "ends_s"), [(None, 14.0), (1.0, 15.0), (6.0, 16.0)])
def test_a_chain_burns_until_its_last_burst_is_out(burn_s: float | None, ends_s: float) -> None:
    solved = _held(ends_s - 0.001, 19.0, kind="chain", shells=5, shell="comet-x", delay_s=1.0, burn_s=burn_s)
    (found,) = check_of("hold-broken")(solved)
    assert found.values["ends_s"] == ends_s
    assert not check_of("hold-broken")(_held(ends_s, 19.0, kind="chain", shells=5, delay_s=1.0, burn_s=burn_s))


def test_the_parts_of_a_chase_are_told_once() -> None:
    parts = tuple(fired(f"7.{index}", 10.0 + index, name) for index, name in enumerate(("First", "Second", "Third")))
    solved = replace(_held(9.0, 19.0), schedule=Schedule(parts, ()))
    (found,) = check_of("hold-broken")(solved)
    assert found.values["devices"] == ["D1", "D2", "D3"]
    assert "and so do 2 more of the cue" in found.headline


def test_an_effect_without_burn_before_a_hold_is_told_once_with_its_name() -> None:
    (found,) = check_of("burn-unknown")(_held(25.0, 28.0, burn_s=None))
    assert (found.at, found.values["effects"], found.values["cues"]) == ("hold:Ferry", ["comet-x"], ["1", "2"])


def test_without_a_hold_or_after_the_last_one_nobody_is_asked_for_burn() -> None:
    assert not check_of("burn-unknown")(with_part(well(), "effects", "comet-x", burn_s=None))
    assert not check_of("burn-unknown")(_held(5.0, 10.0, burn_s=None))


# --- presses ---


def _pressed(solved: Solved, *presses: str | None) -> Solved:
    """First, Second and Third fired and alive 0 s after these presses (None: at 10 s of show time)."""
    names = ("First", "Second", "Third")[: len(presses)]
    numbered = list(enumerate(zip(names, presses, strict=True), 1))
    cues = tuple(
        fired(str(i), 10.0 if press is None else 0.0, name)._replace(press=press) for i, (name, press) in numbered
    )
    lives = tuple(
        alive(name, str(i), 10.0 if press is None else 0.0)._replace(press=press) for i, (name, press) in numbered
    )
    return replace(solved, schedule=Schedule(cues, lives))


def test_a_press_beside_a_hold_or_an_armed_zone_is_noted() -> None:
    solved = _pressed(_held(25.0, 28.0), None, "2")
    zoned = remodelled(solved, zones={"West": Zone("West", ("A",), None, -600.0)})
    (found,) = check_of("press-unchecked")(zoned)
    assert (found.at, found.values["kept"]) == ("cue:2", ["hold Ferry", "the arming of zone West"])
    assert not check_of("hold-broken")(_pressed(_held(0.0, 5.0), "1"))  # nobody knows when it comes


def test_a_press_alone_and_a_hold_alone_are_well() -> None:
    zone = {"West": Zone("West", ("A",), None, None)}
    assert not check_of("press-unchecked")(remodelled(_pressed(well(), "1"), zones=zone))
    assert not check_of("press-unchecked")(_held(25.0, 28.0))


@pytest.mark.parametrize(("fired_s", "count"), [(0.0, 0), (-0.01, 1)])
def test_nothing_is_fired_before_its_press(fired_s: float, count: int) -> None:
    cue = fired("2", 2.0, "Second")._replace(fired_s=fired_s, prefire_s=Given.exact(2.7), press="1")
    solved = replace(well(), schedule=Schedule((cue,), ()))
    found = check_of("press-early")(solved)
    assert len(found) == count
    assert all("`at 2.7 s after 1`" in one.hint and one.related[0].at == "cue:1" for one in found)
    assert not check_of("fired-before-zero")(solved)


def test_a_press_beside_show_time_on_one_supply_is_told_at_the_supply() -> None:
    (found,) = check_of("hand-overlap")(_pressed(well(), None, "2"))
    assert (found.at, found.values["presses"], found.values["show_time"]) == ("supply:Pack-1", ["2"], True)
    assert "waive hand-overlap on Pack-1" in found.hint


def test_a_press_on_another_supply_than_show_time_is_well() -> None:
    assert not check_of("hand-overlap")(_pressed(well(), None, None, "3"))


def test_presses_that_are_over_within_a_second_are_well() -> None:
    assert not check_of("hand-overlap")(_pressed(well(), "1", "2"))


@pytest.mark.parametrize(("at_s", "count"), [(0.698, 0), (0.699, 1)])  # + 102 ms of pulse + 200 ms of recovery
def test_of_several_presses_none_goes_on_for_more_than_a_second(at_s: float, count: int) -> None:
    solved = _pressed(well(), "1", "2")
    lives = (alive("First", "1", at_s)._replace(press="1"), solved.schedule.alive[1])
    solved = replace(solved, schedule=replace(solved.schedule, alive=lives))
    assert len(check_of("hand-overlap")(solved)) == count


def test_one_press_alone_may_go_on() -> None:
    solved = _pressed(well(), "1")
    lives = (alive("First", "1", 30.0)._replace(press="1"),)
    assert not check_of("hand-overlap")(replace(solved, schedule=replace(solved.schedule, alive=lives)))


# --- the crowd; things stand at Q1 (0, 0) ---

QUAY = CrowdLine("Quay", ((-90.0, -50.0, 0.0), (90.0, -50.0, 0.0)))
HUT = Place("Hut", -60.0, 20.0, 0.0)


def _crowd(x_m: float, y_m: float, line: CrowdLine = QUAY, *firing_points: Place) -> Solved:
    """Q1 moved, a crowd line and firing points (the hut, if none is given)."""
    points = {place.name: place for place in firing_points or (HUT,)}
    solved = remodelled(well(), crowds={line.name: line}, firing_points=points)
    return with_part(solved, "positions", "Q1", x_m=x_m, y_m=y_m)


@pytest.mark.parametrize(
    ("x_m", "y_m", "inside_m"),
    [
        (0.0, -49.99, None),
        (0.0, -50.0, 0.0),
        (0.0, -50.0005, 0.0),
        (0.0, -60.0, 10.0),
        (5000.0, -51.0, 1.0),  # beyond its end: the line is drawn on
        (5000.0, -49.0, None),
    ],
)
def test_a_place_in_use_is_on_our_side_of_the_crowd_line(x_m: float, y_m: float, inside_m: float | None) -> None:
    found = check_of("crowd-side")(_crowd(x_m, y_m))
    assert [one.at for one in found] == ([] if inside_m is None else ["position:Q1"])
    assert all(abs(one.values["inside_m"] - inside_m) < 1e-6 for one in found)  # type: ignore[operator]


def test_the_way_the_line_is_written_does_not_matter() -> None:
    back = CrowdLine("Quay", QUAY.points_m[::-1])
    assert check_of("crowd-side")(_crowd(0.0, -60.0, back)) == check_of("crowd-side")(_crowd(0.0, -60.0))


def test_everything_that_stands_there_is_named_and_what_is_not_in_use_is_not() -> None:
    solved = remodelled(
        _crowd(0.0, -60.0),
        positions={
            **well().model.positions,
            "Q1": Position("Q1", 0.0, -60.0, 0.0),
            "Q9": Position("Q9", 0.0, -70.0, 0.0),
        },
    )
    (found,) = check_of("crowd-side")(solved)
    assert found.values["things"] == ["A", "B", "D1", "D2", "D3", "Pack-1", "Pack-2"]
    racked = remodelled(solved, racks={"R": Rack("R", 5, 0.075, "Q9", None, None)})
    assert [one.at for one in check_of("crowd-side")(racked)] == ["position:Q1", "position:Q9"]


BAY = CrowdLine("Bay", ((-50.0, 100.0, 0.0), (-50.0, -50.0, 0.0), (50.0, -50.0, 0.0), (50.0, 100.0, 0.0)))
RING = CrowdLine(
    "Ring", ((-50.0, -50.0, 0.0), (50.0, -50.0, 0.0), (50.0, 50.0, 0.0), (-50.0, 50.0, 0.0), (-50.0, -50.0, 0.0))
)


@pytest.mark.parametrize("line", [BAY, RING])
@pytest.mark.parametrize(
    ("x_m", "y_m", "ours"),
    [
        (0.0, 0.0, True),
        (49.0, -49.0, True),
        (60.0, 0.0, False),
        (51.0, -51.0, False),
        (51.0, -49.0, False),
        (0.0, -80.0, False),
    ],
)
def test_a_crowd_round_corners_has_its_sides_at_the_corners_too(
    line: CrowdLine, x_m: float, y_m: float, ours: bool
) -> None:
    inside = Place("Hut", 10.0, 10.0, 0.0)
    assert bool(check_of("crowd-side")(_crowd(x_m, y_m, line, inside))) is not ours


def test_a_falls_that_reaches_over_the_line_is_told_from_a_place_on_our_side() -> None:
    falls = replace(well().model.devices["D1"], matches=("D1.1", "D1.2"), count=20, spacing_m=1.0)
    uses = {
        f"D1.{index}": MatchUse(f"D1.{index}", "D1", "red-tag", 0.0, y_m, 0.0)
        for index, y_m in ((1, -36.0), (2, -46.0))
    }
    solved = _crowd(0.0, 0.0)
    solved = remodelled(
        solved, devices={**solved.model.devices, "D1": falls}, match_uses={**solved.model.match_uses, **uses}
    )
    (found,) = check_of("crowd-side")(solved)  # ten gerbs a match, so five beyond the last: to -51
    assert (found.at, found.values["inside_m"]) == ("device:D1", 1.0)
    shorter = replace(falls, spacing_m=0.7)
    assert not check_of("crowd-side")(remodelled(solved, devices={**solved.model.devices, "D1": shorter}))


@pytest.mark.parametrize(
    ("line", "firing_points", "word"),
    [
        (QUAY, [Place("Hut", 0.0, 0.0, 0.0), Place("Tent", 0.0, -70.0, 0.0)], "both sides: Hut and Tent"),
        (QUAY, [Place("Hut", 0.0, -50.0, 0.0)], "runs through the firing point Hut"),
        (CrowdLine("Quay", ((1.0, 1.0, 0.0), (1.0, 1.0, 0.0))), [HUT], "its points are one"),
    ],
)
def test_a_line_whose_side_is_not_shown_is_told_and_nothing_is_made_of_it(
    line: CrowdLine, firing_points: list[Place], word: str
) -> None:
    solved = _crowd(0.0, -60.0, line, *firing_points)
    (found,) = check_of("crowd-side-unknown")(solved)
    assert found.at == "crowd:Quay"
    assert word in found.headline
    assert not check_of("crowd-side")(solved)


def test_a_line_without_any_firing_point_is_told_and_one_with_several_on_our_side_is_not() -> None:
    assert "no firing point" in check_of("crowd-side-unknown")(remodelled(well(), crowds={"Quay": QUAY}))[0].headline
    assert not check_of("crowd-side-unknown")(_crowd(0.0, 0.0, QUAY, HUT, Place("Tent", 0.0, -49.0, 0.0)))


# --- zones and control lines ---


def _zoned(**zones: tuple[tuple[str, ...], float | None]) -> Solved:
    return remodelled(
        well(), zones={name: Zone(name, rails, None, armed_s) for name, (rails, armed_s) in zones.items()}
    )


@pytest.mark.parametrize(("armed_s", "cues"), [(-600.0, None), (10.0, None), (10.001, ["1"]), (25.0, ["1", "2"])])
def test_a_zone_is_armed_before_its_rails_fire(armed_s: float, cues: list[str] | None) -> None:
    found = check_of("zone-late")(_zoned(West=(("A",), armed_s), East=(("B",), None)))
    assert [one.values["cues"] for one in found] == ([] if cues is None else [cues])
    assert all((one.at, one.role) == ("zone:West", "armed") for one in found)


def test_a_press_is_not_held_against_the_arming_of_its_zone() -> None:
    solved = remodelled(_pressed(well(), "1"), zones={"West": Zone("West", ("A",), None, 600.0)})
    assert not check_of("zone-late")(solved)


def test_a_rail_in_two_zones_is_told_at_the_second() -> None:
    (found,) = check_of("zone-twice")(_zoned(West=(("A", "B"), None), East=(("A", "B"), None)))
    assert (found.at, found.values["rails"], found.values["zones"]) == ("zone:West", ["A", "B"], ["East", "West"])
    assert not check_of("zone-twice")(_zoned(West=(("A", "A"), None), East=(("B",), None)))


def test_where_there_are_zones_every_rail_that_fires_is_in_one() -> None:
    assert [one.at for one in check_of("zone-none")(_zoned(West=(("A",), None)))] == ["rail:B"]
    assert not check_of("zone-none")(_zoned(West=(("A",), None), East=(("B",), None)))
    assert not check_of("zone-none")(well())
    idle = _zoned(West=(("A",), None))
    assert not check_of("zone-none")(remodelled(idle, cues=idle.model.cues[:2]))  # nothing fires B


def _controlled(**sources: str | None) -> Solved:
    rails = {
        name: replace(
            well().model.rails[name],
            control=None if source is None else Feed(f"{source}>{name}", source, name, 80.0, "zip-18"),
        )
        for name, source in sources.items()
    }
    return remodelled(well(), rails=rails)


def test_a_control_line_that_some_rails_state_is_asked_of_all() -> None:
    (found,) = check_of("control-missing")(_controlled(A="Hut", B=None))
    assert (found.at, found.values["rails"]) == ("rail:B", ["B"])
    assert not check_of("control-missing")(_controlled(A="Hut", B="A"))
    assert not check_of("control-missing")(well())


def test_a_ring_of_control_lines_is_told_once() -> None:
    (found,) = check_of("control-cycle")(_controlled(A="B", B="A"))
    assert (found.at, found.headline) == ("rail:A", "the control line of rail A leads back to it: A from B from A")
    assert not check_of("control-cycle")(_controlled(A="Hut", B="A"))


def test_what_a_chain_of_no_delay_shows_is_its_burn_alone() -> None:
    assert check_of("hold-broken")(_held(11.9, 19.0, shells=5, delay_s=0.0))
    assert not check_of("hold-broken")(_held(12.0, 19.0, shells=5, delay_s=0.0))
