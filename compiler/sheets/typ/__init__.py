"""The press: one template and its data in, the bytes of one PDF out."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, Final

from compiler.sheets import fonts

FOLDER = Path(__file__).parent
STANDARD: Final = "ua-1"  # PDF/UA-1 (ISO 14289-1): tagged, titled, every drawing with words beside it

LONGEST_WORD = 12  # characters that surely fit a column in one line
LARGE_WORD = 9  # the same for a label, which is set larger
LONGEST = {"title": 80, "name": 60, "label": 100, "place": 200, "zero": 40}  # characters
LONGEST_TEXT = 800  # of any other text; a row with much of it may be split (see `print`)
_QUANTITY = re.compile(r"(\d) (?=(?:mm|m|ohm|A|mA|s|ms)\b)")  # a figure and its unit stay together
_MAY_BREAK = "\u200b"
_UNKNOWN = "\ufffd"


def press(template: str, data: Mapping[str, object], drawings: Mapping[str, int] | None = None) -> bytes:
    """Typeset `template` (a file name in this folder) with `data`, which it reads as a JSON file.

    `drawings` maps SVG text to the number by which the data speak of it. The data never becomes markup. System fonts and the clock are left out, so the same
    data give the same bytes. Every document gets a compiler of its own: a shared one keeps
    all pages it ever made in memory.
    """
    import typst  # late: a check prints nothing

    files = {
        "main": _source(template),
        "common.typ": _source("common.typ"),
        "data.json": json.dumps(settable(data), ensure_ascii=False, sort_keys=True).encode("utf-8"),
        **{f"drawing-{n}.svg": svg.encode("utf-8") for svg, n in (drawings or {}).items()},
    }
    make: Any = typst.Compiler  # the package's own type stubs lack the form with several files
    compiler = make(files, root=FOLDER, font_paths=[fonts.FOLDER], ignore_system_fonts=True)
    return bytes(compiler.compile(format="pdf", pdf_standards=[STANDARD]))


@cache
def _source(name: str) -> bytes:
    return (FOLDER / name).read_bytes()


def settable(value: object, key: str = "") -> object:
    """`value` with every text in it made fit for paper: see `settable_text`. Keys stay."""
    if isinstance(value, str):
        word = LARGE_WORD if key == "label" else LONGEST_WORD
        return settable_text(value, LONGEST.get(key, LONGEST_TEXT), word)
    if isinstance(value, Mapping):
        return {name: settable(item, name) for name, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [settable(item, key) for item in value]
    return value


@cache
def settable_text(text: str, longest: int = LONGEST_TEXT, word: int = LONGEST_WORD) -> str:
    """A text that can be set: nothing unseen, nothing undrawable, nothing without end.

    White space becomes a space; what no face can draw becomes a replacement character that
    is seen to be one; a text longer than `longest` characters is cut and says so; words longer
    than `word` get places to break.
    """
    plain = drawable(" ".join(text.split()))
    if len(plain) > longest:
        plain = f"{plain[:longest]}… [cut here: {len(plain) - longest} more characters]"
    return _QUANTITY.sub("\\1\u00a0", " ".join(_breakable(part, word) for part in plain.split(" ")))


def drawable(text: str) -> str:
    """The text with a replacement character for each that can't be drawn."""
    for character in fonts.undrawable(text):
        text = text.replace(character, _UNKNOWN)
    return text


def _breakable(word: str, longest: int) -> str:
    """A long word with places to break: after its own joints, and inside what has none."""
    if len(word) <= longest:
        return word
    broken: list[str] = []
    since = 0
    for character in word:
        since += 1
        broken.append(character)
        if character in "-._/" or since >= longest:
            broken.append(_MAY_BREAK)
            since = 0
    return "".join(broken)
