"""What of a plan no face can draw: for whoever makes the sheets and must say so.

Light to import: neither the typesetter nor the page is needed, and the fonts are read only where a text
is not plain ASCII. Rule `glyph-missing` says the same of the show's text, with its place.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from compiler.sheets.fonts import undrawable

_UNKNOWN = "\N{REPLACEMENT CHARACTER}"


def missing_glyphs(plan: Mapping[str, Any]) -> list[str]:
    """What of the plan's texts can't be printed: ``title 'Pier \ufffd' lacks U+6F22``; sorted.

    On paper such a character becomes a replacement mark, here too; the plan keeps it.
    Findings are left out: no printed sheet carries their words.
    """
    printed = {key: value for key, value in plan.items() if key != "findings"}
    return sorted(set(_lacking(printed, "plan")))


def _lacking(value: object, key: str) -> Iterator[str]:
    if isinstance(value, str):
        for character in undrawable(value):
            yield f"{key} '{_shown(value)}' lacks U+{ord(character):04X}"
    elif isinstance(value, Mapping):
        for name, item in value.items():
            yield from _lacking(item, str(name))
    elif isinstance(value, (list, tuple)):
        for item in value:
            yield from _lacking(item, key)


def _shown(text: str) -> str:
    """The text as it is printed: a replacement mark for what can't be drawn."""
    lacking = undrawable(text)
    return "".join(_UNKNOWN if character in lacking else character for character in text)
