"""Copies of frozen values with some fields changed.

Most values of the model are named tuples: a show makes some thirty for each cue, and a named tuple is
made in a third of the time of a frozen dataclass, and its class in a fifth. The few that hold tables,
or a field called `count`, are dataclasses.
"""

from __future__ import annotations

import dataclasses
from typing import Any, TypeVar

T = TypeVar("T")


def replace(value: T, /, **changes: Any) -> T:
    """A copy with the named fields changed. Raises `TypeError` or `ValueError` for a field that is none."""
    if isinstance(value, tuple):
        copy: T = value._replace(**changes)  # type: ignore[attr-defined]  # a named tuple
        return copy
    return dataclasses.replace(value, **changes)  # type: ignore[type-var]  # else a dataclass
