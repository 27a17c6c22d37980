"""All planters: every rule that the text of a show can break, several ways for most."""

from __future__ import annotations

from . import data, loads, names, safety, text, values, wiring
from .planter import Planter

PLANTERS: tuple[Planter, ...] = (
    *text.PLANTERS, *names.PLANTERS, *values.PLANTERS, *data.PLANTERS, *wiring.PLANTERS, *loads.PLANTERS,
    *safety.PLANTERS,
)  # fmt: skip

NOT_PLANTED = {
    "bad-file": "says that the main file itself cannot be read; no text of a show does that (tests/fuzz does it)",
}
"""Rules that no text of a show can break, and why."""
