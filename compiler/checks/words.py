"""Numbers, times and lists as people say them in findings.

Display only: nothing here goes back into a comparison. Quantities come in SI.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

FIELD = (
    "Where it is wired already: everyone clear of the pieces, rail off and unplugged from its "
    "supply, lead shunted, before a hand goes to it."
)
"""Said wherever a mend means touching something in the field."""

_SMALL = {"A": (0.1, "mA", 1e-3), "s": (1.0, "ms", 1e-3), "A2s": (1e9, "A2ms", 1e-3)}
_DIGITS = re.compile(r"(\d+)")


def figure(value: float, digits: int = 3) -> str:
    """`value` to so many significant digits, without exponent or trailing zeros."""
    text = f"{float(f'{value:.{digits}g}'):.12f}".rstrip("0").rstrip(".")
    return "0" if text in {"", "-0"} else text


def _scale(unit: str, reference: float) -> tuple[str, float]:
    """The unit to show and its size in SI, chosen by a value of the usual size."""
    below, small, size = _SMALL.get(unit, (0.0, unit, 1.0))
    return (small, size) if abs(reference) < below else (unit, 1.0)


def quantity(value: float, unit: str, digits: int = 3) -> str:
    """``0.025, "A"`` as ``25 mA``. Units: A, ohm, s, m, V, A2s."""
    name, size = _scale(unit, value)
    return f"{figure(value / size, digits)} {name}"


def against(value: float, limit: float, unit: str) -> tuple[str, str]:
    """A value and the limit it is held against, in one unit, with digits enough to differ."""
    name, size = _scale(unit, limit)
    for digits in range(3, 13):
        shown = figure(value / size, digits), figure(limit / size, digits)
        if shown[0] != shown[1] or value == limit:
            break
    return f"{shown[0]} {name}", f"{shown[1]} {name}"


def clock(seconds: float) -> str:
    """Show time as the language writes it: ``3:05.0``, ``1:02:03.25``, ``-0:10.0``."""
    total_us = round(abs(seconds) * 1_000_000)
    whole_s, part_us = divmod(total_us, 1_000_000)
    minutes, rest_s = divmod(whole_s, 60)
    hours, minutes_left = divmod(minutes, 60)
    part = f"{part_us:06d}".rstrip("0") or "0"
    sign = "-" if seconds < 0 and total_us else ""
    head = f"{hours}:{minutes_left:02d}" if hours else f"{minutes_left}"
    return f"{sign}{head}:{rest_s:02d}.{part}"


def clock_us(microseconds: int) -> str:
    """Show time from whole microseconds."""
    return clock(microseconds / 1_000_000)


def moment(seconds: float, press: str | None) -> str:
    """``at 0:10.0``; what counts from a press is ``0.5 s after the press of cue 7``."""
    if press is None:
        return f"at {clock(seconds)}"
    return f"{figure(abs(seconds), 9)} s {'before' if seconds < 0 else 'after'} the press of cue {press}"


def names(items: Sequence[str], most: int = 6) -> str:
    """``A, B and C``; a long list ends in ``and 4 more``."""
    if len(items) > most:
        return f"{', '.join(items[: most - 1])} and {len(items) - most + 1} more"
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} and {items[-1]}"


def many(count: int, noun: str) -> str:
    """``1 circuit``, ``3 circuits``, ``2 matches``."""
    ending = "es" if noun.endswith(("ch", "s")) else "s"
    return f"{count} {noun}{ending if count != 1 else ''}"


def use_it(count: int, noun: str) -> str:
    """``1 circuit uses it``, ``3 circuits use it``."""
    return f"{many(count, noun)} {'uses' if count == 1 else 'use'} it"


def others(count: int, noun: str) -> str:
    """`` 3 other matches fall short too.`` after the worst of several; empty for none."""
    return f" {many(count, f'other {noun}')} {'falls' if count == 1 else 'fall'} short too." if count else ""


def match_in(match: str, circuit: str) -> str:
    """``D1 in Long``; a match that has its circuit to itself is named once."""
    return match if match == circuit else f"{match} in {circuit}"


def natural(name: str) -> tuple[object, ...]:
    """Sort key in natural name order: ``Q2`` before ``Q10``."""
    return tuple((0, int(part), "") if part.isdigit() else (1, 0, part) for part in _DIGITS.split(name) if part)


def in_order(items: Iterable[str]) -> list[str]:
    """Names in natural order."""
    return sorted(items, key=natural)
