"""The typefaces of the printed sheets, and which characters they hold.

DejaVu Sans Condensed, regular and bold (see ``LICENCE.txt``), travel with the
package so that a sheet looks the same on every machine. Names that must not be
misread are set in DejaVu Sans Mono, which the typesetter brings along; what that
face lacks falls back to these two.
"""

from __future__ import annotations

import struct
import unicodedata
from functools import cache
from pathlib import Path

FOLDER = Path(__file__).parent
FACES = ("DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf")


@cache
def coverage() -> frozenset[int]:
    """Code points that both faces can draw. A name may be set in either."""
    return frozenset.intersection(*(_covered((FOLDER / face).read_bytes()) for face in FACES))


def _covered(font: bytes) -> frozenset[int]:
    """Code points of one TrueType file: its Unicode ``cmap`` of format 12 (OpenType, ISO/IEC 14496-22)."""
    base = _table(font, b"cmap")
    (count,) = struct.unpack_from(">H", font, base + 2)
    for number in range(count):
        _, _, offset = struct.unpack_from(">HHL", font, base + 4 + 8 * number)
        if struct.unpack_from(">H", font, base + offset) == (12,):
            return frozenset(_groups(font, base + offset))
    raise ValueError("the font has no character map of format 12")


def _table(font: bytes, tag: bytes) -> int:
    """Where a table starts in the file."""
    (count,) = struct.unpack_from(">H", font, 4)
    for number in range(count):
        name, _, offset, _ = struct.unpack_from(">4sLLL", font, 12 + 16 * number)
        if name == tag:
            return int(offset)
    raise ValueError(f"the font has no table {tag.decode('ascii')}")


def _groups(font: bytes, start: int) -> list[int]:
    """All code points of a format 12 map."""
    (groups,) = struct.unpack_from(">L", font, start + 12)
    found: list[int] = []
    for number in range(groups):
        first, last, _ = struct.unpack_from(">LLL", font, start + 16 + 12 * number)
        found.extend(range(first, last + 1))
    return found


def undrawable(text: str) -> set[str]:
    """The characters of `text` that no face can draw, or that draw nothing at all.

    Plain ASCII costs nothing: the fonts are read only where something else is met.
    """
    if text.isascii() and text.isprintable():
        return set()
    return {character for character in set(text) if ord(character) not in coverage() or is_control(character)}


def is_control(character: str) -> bool:
    """Whether a character draws nothing and may disturb what stands beside it.

    Control, format (among them those that turn the reading direction), surrogate and
    private characters, and separators of lines and paragraphs (Unicode general categories).
    """
    return unicodedata.category(character) in _UNSEEN


_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
