"""What a planter is: a function that spoils a plot and says what must be found."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from .draft import Expected, Plot

BLINDED = frozenset(("match-unwired", "never-fired", "cue-unwired", "no-free-channel"))
"""Rules that hold their tongue while a file of the show could not be read: what it declares is unknown."""


class Planter(NamedTuple):
    """One kind of mistake. `once`: a word for what only one planter may touch in a show."""

    rule: str
    plant: Callable[[Plot], list[Expected]]
    once: str = ""

    @property
    def name(self) -> str:
        """The rule and the function that breaks it."""
        return f"{self.rule}: {self.plant.__name__.replace('_', ' ')}"

    def clashes(self, other: Planter) -> bool:
        """True if the two cannot stand in one show without hiding each other."""
        if self.once and self.once == other.once:
            return True
        return (self.once == "unread" and other.rule in BLINDED) or (other.once == "unread" and self.rule in BLINDED)
