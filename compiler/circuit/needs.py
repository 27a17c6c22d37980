"""What matches need and what a test may put through them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from compiler.model.quantities import Range

if TYPE_CHECKING:
    from collections.abc import Iterable

    from compiler.model.quantities import Given
    from compiler.model.types import Limit, Match, Model, Module


class Need(NamedTuple):
    """A match type in one use: firing current, where it comes from, impulse, function time."""

    required_a: float | None
    required_from: str
    required_a2s: float | None
    function_s: float


def need(kind: Match, use: str, limits: dict[str, Limit]) -> Need:
    """What a match of that type needs in its use: alone, series, parallel or mixed.

    In a mixed circuit both rules hold, so the greater current counts; it is None where either
    is missing.
    """
    alone, series, parallel = kind.fires_alone_a, kind.fires_series_a, kind.fires_parallel_a
    told = use
    if use == "mixed":
        told = "series and parallel"
        required = None if series is None or parallel is None else max(series, parallel)
    else:
        required = {"alone": alone, "series": series, "parallel": parallel}[use]
    function_s = kind.function_s
    if function_s is None:
        function_s = limits["function-time"].value
    impulse = kind.impulse_a2s
    return Need(required, told, None if impulse is None else impulse.high, function_s)


def impulse(current_a: Range, needed: Need, pulse_s: Given | None) -> Range | None:
    """The impulse in A2s that counts, or None where pulse or firing current is not known.

    It counts for as long as the pulse lasts, within the function time, and only while the
    current stays at or above the firing current: a current that is steady during the pulse
    counts whole or not at all.
    """
    least = needed.required_a
    if least is None or pulse_s is None:
        return None
    low, nominal, high = (
        i * i * min(pulse, needed.function_s) if i >= least else 0.0
        for i, pulse in zip(current_a, pulse_s, strict=True)
    )
    return Range(low, nominal, high)


def current_of_test(module: Module, emf_v: Given | None) -> float | None:
    """The greatest test current into a short at the channel, or None where nothing states it."""
    if module.test_current_a is not None:
        return module.test_current_a
    resistor = module.test_resistor_ohm
    if resistor is None or emf_v is None or resistor.low <= 0.0:
        return None
    return emf_v.high / resistor.low


def limit_of_test(kinds: Iterable[Match], limits: dict[str, Limit]) -> tuple[float | None, str]:
    """The most that a test may put through these matches and the id of the limit that governs.

    The lesser of `test-current` and the share `test-fraction` of the lowest no-fire current;
    None where a match states none.
    """
    lowest = None
    for kind in kinds:
        if kind.no_fire_a is None:
            return None, ""
        lowest = kind.no_fire_a if lowest is None else min(lowest, kind.no_fire_a)
    if lowest is None:
        return None, ""
    most, share = limits["test-current"].value, limits["test-fraction"].value * lowest
    return (share, "test-fraction") if share < most else (most, "test-current")


def battery_emf_v(model: Model, supply: str | None) -> Given | None:
    """The voltage range of a supply, or None where it is not stated."""
    found = model.supplies.get(supply or "")
    battery = None if found is None else model.batteries.get(found.battery)
    return None if battery is None else battery.emf_v
