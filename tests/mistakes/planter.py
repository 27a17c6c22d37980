"""What a planter is: a function that spoils a plot and says what must be found."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from .draft import Expected, Plot

ALONE = "alone"
"""Of what is asked of every rail once one of them states it, as zones are: rails of other plots would be told too."""
UNWIRED = frozenset(("match-unwired", "never-fired", "cue-unwired", "no-free-channel"))
BLINDS = {
    "use-missing": UNWIRED | {"unknown-name"},
    "use-outside": UNWIRED | {"unknown-name"},
    "nested-too-deep": UNWIRED,
}
"""The documented exceptions: rules that hold their tongue beside another mistake, because a part of the show is not known
then: a file that was not read may declare or wire anything, and so may blocks that were left out. The show stays in
error, and the finding comes as soon as the other mistake is mended. Such pairs are not planted together."""


class Planter(NamedTuple):
    """One kind of mistake. `once`: a word for what only one planter may touch in a show; `ALONE`: nothing else goes with it."""

    rule: str
    plant: Callable[[Plot], list[Expected]]
    once: str = ""

    @property
    def name(self) -> str:
        """The rule and the function that breaks it."""
        return f"{self.rule}: {self.plant.__name__.replace('_', ' ')}"

    def clashes(self, other: Planter) -> bool:
        """True if the two cannot stand in one show without hiding each other."""
        if ALONE in (self.once, other.once) or (self.once and self.once == other.once):
            return True
        return other.rule in BLINDS.get(self.rule, ()) or self.rule in BLINDS.get(other.rule, ())
