"""Copper over the ambient range: `R = R20 (1 + alpha (T - 20 degC))` (IEC 60028).

The hot end has the sun's heating of dark cable on top. 20 degC always belongs to the range, so
that `low <= nominal <= high` also holds where a show is fired in summer or winter only.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from compiler.model.types import Model

REFERENCE_C = 20.0
"""The temperature at which tables of conductors are stated."""


def span_c(model: Model) -> tuple[float, float]:
    """Coldest and hottest cable in degC, 20 degC included."""
    low, high = model.show.ambient_c
    return min(low, REFERENCE_C), max(high + model.rules.limits["sun-heating"].value, REFERENCE_C)


def factors(model: Model, alpha_per_k: float) -> tuple[float, float]:
    """By what a resistance at 20 degC is multiplied when coldest and when hottest."""
    cold, hot = span_c(model)
    return 1.0 + alpha_per_k * (cold - REFERENCE_C), 1.0 + alpha_per_k * (hot - REFERENCE_C)


def reading_temperatures_c(model: Model) -> tuple[float, ...]:
    """The cable temperatures for which a reading is predicted, rising, each once."""
    low, high = model.show.ambient_c
    hot = high + model.rules.limits["sun-heating"].value
    return tuple(sorted({low, REFERENCE_C, high, hot}))
