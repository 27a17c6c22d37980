"""Values that can't be meant, labels that look alike, numbers out of order: broken, kept, and at the limit."""

from __future__ import annotations

import pytest

from compiler.checks.prefire_implausible import LIFT_TO_BURST, usual_s
from compiler.model.quantities import ZERO, Given
from compiler.model.solved import Address, Schedule, Solved
from compiler.model.types import Effect, Rack
from compiler.model.values import replace
from tests.rules.builders import EFFECT, check_of, fired, remodelled, well, with_part


def _shell(**changes: object) -> Solved:
    """The well show with shells of 76 mm and 2.7 s."""
    return with_part(
        well(), "effects", "comet-x", **{"kind": "shell", "calibre_m": 0.076, "prefire_s": Given.exact(2.7), **changes}
    )


def _prefire(prefire_s: float, calibre_m: float | None = 0.076) -> list[str]:
    solved = _shell(prefire_s=Given.exact(prefire_s), calibre_m=calibre_m)
    return [one.headline for one in check_of("prefire-implausible")(solved)]


@pytest.mark.parametrize(("prefire_s", "count"), [(1.249, 1), (1.25, 0), (2.7, 0), (6.0, 0), (6.001, 1)])
def test_a_prefire_lies_between_half_and_twice_the_usual_of_its_calibre(prefire_s: float, count: int) -> None:
    assert len(_prefire(prefire_s)) == count


def test_a_slip_of_the_decimal_point_is_told_with_what_was_meant() -> None:
    (found,) = check_of("prefire-implausible")(_shell(prefire_s=Given.exact(0.27)))
    assert (found.at, found.role) == ("effect:comet-x", "prefire")
    assert "`prefire 2.7 s` meant" in found.hint
    (found,) = check_of("prefire-implausible")(_shell(prefire_s=Given.exact(27.0)))
    assert "`prefire 2.7 s` meant" in found.hint


def test_a_shell_without_any_prefire_is_told_whatever_its_calibre() -> None:
    assert "has no prefire" in _prefire(0.0)[0]
    assert "has no prefire" in _prefire(0.0, None)[0]
    assert not _prefire(0.1, None)  # nothing to hold it against


@pytest.mark.parametrize("kind", ["comet", "mine", "chain"])
def test_only_shells_are_asked_for_a_flight_time(kind: str) -> None:
    assert not check_of("prefire-implausible")(_shell(kind=kind, prefire_s=ZERO))


def test_the_shell_of_a_chain_is_checked_though_no_device_is_made_of_it() -> None:
    solved = _shell(kind="chain", shells=5, shell="inner", delay_s=0.5)
    inner = Effect("inner", "shell", "red-tag", ZERO, 1.0, 0.076, EFFECT.origin)
    assert not check_of("prefire-implausible")(solved)
    chained = remodelled(solved, effects={**solved.model.effects, "inner": inner})
    assert [one.at for one in check_of("prefire-implausible")(chained)] == ["effect:inner"]


def test_an_effect_that_no_device_is_made_of_is_left_alone() -> None:
    stray = EFFECT._replace(name="stray", kind="shell", calibre_m=75.0)
    solved = remodelled(well(), effects={**well().model.effects, "stray": stray})
    assert not check_of("prefire-implausible")(solved)
    assert not check_of("calibre-implausible")(solved)


def test_usual_times_are_the_table_at_its_calibres_and_never_fall_between_them() -> None:
    assert [usual_s(calibre_m) for calibre_m, _, _ in LIFT_TO_BURST] == [(low, high) for _, low, high in LIFT_TO_BURST]
    steps = [usual_s(mm / 1000) for mm in range(10, 700)]
    for lows in zip(*steps, strict=True):
        assert list(lows) == sorted(lows)
    assert usual_s(0.610)[1] == pytest.approx(15.0)
    assert usual_s(0.032) == (1.0, 2.5)


@pytest.mark.parametrize(
    ("kind", "calibre_m", "count"),
    [
        ("shell", 0.65, 0),
        ("shell", 0.651, 1),
        ("shell", 0.01, 0),
        ("shell", 0.0099, 1),
        ("comet", 0.005, 0),
        ("comet", 0.7, 1),
        ("chain", 0.003, 1),
    ],
)
def test_a_calibre_is_one_that_is_fired(kind: str, calibre_m: float, count: int) -> None:
    assert len(check_of("calibre-implausible")(_shell(kind=kind, calibre_m=calibre_m))) == count


@pytest.mark.parametrize(("calibre_m", "meant"), [(75 * 0.0254, "75 mm"), (0.003, "3 in"), (1.25, "125 mm")])
def test_the_calibre_that_was_meant_is_offered(calibre_m: float, meant: str) -> None:
    (found,) = check_of("calibre-implausible")(_shell(calibre_m=calibre_m))
    assert f"`calibre {meant}`" in found.hint


def test_a_wrong_calibre_is_told_once_and_not_as_a_wrong_prefire_too() -> None:
    solved = _shell(calibre_m=1.905)
    assert not check_of("prefire-implausible")(solved)
    chain = EFFECT._replace(name="row", kind="chain", shell="comet-x", shells=3, calibre_m=1.905)
    solved = with_part(
        remodelled(solved, effects={**solved.model.effects, "row": chain}), "devices", "D1", effect="row"
    )
    assert [one.at for one in check_of("calibre-implausible")(solved)] == ["effect:comet-x"]


def test_a_rack_in_inches_is_told_at_the_rack() -> None:
    solved = remodelled(well(), racks={"R1": Rack("R1", 5, 1.905, "Q1", None, None)})
    (found,) = check_of("calibre-implausible")(solved)
    assert (found.at, found.role) == ("rack:R1", "tubes")


@pytest.mark.parametrize(
    ("volts", "count"),
    [
        (Given(12.0, 20.0, 24.0), 0),
        (Given(11.99, 20.0, 24.0), 1),
        (Given(0.0, 12.0, 24.0), 1),
        (Given(0.0, 0.0, 0.0), 1),
        (None, 0),
    ],
)
def test_no_battery_goes_below_half_its_highest_voltage(volts: Given | None, count: int) -> None:
    found = check_of("voltage-implausible")(with_part(well(), "batteries", "pack-24", emf_v=volts))
    assert [one.at for one in found] == ["battery:pack-24"] * count


def test_a_battery_of_no_supply_is_left_alone() -> None:
    solved = with_part(well(), "batteries", "pack-24", emf_v=Given(1.0, 2.0, 24.0))
    assert not check_of("voltage-implausible")(remodelled(solved, supplies={}))


@pytest.mark.parametrize(
    ("ambient_c", "count"),
    [
        ((-40.0, 20.0), 0),
        ((-40.1, 10.0), 1),
        ((0.0, 55.0), 0),
        ((0.0, 55.1), 1),
        ((-10.0, 50.0), 0),
        ((-10.1, 50.0), 1),
    ],
)
def test_a_show_is_fired_in_weather_that_people_work_in(ambient_c: tuple[float, float], count: int) -> None:
    solved = remodelled(well(), show=replace(well().model.show, ambient_c=ambient_c))
    assert len(check_of("temperature-implausible")(solved)) == count


def test_minus_forty_fahrenheit_is_no_slip() -> None:
    cold = (-40 - 32) * 5 / 9
    solved = remodelled(well(), show=replace(well().model.show, ambient_c=(cold, cold + 30)))
    assert not check_of("temperature-implausible")(solved)


# --- labels ---


def _labelled(*labels: str) -> Solved:
    circuits = {
        name: replace(one, label=label)
        for (name, one), label in zip(well().model.circuits.items(), labels, strict=True)
    }
    return remodelled(well(), circuits=circuits)


def test_one_label_for_two_circuits_is_told_at_the_template() -> None:
    (found,) = check_of("label-twice")(_labelled("Q1", "Q2", "Q1"))
    assert (found.at, found.role, found.values["circuits"]) == ("defaults:", "label", ["First", "Third"])


@pytest.mark.parametrize("other", ["QI", "ql", "Q01"])
def test_labels_that_look_alike_are_told_at_the_second_circuit(other: str) -> None:
    (found,) = check_of("label-twice")(_labelled("Q1", other, "Q3"))
    assert found.at == "circuit:Second"
    assert "look alike" in found.headline


def test_labels_that_differ_are_well_and_so_is_none_at_all() -> None:
    assert not check_of("label-twice")(_labelled("Q1", "Q2", "Q3"))
    assert not check_of("label-twice")(_labelled("", "", ""))


def test_circuits_on_one_channel_or_on_none_are_told_elsewhere() -> None:
    solved = _labelled("Q1", "Q1", "Q3")
    shared = {**solved.addresses, "Second": Address("A", 1, bound=True)}
    assert not check_of("label-twice")(replace(solved, addresses=shared))
    lone = {name: address for name, address in solved.addresses.items() if name != "Second"}
    assert not check_of("label-twice")(replace(solved, addresses=lone))


# --- numbers ---


def _numbered(*cues: tuple[str, float]) -> Solved:
    made = sorted((fired(number, at_s, "First") for number, at_s in cues), key=lambda cue: cue.fired_s)
    return replace(well(), schedule=Schedule(tuple(made), ()))


def test_numbers_out_of_time_order_are_told_once_with_the_first_pair() -> None:
    (found,) = check_of("number-order")(_numbered(("1", 10.0), ("2", 5.0), ("3", 20.0), ("10", 7.0)))
    assert (found.at, found.values["cues"], found.values["out_of_order"]) == ("cue:2", ["1", "2"], ["2", "10"])
    assert found.headline == "cue 2 is seen before cue 1; 1 other is out of order too"


def test_numbers_are_compared_as_numbers_and_equal_times_pass() -> None:
    assert not check_of("number-order")(_numbered(("2", 10.0), ("10", 20.0), ("11", 20.0)))


def test_a_chase_counts_by_its_first_part_and_scripts_without_numbers_do_not_count() -> None:
    assert not check_of("number-order")(_numbered(("1.1", 10.0), ("1.2", 15.0), ("2", 12.0), ("Dusk-1", 1.0)))
    assert check_of("number-order")(_numbered(("1.1", 13.0), ("1.2", 15.0), ("2", 12.0)))


def test_what_is_lit_early_to_be_seen_in_order_is_in_order() -> None:
    late = fired("1", 10.0, "First")
    early = fired("2", 11.0, "Second")._replace(fired_s=8.3, prefire_s=Given.exact(2.7))
    assert not check_of("number-order")(replace(well(), schedule=Schedule((early, late), ())))


def test_presses_have_no_show_time_to_be_out_of_order() -> None:
    pressed = fired("2", 0.0, "Second")._replace(press="2")
    assert not check_of("number-order")(replace(well(), schedule=Schedule((fired("1", 10.0, "First"), pressed), ())))


@pytest.mark.parametrize(("fired_s", "count"), [(10.0, 0), (9.99, 1)])
def test_numbers_may_run_with_what_is_fired_as_well(fired_s: float, count: int) -> None:
    shell = fired("1", 12.7, "First")._replace(fired_s=10.0, prefire_s=Given.exact(2.7))
    comet = fired("2", fired_s, "Second")
    assert len(check_of("number-order")(replace(well(), schedule=Schedule((shell, comet), ())))) == count
