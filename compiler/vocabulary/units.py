"""The units a show may use, and what they are in SI.

`UNITS` is a plain table so that no run waits for pint; a test proves every row against pint,
which is the authority and is asked (late) about any unit that is not in the table.
"""

from __future__ import annotations

from functools import cache
from typing import Any, NamedTuple


class Unit(NamedTuple):
    """One unit: `value_si = value * factor + offset`."""

    dimension: str
    factor: float
    offset: float = 0.0


FOOT = 0.3048
UNITS: dict[str, Unit] = {
    "m": Unit("length", 1.0),
    "ft": Unit("length", FOOT),
    "in": Unit("length", 0.0254),
    "mm": Unit("length", 1e-3),
    "cm": Unit("length", 1e-2),
    "km": Unit("length", 1e3),
    "yd": Unit("length", 0.9144),
    "s": Unit("time", 1.0),
    "ms": Unit("time", 1e-3),
    "min": Unit("time", 60.0),
    "h": Unit("time", 3600.0),
    "V": Unit("voltage", 1.0),
    "mV": Unit("voltage", 1e-3),
    "kV": Unit("voltage", 1e3),
    "A": Unit("current", 1.0),
    "mA": Unit("current", 1e-3),
    "ohm": Unit("resistance", 1.0),
    "mohm": Unit("resistance", 1e-3),
    "kohm": Unit("resistance", 1e3),
    "Mohm": Unit("resistance", 1e6),
    "Ω": Unit("resistance", 1.0),
    "\u2126": Unit("resistance", 1.0),
    "degC": Unit("temperature", 1.0),
    "°C": Unit("temperature", 1.0),
    "°F": Unit("temperature", 5 / 9, -160 / 9),
    "°": Unit("angle", 1.0),
    "degF": Unit("temperature", 5 / 9, -160 / 9),
    "K": Unit("temperature difference", 1.0),
    "deg": Unit("angle", 1.0),
    "mm2": Unit("area", 1e-6),
    "mm²": Unit("area", 1e-6),
    "awg": Unit("gauge", 1.0),
    "%": Unit("ratio", 1e-2),
    "A2s": Unit("impulse", 1.0),
    "A2ms": Unit("impulse", 1e-3),
    "mJ/ohm": Unit("impulse", 1e-3),
    "ohm/m": Unit("resistance per length", 1.0),
    "ohm/km": Unit("resistance per length", 1e-3),
    "ohm/ft": Unit("resistance per length", 1 / FOOT),
    "1/K": Unit("per temperature", 1.0),
    "m/s": Unit("speed", 1.0),
    "km/h": Unit("speed", 1 / 3.6),
    "mph": Unit("speed", 0.44704),
    "kn": Unit("speed", 1852 / 3600),
}
"""Temperatures come out in degC, angles in degrees, gauges as their number."""

SPOKEN = {
    "length": ("a length", "48 m"),
    "time": ("a time", "150 ms"),
    "voltage": ("a voltage", "24 V"),
    "current": ("a current", "0.6 A"),
    "resistance": ("a resistance", "1.6 ohm"),
    "temperature": ("a temperature", "20 degC"),
    "temperature difference": ("a temperature difference", "25 K"),
    "angle": ("an angle", "15 deg"),
    "area": ("an area", "0.75 mm2"),
    "gauge": ("a wire gauge", "18 awg"),
    "ratio": ("a share", "10 %"),
    "impulse": ("a firing impulse", "3.0 A2ms"),
    "resistance per length": ("a resistance per length", "26 ohm per km"),
    "per temperature": ("a temperature coefficient", "0.00393 per K"),
    "speed": ("a speed", "20 mph"),
    "count": ("a whole number", "30"),
}
"""Dimension to what a person calls it and an example that reads right."""

_LONG = {
    "metre": "m", "metres": "m", "meter": "m", "meters": "m", "foot": "ft", "feet": "ft",
    "inch": "in", "inches": "in", "yard": "yd", "yards": "yd", "second": "s", "seconds": "s",
    "sec": "s", "secs": "s", "minute": "min", "minutes": "min", "hour": "h", "hours": "h",
    "volt": "V", "volts": "V", "v": "V", "amp": "A", "amps": "A", "ampere": "A", "amperes": "A",
    "a": "A", "ma": "mA", "ohms": "ohm", "Ohm": "ohm", "Ohms": "ohm", "OHM": "ohm", "milliohm": "mohm",
    "degrees": "deg", "degree": "deg", "C": "degC", "F": "degF", "celsius": "degC", "AWG": "awg",
    "M": "m", "Ms": "ms", "MS": "ms", "S": "s", "sqmm": "mm2", "mm^2": "mm2", "percent": "%", "msec": "ms",
}  # fmt: skip
"""What people write for a unit, to what is meant: for the mend, never taken silently."""


def units_of(dimension: str) -> tuple[str, ...]:
    """The units of a dimension, in the table's order."""
    return tuple(name for name, unit in UNITS.items() if unit.dimension == dimension)


def meant(word: str) -> str:
    """The unit that a foreign spelling most likely means, or an empty string."""
    return _LONG.get(word) or _LONG.get(word.lower(), "")


@cache
def _registry() -> Any:
    """Pint's registry, made once: it takes half a second."""
    import pint

    return pint.UnitRegistry()


@cache
def ask_pint(word: str) -> Unit | None:
    """A unit outside the table, by pint; None where pint does not know it or its dimension."""
    if not word.isalpha() or len(word) > 30:
        return None
    import pint

    registry = _registry()
    try:
        if not any(prefix in _PREFIXES for prefix, _, _ in registry.parse_unit_name(word)):
            return None
        quantity = registry.Quantity(1.0, word).to_base_units()
    except (
        pint.UndefinedUnitError,
        pint.OffsetUnitCalculusError,
        ValueError,
        AttributeError,
        TypeError,
        AssertionError,
    ):
        return None
    for dimension, base in _BASES.items():
        if quantity.is_compatible_with(base):
            return Unit(dimension, float(registry.Quantity(1.0, word).to(base).magnitude))
    return None


_PREFIXES = ("", "micro", "milli", "centi", "kilo", "mega")
_BASES = {
    "length": "m",
    "time": "s",
    "voltage": "V",
    "current": "A",
    "resistance": "ohm",
    "area": "m**2",
    "speed": "m/s",
}
