"""Units against pint, names and ranges against what a person means by them."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from compiler.vocabulary.names import closest, natural, open_range, skeleton
from compiler.vocabulary.units import SPOKEN, UNITS, ask_pint, meant

_PINT_NAMES = {
    "ft": "foot", "in": "inch", "yd": "yard", "min": "minute", "h": "hour", "mohm": "milliohm", "kohm": "kiloohm",
    "Mohm": "megaohm", "Ω": "ohm", "\u2126": "ohm", "K": "delta_degC", "deg": "degree", "mm2": "mm**2", "mm²": "mm**2",
    "A2s": "A**2*s", "A2ms": "A**2*ms", "mJ/ohm": "mJ/ohm", "1/K": "1/delta_degC", "%": "percent", "mph": "mile/hour", "°C": "degC", "°F": "degF", "°": "degree", "kn": "knot", "km/h": "km/hour",
}  # fmt: skip
_BASES = {
    "length": "m", "time": "s", "voltage": "V", "current": "A", "resistance": "ohm", "temperature": "degC",
    "temperature difference": "delta_degC", "angle": "degree", "area": "m**2", "ratio": "dimensionless",
    "impulse": "A**2*s", "resistance per length": "ohm/m", "per temperature": "1/delta_degC",
    "speed": "m/s",
}  # fmt: skip


@pytest.mark.parametrize("name", [name for name, unit in UNITS.items() if unit.dimension != "gauge"])
def test_every_unit_of_the_table_is_what_pint_says(name: str) -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    unit = UNITS[name]
    for value in (0.0, 1.0, 37.5):
        theirs = registry.Quantity(value, _PINT_NAMES.get(name, name)).to(_BASES[unit.dimension]).magnitude
        assert value * unit.factor + unit.offset == pytest.approx(theirs, rel=1e-12, abs=1e-12)


def test_a_unit_outside_the_table_is_asked_of_pint() -> None:
    fathom = ask_pint("fathom")
    assert fathom is not None
    assert (fathom.dimension, fathom.factor) == ("length", pytest.approx(1.8288, rel=1e-5))  # the survey fathom is 2 ppm longer
    assert ask_pint("nonsense") is None


def test_foreign_spellings_are_understood_for_the_mend() -> None:
    assert [meant(word) for word in ("metres", "Feet", "ohms", "amps", "secs")] == ["m", "ft", "ohm", "A", "s"]


def test_every_dimension_has_words_for_people() -> None:
    assert {unit.dimension for unit in UNITS.values()} <= set(SPOKEN)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Q1..Q3", ["Q1", "Q2", "Q3"]),
        ("Q3..Q1", ["Q3", "Q2", "Q1"]),
        ("Q08..Q11", ["Q08", "Q09", "Q10", "Q11"]),
        ("A..D", ["A", "B", "C", "D"]),
        ("Curtain.1..3", ["Curtain.1", "Curtain.2", "Curtain.3"]),
        ("Q1..3", ["Q1", "Q2", "Q3"]),
        ("Q5..Q5", ["Q5"]),
        ("Q0..Q10", [f"Q{n}" for n in range(11)]),
        ("Q1..R3", None),
        ("a..D", None),
        ("Q1..Q99999999", None),
    ],
)
def test_a_range_is_the_names_a_person_means(text: str, names: list[str] | None) -> None:
    assert open_range(text) == names


def test_a_range_with_a_step_takes_every_third() -> None:
    assert open_range("C.1..10", 3) == ["C.1", "C.4", "C.7", "C.10"]


@given(st.integers(0, 500), st.integers(0, 500))
def test_a_range_read_backwards_is_the_range_reversed(low: int, high: int) -> None:
    there, back = open_range(f"Q{low}..Q{high}"), open_range(f"Q{high}..Q{low}")
    assert there is not None
    assert there == list(reversed(back or []))


@pytest.mark.parametrize(("one", "other"), [("Q1", "QI"), ("Q10", "Q1O"), ("Pack-1", "Pack-l"), ("A", "А"), ("Q1", "Q01")])
def test_names_that_look_alike_have_one_skeleton(one: str, other: str) -> None:
    assert skeleton(one) == skeleton(other)


@pytest.mark.parametrize(("one", "other"), [("Q1", "Q2"), ("Q1", "Q11"), ("shell-75", "shell-100"), ("zip-14", "zip-16")])
def test_names_that_differ_to_the_eye_have_two(one: str, other: str) -> None:
    assert skeleton(one) != skeleton(other)


def test_natural_order_puts_two_before_ten() -> None:
    assert sorted(["A.10", "A.2", "A.1"], key=natural) == ["A.1", "A.2", "A.10"]


def test_the_nearest_word_is_offered_and_a_change_of_case_comes_first() -> None:
    assert closest("serve", ["spare", "serves"]) == ["serves"]
    assert closest("Q1", ["q1", "Q2"]) == ["q1"]
    assert closest("xyzzy", ["serves"]) == []
