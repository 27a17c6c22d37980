"""Missing data: no value, no number, and never a pass."""

from __future__ import annotations

import pytest

from compiler.checks import run_checks
from compiler.model.types import RuleSet
from compiler.model.values import replace
from tests.rules.builders import check_of, instant, remodelled, well, wiring, with_match, with_part, with_result


@pytest.mark.parametrize(
    ("field", "word"), [("bridge_ohm", "bridge"), ("fires_alone_a", "alone"), ("impulse_a2s", "impulse")]
)
def test_a_match_that_lacks_firing_data_is_told_once(field: str, word: str) -> None:
    (found,) = check_of("missing-firing-data")(with_part(well(), "matches", "red-tag", **{field: None}))
    assert (found.at, found.values["missing"], found.values["circuits"]) == ("match:red-tag", [word], 3)


@pytest.mark.parametrize(
    ("topology", "missing"), [("single", []), ("series", ["series"]), ("parallel", []), ("mixed", ["series"])]
)
def test_only_the_firing_current_of_the_way_it_is_wired_is_asked_for(topology: str, missing: list[str]) -> None:
    solved = with_part(well(), "matches", "red-tag", fires_series_a=None)
    solved = replace(solved, wirings={"First": wiring("D1", topology=topology)})
    found = check_of("missing-firing-data")(solved)
    assert [one.values["missing"] for one in found] == ([missing] if missing else [])


def test_a_match_of_no_type_is_told() -> None:
    (found,) = check_of("missing-firing-data")(with_part(well(), "match_uses", "D1", igniter=None))
    assert found.at == "circuit:First"


def test_a_match_without_a_no_fire_current_is_told() -> None:
    (found,) = check_of("missing-no-fire")(with_part(well(), "matches", "red-tag", no_fire_a=None))
    assert found.at == "match:red-tag"


def test_a_match_that_no_circuit_uses_is_not_asked() -> None:
    solved = remodelled(with_part(well(), "matches", "red-tag", no_fire_a=None, bridge_ohm=None), circuits={})
    assert not check_of("missing-no-fire")(solved)
    assert not check_of("missing-firing-data")(solved)


def test_a_generic_match_is_noted_once() -> None:
    (found,) = check_of("makers-data-missing")(with_part(well(), "matches", "red-tag", generic=True))
    assert found.values == {"match": "red-tag", "circuits": 3}
    assert not check_of("makers-data-missing")(well())


@pytest.mark.parametrize(
    ("field", "word"),
    [
        ("driver_ohm", "driver"), ("channel_limit_a", "channel-limit"), ("rail_limit_a", "rail-limit"),
        ("pulse_s", "pulse"), ("recovery_s", "recovery"), ("circuit_ohm_range", "circuit"),
    ],
)  # fmt: skip
def test_a_module_that_lacks_a_value_says_what_is_not_checked(field: str, word: str) -> None:
    (found,) = check_of("missing-module-data")(with_part(well(), "modules", "box-8", **{field: None}))
    assert (found.at, found.values["missing"]) == ("module:box-8", [word])
    assert f"({word})" in found.detail


@pytest.mark.parametrize("field", ["most_at_once", "reach_m"])
def test_a_module_may_leave_out_what_it_does_not_have(field: str) -> None:
    assert not check_of("missing-module-data")(with_part(well(), "modules", "box-8", **{field: None}))


@pytest.mark.parametrize(
    "solved",
    [
        with_result(well(), current_a=None),
        with_result(well(), shorted_current_a=None),
        with_result(well(), matches={}),
        with_match(well(), current_a=None),
        with_match(well(), impulse_a2s=None),
        with_match(well(), required_a=None),
        replace(well(), circuits={}),
        replace(well(), instants=(replace(instant("First"), supply_a=None),)),
    ],
    ids=["current", "short", "matches", "match", "impulse", "required", "everything", "instant"],
)  # fmt: skip
def test_a_hole_without_a_reason_is_an_error(solved: object) -> None:
    assert check_of("not-computed")(solved)  # type: ignore[arg-type]


def test_a_rule_set_without_a_limit_is_an_error() -> None:
    rules = well().model.rules
    some = {name: found for name, found in rules.limits.items() if name != "margin"}
    solved = remodelled(well(), rules=RuleSet("half", "2027-01-01", some))
    (found,) = check_of("not-computed")(solved)
    assert found.values == {"missing": ["margin"]}


@pytest.mark.parametrize(
    ("table", "part", "field", "slug"),
    [
        ("matches", "red-tag", "bridge_ohm", "missing-firing-data"),
        ("matches", "red-tag", "fires_alone_a", "missing-firing-data"),
        ("matches", "red-tag", "impulse_a2s", "missing-firing-data"),
        ("match_uses", "D1", "igniter", "missing-firing-data"),
        ("matches", "red-tag", "no_fire_a", "missing-no-fire"),
        ("modules", "box-8", "driver_ohm", "missing-module-data"),
        ("modules", "box-8", "channel_limit_a", "missing-module-data"),
        ("modules", "box-8", "rail_limit_a", "missing-module-data"),
        ("modules", "box-8", "pulse_s", "missing-module-data"),
        ("modules", "box-8", "recovery_s", "missing-module-data"),
        ("modules", "box-8", "circuit_ohm_range", "missing-module-data"),
        ("modules", "box-8", "test_current_a", "test-current-unknown"),
        ("modules", "box-8", "test_fault_a", "test-fault"),
        ("batteries", "pack-24", "emf_v", "supply-missing-data"),
        ("batteries", "pack-24", "inner_ohm", "supply-missing-data"),
        ("batteries", "pack-24", "limit_a", "supply-missing-data"),
        ("batteries", "pack-24", "fuse_a", "fuse-missing"),
        ("cables", "zip-18", "limit_a", "missing-cable-data"),
        ("rails", "A", "feed", "rail-unfed"),
    ],
)
def test_every_missing_value_has_exactly_one_rule_that_says_so(table: str, part: str, field: str, slug: str) -> None:
    """And with nothing computed from it, no other rule reads the hole as a pass or echoes it."""
    solved = with_part(well(), table, part, **{field: None})
    empty = with_result(with_match(solved, current_a=None, impulse_a2s=None, required_a=None), current_a=None)
    computes = slug in {"missing-firing-data", "supply-missing-data", "rail-unfed"} or field in {"driver_ohm", "pulse_s"}
    gone = computes and field != "limit_a"
    assert {one.rule for one in run_checks(empty if gone else solved)} == {slug}


def test_a_circuit_beside_an_unknown_one_is_no_echo() -> None:
    solved = with_part(well(), "match_uses", "D1", igniter=None)
    both = replace(instant("First", "Second"), supply_a=None)
    solved = with_result(with_result(replace(solved, instants=(both,)), current_a=None), "Second", current_a=None)
    assert {one.rule for one in run_checks(solved)} == {"missing-firing-data"}


def test_a_circuit_without_a_channel_is_left_to_the_room_that_gives_them() -> None:
    solved = well()
    addresses = {name: found for name, found in solved.addresses.items() if name != "First"}
    assert not check_of("not-computed")(with_result(replace(solved, addresses=addresses), current_a=None))


@pytest.mark.parametrize(("text", "codes"), [("Quay \u4e00", ["U+4E00"]), ("Qu\u00e4 \u0394", []), ("Quay", [])])
def test_a_text_that_the_sheets_cannot_print_is_told(text: str, codes: list[str]) -> None:
    solved = remodelled(well(), cues=(replace(well().model.cues[0], text=text),))
    found = check_of("glyph-missing")(solved)
    assert [one.values["characters"] for one in found] == ([codes] if codes else [])
    assert all(one.at == "cue:1" for one in found)
