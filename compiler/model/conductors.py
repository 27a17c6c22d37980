"""Resistance of conductors from gauge or area, with the allowances of the rule set in force.

All values are for ONE conductor at 20 degC, in ohm per metre.

Sources: ASTM B258 (gauge to diameter), IEC 60028 (resistivity and temperature coefficient of
annealed copper), IEC 60228 tables 1 to 3 (greatest resistance by class). Copper-clad steel: its
rows in ASTM B227, B869 and B910 are 2 % above copper divided by the stated conductivity.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from compiler.model.quantities import Given

if TYPE_CHECKING:
    from collections.abc import Mapping

    from compiler.model.types import Limit

COPPER_OHM_MM2_PER_M = 0.017241
"""Standard annealed copper at 20 degC, 100 % IACS (IEC 60028)."""

COPPER_ALPHA_PER_K = 0.00393
"""Temperature coefficient of annealed copper at 20 degC (IEC 60028)."""

CLAD_STEEL_RATIO = 1.02
"""How far the rows of ASTM B227, B869 and B910 lie above copper / conductivity."""

CLAD_ALUMINIUM_BEST = 0.68
"""Best conductivity told of copper-clad aluminium, 62 to 68 % IACS (a secondary page on IEC 60028)."""

# Greatest ohm per km at 20 degC, plain copper. Up to 6 mm2 checked against published copies of
# the tables where the tests say so; 0.75 and 1 mm2 of class 2, 0.5, 1.5 and 6 mm2 of class 1 and
# everything above 6 mm2 from memory. Tinned strands may lie up to 3 % higher.
_SOLID = {
    0.5: 36.0,
    0.75: 24.5,
    1.0: 18.1,
    1.5: 12.1,
    2.5: 7.41,
    4.0: 4.61,
    6.0: 3.08,
    10.0: 1.83,
    16.0: 1.15,
}
_IEC_60228_OHM_PER_KM = {
    1: _SOLID,
    2: {**_SOLID, 25.0: 0.727, 35.0: 0.524},
    5: {
        0.5: 39.0,
        0.75: 26.0,
        1.0: 19.5,
        1.5: 13.3,
        2.5: 7.98,
        4.0: 4.95,
        6.0: 3.30,
        10.0: 1.91,
        16.0: 1.21,
        25.0: 0.780,
        35.0: 0.554,
    },
}


def awg_area_mm2(gauge: float) -> float:
    """Metal area in mm2 of a solid wire of that gauge (ASTM B258: 0.005 in × 92^((36 - n)/39)).

    0 is 1/0, -1 is 2/0 and so on.
    """
    diameter_mm: float = 0.005 * 25.4 * 92.0 ** ((36.0 - gauge) / 39.0)
    return 0.7853981633974483 * diameter_mm * diameter_mm


def area_ohm_per_m(area_mm2: float) -> float:
    """Ohm per metre of solid annealed copper of that area (IEC 60028)."""
    return COPPER_OHM_MM2_PER_M / area_mm2


def gauge_ohm_per_m(gauge: float) -> float:
    """Ohm per metre of solid annealed copper of that gauge (ASTM B258, IEC 60028)."""
    return area_ohm_per_m(awg_area_mm2(gauge))


def iec60228_classes() -> tuple[int, ...]:
    """The classes of IEC 60228 that are known here."""
    return tuple(_IEC_60228_OHM_PER_KM)


def iec60228_areas(klass: int) -> tuple[float, ...]:
    """The areas in mm2 known for a class, smallest first; empty for an unknown class."""
    return tuple(sorted(_IEC_60228_OHM_PER_KM.get(klass, ())))


def iec60228_ohm_per_m(area_mm2: float, klass: int) -> float | None:
    """Greatest ohm per metre of a class and area (IEC 60228); None where there is no such row."""
    per_km = _IEC_60228_OHM_PER_KM.get(klass, {}).get(area_mm2)
    return None if per_km is None else per_km / 1000.0


def iec60228_given(area_mm2: float, klass: int, *, limits: Mapping[str, Limit]) -> Given | None:
    """A classed conductor: nominal and high are the table's maximum, low is solid copper.

    None where the table has no such row.
    """
    most = iec60228_ohm_per_m(area_mm2, klass)
    if most is None:
        return None
    low = area_ohm_per_m(area_mm2) * (1.0 - limits["copper-low"].value)
    return Given(min(low, most), most, most)


def conductor_given(
    nominal_ohm_per_m: float,
    *,
    stranded: bool,
    metal: str,
    conductivity: float | None,
    limits: Mapping[str, Limit],
) -> Given:
    """The interval of a conductor's ohm per metre.

    `nominal_ohm_per_m` is that of solid copper of the same size where `conductivity` (a share of
    IACS) is given for a clad metal; without a conductivity it is taken as stated for the metal.

    High: `copper-high` and, where stranded, `stranding-high` on top, for every metal: the rows of
    copper-clad steel are maxima in one standard and plain values in the others, so none counts as
    a maximum. Low: `copper-low` below, for clad metals from the best the metal can be, because a
    wire that carries more than its table says overloads a driver.
    """
    high = (1.0 + limits["copper-high"].value) * (1.0 + limits["stranding-high"].value if stranded else 1.0)
    low = 1.0 - limits["copper-low"].value
    nominal = best = nominal_ohm_per_m
    if metal == "copper-clad-steel":
        nominal = nominal if conductivity is None else nominal / conductivity * CLAD_STEEL_RATIO
        best = nominal / CLAD_STEEL_RATIO
    elif metal == "copper-clad-aluminium" and conductivity is not None:
        nominal = nominal_ohm_per_m / conductivity
        best = nominal_ohm_per_m / max(conductivity, CLAD_ALUMINIUM_BEST)
    return Given(best * low, nominal, nominal * high)
