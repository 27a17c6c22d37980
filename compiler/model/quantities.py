"""Intervals of SI values: what a part states (low, nominal, high) and what comes out."""

from __future__ import annotations

from typing import NamedTuple


class Given(NamedTuple):
    """A given with its tolerance, in SI. `low <= nominal <= high`."""

    low: float
    nominal: float
    high: float

    @classmethod
    def exact(cls, value: float) -> Given:
        """A given without tolerance."""
        return cls(value, value, value)

    def plus(self, other: Given) -> Given:
        """Interval sum; bounds are exact for independent givens."""
        return Given(self.low + other.low, self.nominal + other.nominal, self.high + other.high)

    def times(self, factor: float) -> Given:
        """Scaled by a factor that is not negative."""
        return Given(self.low * factor, self.nominal * factor, self.high * factor)


class Range(NamedTuple):
    """A result over all corners, in SI. `least <= nominal <= greatest` where all are known."""

    least: float
    nominal: float
    greatest: float


ZERO = Given(0.0, 0.0, 0.0)
