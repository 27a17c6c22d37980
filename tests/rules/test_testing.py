"""Test currents: what must never fire a match while people are near. Broken, kept, at the limit."""

from __future__ import annotations

from compiler.model.quantities import Given
from compiler.model.values import replace
from tests.rules.builders import MODULE, check_of, remodelled, well, with_limit, with_part, with_result


def test_a_test_current_above_the_limit_is_told_with_its_source() -> None:
    (found,) = check_of("test-current")(with_result(well(), test_a=0.03))
    assert (found.at, found.values["test_a"], found.values["limit_a"]) == ("rail:A", 0.03, 0.025)
    assert "set by house rules; source: invented for this test" in found.detail


def test_a_test_current_at_the_limit_passes() -> None:
    assert not check_of("test-current")(with_result(well(), test_a=0.025))


def test_a_share_of_no_fire_is_shown_as_a_sum() -> None:
    solved = with_part(well(), "matches", "red-tag", no_fire_a=0.03)
    (found,) = check_of("test-current")(with_result(solved, test_limit_a=0.006, test_limit_id="test-fraction"))
    assert found.working == "greatest supply into a short: 8 mA, limit 0.2 × no-fire 30 mA = 6 mA"


def test_a_loud_module_is_told_once_for_all_its_circuits() -> None:
    solved = with_result(with_result(well(), "First", test_a=0.03), "Third", test_a=0.04)
    (found,) = check_of("test-current")(solved)
    assert (found.at, found.values["circuits"]) == ("rail:B", 2)


def test_a_module_that_states_no_test_current_is_an_error() -> None:
    (found,) = check_of("test-current-unknown")(with_part(well(), "modules", "box-8", test_current_a=None))
    assert (found.at, found.values["rails"]) == ("module:box-8", ["A", "B"])


def test_a_test_resistor_is_as_good_as_a_stated_current() -> None:
    solved = with_part(well(), "modules", "box-8", test_current_a=None, test_resistor_ohm=Given.exact(3000.0))
    assert not check_of("test-current-unknown")(solved)


def test_a_module_of_no_rail_is_not_asked() -> None:
    spare = replace(MODULE, name="spare", test_current_a=None, test_fault_a=None, driver_ohm=None)
    solved = remodelled(well(), modules={"box-8": MODULE, "spare": spare})
    for slug in ("test-current-unknown", "test-fault", "missing-module-data"):
        assert not check_of(slug)(solved)


def test_a_module_above_the_limit_after_one_failed_part_is_told_once() -> None:
    (found,) = check_of("test-fault")(with_part(well(), "modules", "box-8", test_fault_a=0.051))
    assert found.values == {"test_fault_a": 0.051, "limit_a": 0.05}


def test_a_module_at_the_limit_after_one_failed_part_passes() -> None:
    assert not check_of("test-fault")(with_part(well(), "modules", "box-8", test_fault_a=0.05))


def test_a_module_that_does_not_state_its_failed_current_has_not_shown_it() -> None:
    (found,) = check_of("test-fault")(with_part(well(), "modules", "box-8", test_fault_a=None))
    assert "does not state" in found.headline


def test_a_tightened_limit_holds() -> None:
    assert len(check_of("test-fault")(with_limit(well(), "test-fault", 0.01))) == 1
