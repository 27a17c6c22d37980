"""Natural name order: `A.2` before `A.10`, whatever the order in the source."""

from __future__ import annotations

from collections.abc import Iterable

from compiler.vocabulary.names import natural as natural_key

__all__ = ["natural", "natural_key"]


def natural(names: Iterable[str]) -> list[str]:
    """The names in natural order, each once."""
    return sorted(set(names), key=natural_key)
