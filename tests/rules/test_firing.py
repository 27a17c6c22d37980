"""Firing current, impulse and resistance: broken, kept, and at the limit."""

from __future__ import annotations

import pytest

from compiler.model.quantities import Given, Range
from compiler.model.values import replace
from tests.rules.builders import check_of, match_result, well, wiring, with_limit, with_match, with_result


def _least(amps: float) -> Range:
    return Range(amps, amps + 1.0, amps + 2.0)


@pytest.mark.parametrize(("use", "word"), [("alone", "alone"), ("series", "in series"), ("parallel", "in parallel")])
def test_a_match_below_its_firing_current_is_told_in_the_words_of_its_use(use: str, word: str) -> None:
    solved = with_match(well(), use=use, required_a=1.0, required_from=use, current_a=_least(1.4))
    (found,) = check_of("firing-current")(solved)
    assert found.at == "circuit:First"
    assert word in found.headline
    assert found.working.startswith("1 A × 1.5 = 1.5 A, least 1.4 A")


def test_a_match_at_its_firing_current_times_margin_passes() -> None:
    solved = with_match(well(), required_a=1.0, current_a=_least(1.5), least_sibling_shorted_a=1.0)
    assert not check_of("firing-current")(solved)


def test_a_wider_margin_is_asked_for() -> None:
    solved = with_limit(with_match(well(), required_a=1.0, current_a=_least(1.5)), "margin", 2.0)
    (found,) = check_of("firing-current")(solved)
    assert found.values["margin"] == 2.0
    assert "house rules" in found.detail


def test_the_weakest_match_speaks_for_its_circuit() -> None:
    weak = [match_result(f"D{n}", current_a=_least(0.8 - n / 10)) for n in (1, 2, 3)]
    solved = with_result(well(), matches={match.name: match for match in weak})
    (found,) = check_of("firing-current")(solved)
    assert (found.values["match"], found.values["other_matches"]) == ("D3", 2)


def test_the_share_of_the_lead_is_said() -> None:
    (found,) = check_of("firing-current")(with_match(well(), current_a=_least(0.1)))
    assert "8 m of zip-18, up to 0.4 ohm" in found.detail
    assert "19 %" in found.detail


def test_a_match_robbed_by_a_shorted_sibling_is_told_apart() -> None:
    (found,) = check_of("firing-current")(with_match(well(), least_sibling_shorted_a=0.5))
    assert "once the quickest other match has fired and shorted" in found.headline
    assert found.values["least_sibling_shorted_a"] == 0.5


def test_the_second_statement_carries_no_margin() -> None:
    assert not check_of("firing-current")(with_match(well(), least_sibling_shorted_a=0.6))


def test_both_statements_failing_are_one_finding() -> None:
    solved = with_match(well(), current_a=_least(0.5), least_sibling_shorted_a=0.1)
    (found,) = check_of("firing-current")(solved)
    assert "least_a" in found.values


def test_an_impulse_below_the_least_sensitive_match_is_told() -> None:
    (found,) = check_of("firing-impulse")(with_match(well(), impulse_a2s=Range(0.0029, 0.1, 0.2)))
    assert "2.9 A2ms" in found.headline
    assert "3 A2ms" in found.headline


def test_an_impulse_that_is_just_enough_passes() -> None:
    assert not check_of("firing-impulse")(with_match(well(), impulse_a2s=Range(0.003, 0.1, 0.2)))


def test_no_impulse_below_the_firing_current_is_an_echo() -> None:
    solved = with_match(well(), current_a=_least(0.5), impulse_a2s=Range(0.0, 0.1, 0.2))
    assert not check_of("firing-impulse")(solved)
    assert check_of("firing-current")(solved)


def test_a_string_above_the_range_of_its_module_is_told_as_a_sum() -> None:
    string = wiring("D1", "D4", topology="series")
    solved = with_result(well(), resistance_ohm=Given(3.3, 3.5, 20.4))
    (found,) = check_of("circuit-resistance")(replace(solved, wirings={**solved.wirings, "First": string}))
    assert found.working == "lead 0.4 ohm + 2 × bridge 1.7 ohm = 20.4 ohm, limit 20 ohm"
    assert "The bridges are" in found.detail


def test_a_line_below_the_range_of_its_module_is_told() -> None:
    (found,) = check_of("circuit-resistance")(with_result(well(), resistance_ohm=Given(0.4, 0.6, 0.7)))
    assert found.values == {"resistance_ohm": 0.4, "limit_ohm": 0.5}


def test_a_circuit_at_both_ends_of_the_range_passes() -> None:
    assert not check_of("circuit-resistance")(with_result(well(), resistance_ohm=Given(0.5, 5.0, 20.0)))
