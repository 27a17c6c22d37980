"""Numbers at the plan's edge: rounded once, to 12 significant digits, and never infinite."""

from __future__ import annotations

from functools import lru_cache
from math import isfinite

from compiler.model.quantities import Given, Range


@lru_cache(maxsize=65536)
def _rounded(value: float) -> float:
    return float(f"{value:.12g}") + 0.0  # adding zero turns -0.0 into 0.0


def number(value: float | None) -> float | None:
    """`value` to 12 significant digits; not finite is not a number a plan may state: null."""
    if value is None or not isfinite(value):
        return None
    return _rounded(value)


def given(value: Given | None) -> dict[str, float | None] | None:
    """A given as `{low, nominal, high}`, or null where nothing is stated."""
    if value is None:
        return None
    return {
        "low": number(value.low),
        "nominal": number(value.nominal),
        "high": number(value.high),
    }


def result(value: Range | None) -> dict[str, float | None] | None:
    """A result as `{least, nominal, greatest}`, or null where nothing was computed."""
    if value is None:
        return None
    return {
        "least": number(value.least),
        "nominal": number(value.nominal),
        "greatest": number(value.greatest),
    }


def plain(value: object) -> object:
    """Any plain value with every float rounded; what is no JSON value becomes its text."""
    if value is None or isinstance(value, (bool, int, str)):
        return value
    if isinstance(value, float):
        return number(value)
    if isinstance(value, dict):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(item) for item in value]
    return str(value)


def seconds(microseconds: int) -> float | None:
    """Whole microseconds as seconds."""
    return number(microseconds / 1e6)
