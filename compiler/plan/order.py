"""Natural name order: `A.2` before `A.10`, whatever the order in the source."""

from __future__ import annotations

import re
from collections.abc import Iterable

_DIGITS = re.compile(r"([0-9]+)")

NaturalKey = tuple[tuple[str | tuple[int, str], ...], str]


def natural_key(name: str) -> NaturalKey:
    """A sort key that compares runs of digits as whole numbers; ties fall to the name itself.

    Digits are compared as (length, text), so that a run of any length is safe.
    """
    pieces = _DIGITS.split(name.casefold())
    parts = tuple(_number(piece) if index % 2 else piece for index, piece in enumerate(pieces))
    return parts, name


def natural(names: Iterable[str]) -> list[str]:
    """The names in natural order, each once."""
    return sorted(set(names), key=natural_key)


def _number(digits: str) -> tuple[int, str]:
    significant = digits.lstrip("0")
    return len(significant), significant
