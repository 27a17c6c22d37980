"""What the kinds are built from: the shapes that come back, and the kind itself."""

from __future__ import annotations

from typing import NamedTuple

from compiler.vocabulary.forms import Clause, Form, Slot
from compiler.vocabulary.quantities import Number, Quantity
from compiler.vocabulary.shapes import Names, Text


class Kind(NamedTuple):
    """One kind of statement. `part`: a catalogue may hold it. `example` reads right as it is."""

    word: str
    form: Form
    help: str
    example: str
    part: bool = False


NEW = Names((), many=True)
NEW_ONE = Names((), many=False)
LENGTH = Quantity("length", least=0.0, most=20_000.0)
OHM = Quantity("resistance", spread=True, least=0.0, most=1e6)
AMPERE = Quantity("current", least=0.0, most=10_000.0)
SECONDS = Quantity("time", least=0.0, most=86_400.0)
SPREAD_S = Quantity("time", spread=True, least=0.0, most=3_600.0)
REASON = (
    Clause("because", Text(), "why"),
    Clause("by", Text(), "who answers for it"),
)
SOURCE = (
    Clause("source", Text(), "where the values come from"),
    Clause("confidence", Text(), "how far that was seen: confirmed, common practice, from memory"),
)
CABLE = Clause("of", Names(("cable",), many=False), "the cable", key="cable")


def one(*kinds: str) -> Names:
    """One name of these kinds."""
    return Names(kinds, many=False)


def run(*more: Clause, required: bool = False, step: bool = False) -> Form:
    """A length of cable: `52 m of zip-14`. `step`: the cable may be a list in step with the names."""
    cable = Clause("of", Names(("cable",), many=step), "the cable", key="cable")
    return Form((Slot("length", LENGTH, required),), (cable, *more), spoken="a length of cable, as in `52 m of zip-14`")


LEAD = Clause(
    "lead", run(Clause("to", one("match"), "where the lead joins the line")), "cable from the rail to the line"
)
PLUS = Clause("plus", Number(), "share of it", key="share")
