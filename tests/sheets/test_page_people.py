"""How numbers, times and names are put for people: never in favour of the show."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compiler.sheets import people

CURRENTS = st.floats(-1e6, 1e6, allow_nan=False).map(lambda x: float(f"{x:.12g}"))


@pytest.mark.parametrize(
    ("value", "down", "up"),
    [
        (2.3, "2.30", "2.30"),
        (0.599999, "0.59", "0.60"),
        (0.604, "0.60", "0.61"),
        (7.0, "7.00", "7.00"),
    ],
)
def test_a_bound_is_rounded_to_the_side_that_hides_nothing(value: float, down: str, up: str) -> None:
    assert people.at_least(value) == down
    assert people.at_most(value) == up


@given(CURRENTS)
def test_what_is_printed_as_least_is_never_above_the_value(value: float) -> None:
    printed = float(people.at_least(value).replace(people.MINUS, "-"))
    assert printed <= value
    assert value - printed < 0.01 + 1e-9


def test_a_reading_is_rounded_outward_to_a_tenth() -> None:
    assert people.span(2.34, 2.86, 1) == "2.3 – 2.9"
    assert people.span(2.3, 2.9, 1) == "2.3 – 2.9"
    assert people.span(None, 2.9, 1) == "not computed"


def test_a_limit_in_milliampere_is_never_put_higher_than_it_is() -> None:
    assert people.milliamperes(0.00801) == "8.1"
    assert people.milliamperes(0.02509, most=False) == "25.0"
    assert people.milliamperes(0.025, most=False) == "25.0"


@pytest.mark.parametrize(
    ("seconds", "told"),
    [
        (0.0, "0:00.000"),
        (6.0, "0:06.000"),
        (185.0005, "3:05.001"),
        (-10.0, "−0:10.000"),
        (-0.0001, "0:00.000"),
        (3723.5, "1:02:03.500"),
        (59.9996, "1:00.000"),
        (None, ""),
    ],
)
def test_a_time_is_minutes_seconds_and_milliseconds(seconds: float | None, told: str) -> None:
    assert people.clock(seconds) == told


@pytest.mark.parametrize(("seconds", "told"), [(0.005, "+5 ms"), (-0.0025, "−2.5 ms"), (0.0, "0 ms"), (None, "")])
def test_a_shift_in_time_has_its_sign(seconds: float | None, told: str) -> None:
    assert people.signed_milliseconds(seconds) == told


def test_a_stated_figure_is_as_short_as_it_can_be_said() -> None:
    assert people.exact(15.0, "A") == "15 A"
    assert people.exact(0.5) == "0.5"
    assert people.exact(-5.0) == "−5"
    assert people.exact(100000.0) == "100000"
    assert people.exact(None, "A") == "not stated"


def test_a_length_is_cut_no_shorter_than_computed() -> None:
    assert people.metres(26.4) == "26.4 m"
    assert people.metres(26.41) == "26.5 m"
    assert people.metres(52.0) == "52 m"


@pytest.mark.parametrize(
    ("names", "told"),
    [
        (["Q1", "Q2", "Q3", "Q7"], "Q1..Q3, Q7"),
        (["Q1", "Q2"], "Q1, Q2"),
        (["A.9", "A.10", "A.11", "B.1"], "A.9..A.11, B.1"),
        (["Curtain.1", "Curtain.3"], "Curtain.1, Curtain.3"),
        (["Q01", "Q02", "Q03"], "Q01..Q03"),
        (["Q09", "Q10"], "Q09, Q10"),
        (["Q3", "Q2", "Q1"], "Q3, Q2, Q1"),
        (["Pylon-W"], "Pylon-W"),
        ([], ""),
    ],
)
def test_runs_of_names_are_drawn_together_and_nothing_else(names: list[str], told: str) -> None:
    assert people.listed(names) == told


@pytest.mark.parametrize("char", ["\u202e", "\u2066", "\x1b", "\x00", "\u200b", "\u2028", "\x9b"])
def test_what_a_page_or_terminal_would_obey_becomes_visible(char: str) -> None:
    assert people.plain(f"a{char}b") == "a\N{REPLACEMENT CHARACTER}b"


def test_every_kind_of_space_becomes_an_ordinary_one() -> None:
    assert people.plain("a\nb\tc\u00a0d") == "a b c d"


def test_ordinary_text_stays_as_it_is() -> None:
    for text in ("Curtain up", "Überführung 3 €", "ⓐ 花火", "<b>&\"'"):
        assert people.plain(text) == text
