"""The vocabulary: every kind of statement, its slots and clauses, with dimension, default and help.

The tables drive decoding, messages and the reference. A new property is one line in one of them.
"""

from __future__ import annotations

from compiler.vocabulary.forms import Form, Slot
from compiler.vocabulary.kinds_cues import CUE, CUE_KINDS, LINE, LINE_KIND, WITH
from compiler.vocabulary.kinds_parts import PART_KINDS
from compiler.vocabulary.kinds_site import GROUP, SHOW_KINDS, SITE_KINDS
from compiler.vocabulary.pieces import NEW, NEW_ONE, Kind

_CHANGE = Kind(
    "change", Form((Slot("kind", NEW_ONE, True), Slot("names", NEW, True)), (), statements=True),
    "Changes some clauses of a thing that another file declares.", "change rail A { spare 4 }",
)  # fmt: skip

KINDS: dict[str, Kind] = {kind.word: kind for kind in (*SHOW_KINDS, *SITE_KINDS, *CUE_KINDS, *PART_KINDS, _CHANGE)}
"""Every kind of top-level statement by its word."""

MACROS = ("let", "pattern", "play", "table")
"""Heads of statements that make other statements (`compiler.expand.macros`)."""

__all__ = ["CUE", "GROUP", "KINDS", "LINE", "LINE_KIND", "MACROS", "WITH", "Kind"]
