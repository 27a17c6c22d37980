"""Cues, pulses and chases against time: broken, kept, and at the limit."""

from __future__ import annotations

import pytest

from compiler.model.quantities import Given
from compiler.model.solved import Schedule, Solved
from compiler.model.values import replace
from tests.rules.builders import alive, check_of, cue, fired, instant, remodelled, well, with_part


def _second_at(at_s: float) -> Solved:
    """Rail A asked for First at 10 s and for Second at `at_s`."""
    return replace(well(), schedule=Schedule((), (alive("First", "1", 10.0), alive("Second", "2", at_s))))


def test_a_rail_asked_before_it_has_recovered_is_told() -> None:
    (found,) = check_of("rail-recovery")(_second_at(10.303))
    assert (found.at, found.values["rest_s"]) == ("cue:2", 0.199)
    assert found.working == "0:10.301 − 0:10.102 = 199 ms, recovery 200 ms"
    assert "0:10.304 or later" in found.hint


def test_a_rail_that_has_just_recovered_passes() -> None:
    assert not check_of("rail-recovery")(_second_at(10.304))


def test_circuits_fired_at_one_moment_are_one_firing() -> None:
    assert not check_of("rail-recovery")(_second_at(10.0))


def test_pulses_that_overlap_are_told_as_such() -> None:
    (found,) = check_of("rail-recovery")(_second_at(10.05))
    assert "during First" in found.headline


def test_a_rail_is_told_once_at_its_shortest_rest() -> None:
    pulses = (alive("First", "1", 10.0), alive("Second", "2", 10.25), alive("First", "3", 10.4))
    (found,) = check_of("rail-recovery")(replace(well(), schedule=Schedule((), pulses)))
    assert (found.at, found.values["others"]) == ("cue:3", 1)


def test_another_rail_needs_no_rest() -> None:
    solved = replace(well(), schedule=Schedule((), (alive("First", "1", 10.0), alive("Third", "3", 10.1))))
    assert not check_of("rail-recovery")(solved)


@pytest.mark.parametrize(("count", "findings"), [(4, 0), (5, 1)])
def test_a_rail_fires_so_many_at_once_and_no_more(count: int, findings: int) -> None:
    solved = well()
    names = [f"C{n}" for n in range(count)]
    addresses = {name: replace(solved.addresses["First"], channel=n + 1) for n, name in enumerate(names)}
    found = check_of("too-many-at-once")(replace(solved, addresses=addresses, instants=(instant(*names),)))
    assert len(found) == findings
    assert all(one.values["count"] == 5 and one.values["circuits"] == names for one in found)


def test_a_module_that_states_no_number_at_once_has_none() -> None:
    solved = replace(with_part(well(), "modules", "box-8", most_at_once=None), instants=(instant(*"ABCDEFGH"),))
    assert not check_of("too-many-at-once")(solved)


@pytest.mark.parametrize(("fired_s", "findings"), [(0.0, 0), (-0.01, 1)])
def test_nothing_fires_before_show_zero(fired_s: float, findings: int) -> None:
    early = replace(fired("1", 2.0, "First"), fired_s=fired_s, prefire_s=Given.exact(2.7))
    found = check_of("fired-before-zero")(replace(well(), schedule=Schedule((early,), ())))
    assert len(found) == findings
    assert all("0:02.7" in one.hint and "seen 0:02.0 − prefire 2.7 s" in one.working for one in found)


def test_a_circuit_in_two_cues_is_told_at_the_second() -> None:
    solved = remodelled(well(), cues=(cue("1", 10.0, "First"), cue("2", 20.0, "First", "Second")))
    (found,) = check_of("circuit-fired-twice")(solved)
    assert (found.at, found.values["cues"]) == ("cue:2", ["1", "2"])


def test_a_circuit_twice_in_one_cue_is_told() -> None:
    solved = remodelled(well(), cues=(cue("1", 10.0, "First", "First"),))
    assert "twice in one cue" in check_of("circuit-fired-twice")(solved)[0].headline


def test_a_circuit_in_one_cue_is_well() -> None:
    assert not check_of("circuit-fired-twice")(well())
    assert not check_of("never-fired")(well())


def test_a_circuit_of_no_cue_is_told() -> None:
    found = check_of("never-fired")(remodelled(well(), cues=(cue("1", 10.0, "First"),)))
    assert [one.at for one in found] == ["circuit:Second", "circuit:Third"]


def _two_comets(**changes: object) -> Solved:
    """D1 and D2 in two cues at one moment, D2 changed."""
    solved = with_part(well(), "devices", "D2", **changes)
    return replace(solved, schedule=Schedule((fired("1", 10.0, "First"), fired("2", 10.0, "Second")), ()))


def test_the_same_effect_at_one_place_and_time_in_two_cues_is_told_at_the_second() -> None:
    (found,) = check_of("pasted-twice")(_two_comets())
    assert (found.at, found.related[0].at) == ("cue:2", "cue:1")


@pytest.mark.parametrize("change", [{"position": "Q2"}, {"effect": "mine-x"}, {"tilt_deg": 20.0}])
def test_another_place_effect_or_tilt_is_another_thing(change: dict[str, object]) -> None:
    assert not check_of("pasted-twice")(_two_comets(**change))


def test_another_moment_is_another_thing() -> None:
    assert not check_of("pasted-twice")(well())


def test_two_of_a_kind_in_one_cue_are_meant() -> None:
    solved = replace(well(), schedule=Schedule((fired("1", 10.0, "First", "Second"),), ()))
    assert not check_of("pasted-twice")(solved)


@pytest.mark.parametrize(("step_s", "word"), [(0.009, "ticks every 10 ms"), (2.01, "the longest is 2 s")])
def test_a_chase_too_fast_or_too_slow_is_told(step_s: float, word: str) -> None:
    solved = remodelled(well(), cues=(cue("1.1", 10.0, "First", chase_step_s=step_s), cue("1.2", 10.1, "Second")))
    (found,) = check_of("chase-step")(solved)
    assert found.at == "cue:1.1"
    assert word in found.headline


@pytest.mark.parametrize("step_s", [0.01, 0.15, 2.0])
def test_a_chase_from_a_tick_to_the_longest_step_passes(step_s: float) -> None:
    solved = remodelled(well(), cues=(cue("1.1", 10.0, "First", chase_step_s=step_s), cue("1.2", 10.1, "Second")))
    assert not check_of("chase-step")(solved)


def test_a_seen_time_before_the_prefire_is_told_with_lit_at_to_paste() -> None:
    early = replace(fired("1", 2.0, "First"), fired_s=-0.7, prefire_s=Given.exact(2.7))
    (found,) = check_of("fired-before-zero")(replace(well(), schedule=Schedule((early,), ())))
    assert "`lit at 0:02.0`" in found.hint
    assert "`at 0:02.7` or later" in found.hint


def test_a_cue_lit_before_zero_is_told_as_lit() -> None:
    early = replace(fired("1", 1.7, "First"), fired_s=-1.0, prefire_s=Given.exact(2.7))
    solved = remodelled(well(), cues=(replace(cue("1", 0.0, "First"), seen_s=None, lit_s=-1.0),))
    (found,) = check_of("fired-before-zero")(replace(solved, schedule=Schedule((early,), ())))
    assert found.working == "lit at -0:01.0, limit 0:00.0"
    assert "`lit at 0:00.0` or later" in found.hint


def test_a_cue_seen_before_zero_is_not_offered_a_firing_time_before_zero() -> None:
    early = replace(fired("1", -1.0, "First"), fired_s=-3.7, prefire_s=Given.exact(2.7))
    (found,) = check_of("fired-before-zero")(replace(well(), schedule=Schedule((early,), ())))
    assert "lit at" not in found.hint


def test_what_counts_from_two_presses_is_neither_pasted_nor_too_soon_on_its_rail() -> None:
    cues = tuple(replace(fired(number, 0.0, name), press=number) for number, name in (("1", "First"), ("2", "Second")))
    lives = tuple(replace(alive(name, number, 0.15 * index), press=number) for index, (number, name) in enumerate((("1", "First"), ("2", "Second"))))
    solved = replace(well(), schedule=Schedule(cues, lives))
    assert not check_of("pasted-twice")(solved)
    assert not check_of("rail-recovery")(solved)
    same = tuple(replace(one, press="1") for one in lives)
    (found,) = check_of("rail-recovery")(replace(solved, schedule=Schedule((), same)))
    assert "0.15 s after the press of cue 1" in found.detail
    assert "s after 1 or later" in found.hint


def test_a_load_after_a_press_is_told_with_its_press() -> None:
    heavy = replace(instant("First", at_s=0.5, amps=50.0), press="7")
    (found,) = check_of("rail-overload")(replace(well(), instants=(heavy,)))
    assert "0.5 s after the press of cue 7" in found.headline
