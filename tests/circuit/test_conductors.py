"""Conductors against published tables; every row of the data names its source and confidence."""

from __future__ import annotations

import csv
from math import pi
from pathlib import Path

import pytest
from making import rules

from compiler.model.conductors import (
    area_ohm_per_m,
    awg_area_mm2,
    conductor_given,
    gauge_ohm_per_m,
    iec60228_areas,
    iec60228_classes,
    iec60228_given,
    iec60228_ohm_per_m,
)

TEXT = (Path(__file__).parent / "data" / "conductors.csv").read_text(encoding="utf-8")
ROWS = list(csv.DictReader(TEXT.splitlines()))
WITHIN = 1e-3
# The rows of ASTM B869 lie between 1.0191 and 1.0225 times copper / conductivity when taken from
# their own rounded diameters, so no one ratio meets all of them to 0.1 %.
WITHIN_B869 = 2.5e-3
LIMITS = rules().limits


def rows(prefix: str) -> list[object]:
    """The rows of a kind, titled by their size."""
    return [pytest.param(row, id=f"{row['kind']}-{row['size']}") for row in ROWS if row["kind"].startswith(prefix)]


def test_every_row_of_the_data_belongs_to_one_of_the_checks() -> None:
    """A row that no check reads would look like agreement."""
    prefixes = ("awg_solid_exact", "iec60228_class", "copper_clad_steel", "copper_clad_aluminium")
    assert all(row["kind"].startswith(prefixes) for row in ROWS)
    assert all(rows(prefix) for prefix in prefixes)
    assert all(row["source"] and row["confidence"] for row in ROWS)


@pytest.mark.parametrize("row", rows("awg_solid_exact"))
def test_a_gauge_of_solid_copper_has_its_published_resistance(row: dict[str, str]) -> None:
    """ASTM B258 diameters, IEC 60028 resistivity."""
    per_m = gauge_ohm_per_m(float(row["size"]))
    assert per_m == pytest.approx(float(row["ohm_per_km"]) / 1000.0, rel=WITHIN)
    assert per_m * 304.8 == pytest.approx(float(row["ohm_per_1000ft"]), rel=WITHIN)


@pytest.mark.parametrize("row", rows("iec60228_class"))
def test_a_class_of_iec_60228_has_its_greatest_resistance(row: dict[str, str]) -> None:
    """IEC 60228 tables 1 to 3, maximum at 20 degC."""
    area, klass = float(row["size"]), int(row["kind"][-1])
    most = float(row["ohm_per_km"]) / 1000.0
    assert iec60228_ohm_per_m(area, klass) == pytest.approx(most, rel=WITHIN)
    given = iec60228_given(area, klass, limits=LIMITS)
    assert given is not None
    assert given.nominal == given.high == pytest.approx(most, rel=WITHIN)
    assert given.low == pytest.approx(0.99 * 0.017241 / area, rel=1e-12)


@pytest.mark.parametrize("row", rows("copper_clad_steel"))
def test_copper_clad_steel_has_its_published_resistance(row: dict[str, str]) -> None:
    """ASTM B869, B227 and B910, from the diameter of the row."""
    inches, share = float(row["diameter_in"]), int(row["kind"].split("_")[3][:2]) / 100.0
    copper = area_ohm_per_m(pi / 4.0 * (inches * 25.4) ** 2)
    given = conductor_given(copper, stranded=False, metal="copper-clad-steel", conductivity=share, limits=LIMITS)
    published = float(row["ohm_per_km"]) / 1000.0
    within = WITHIN_B869 if "B869" in row["source"] else WITHIN
    assert given.nominal == pytest.approx(published, rel=within)
    assert given.low < published < given.high
    assert given.high == pytest.approx(given.nominal * 1.03)
    assert given.low == pytest.approx(copper / share * 0.99)


@pytest.mark.parametrize("row", rows("copper_clad_aluminium"))
def test_copper_clad_aluminium_has_its_computed_resistance(row: dict[str, str]) -> None:
    """61 % IACS is the safe side of 62 to 68 %; the low end takes the best of that range."""
    copper = gauge_ohm_per_m(float(row["size"]))
    given = conductor_given(copper, stranded=False, metal="copper-clad-aluminium", conductivity=0.61, limits=LIMITS)
    assert given.nominal == pytest.approx(float(row["ohm_per_km"]) / 1000.0, rel=WITHIN)
    assert given.low == pytest.approx(copper / 0.68 * 0.99)


def test_stranding_and_poor_copper_raise_only_the_high_end() -> None:
    """97 % IACS and 2 % for stranding above, 101 % IACS below (ASTM B8, from memory)."""
    solid = gauge_ohm_per_m(18)
    plain = conductor_given(solid, stranded=False, metal="copper", conductivity=None, limits=LIMITS)
    strands = conductor_given(solid, stranded=True, metal="copper", conductivity=None, limits=LIMITS)
    assert plain == pytest.approx((solid * 0.99, solid, solid * 1.03))
    assert strands == pytest.approx((solid * 0.99, solid, solid * 1.03 * 1.02))


def test_a_stated_resistance_of_clad_wire_is_not_divided_again() -> None:
    """Without a conductivity the value is the metal's own."""
    for metal in ("copper-clad-steel", "copper-clad-aluminium"):
        given = conductor_given(0.1, stranded=False, metal=metal, conductivity=None, limits=LIMITS)
        assert given.nominal == 0.1
        assert given.low <= 0.1 * 0.99


def test_every_class_and_gauge_keeps_low_below_nominal_below_high() -> None:
    """The order that everything after relies on."""
    for klass in iec60228_classes():
        for area in iec60228_areas(klass):
            given = iec60228_given(area, klass, limits=LIMITS)
            assert given is not None
            assert given.low <= given.nominal <= given.high
    assert awg_area_mm2(36) == pytest.approx(pi / 4.0 * 0.127**2)


def test_an_area_that_the_table_does_not_have_gives_no_value() -> None:
    """No value, no number."""
    assert iec60228_ohm_per_m(0.8, 5) is None
    assert iec60228_ohm_per_m(0.75, 6) is None
    assert iec60228_given(0.8, 5, limits=LIMITS) is None
    assert iec60228_areas(6) == ()
