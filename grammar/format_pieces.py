"""What the formatter lays out: the reader's tokens with the comments and line ends between them.

There is no second lexer. The reader's tokens leave gaps, and a gap holds spaces and perhaps one comment.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from typing import NamedTuple

from lark import Token

BLANKS = " \t\f\r"
_AFTER_COMMA = re.compile(r"[ \t]*(#[^\n]*)?\r?\n")
_LINE_END = re.compile(r"\r\n|\r|\n")
_BREAKS = frozenset(("HARD", "SOFT", "SEMI"))


class Piece(NamedTuple):
    """A token, a comment or a line end.

    `kind`: a terminal of the grammar without its underscore; ``COMMENT``; ``SEMI`` for a semicolon; ``HARD`` for a
    line end that ends a statement and ``SOFT`` for one that does not (after a comma, inside parentheses).
    `glued`: nothing stood between it and the piece before. `column`: of a comment, counted from 0; a tab counts as one.
    """

    kind: str
    text: str
    glued: bool = False
    column: int = 0


def pieces_of(text: str, tokens: list[Token]) -> list[Piece]:
    """All pieces of a text, in order; `tokens` are the reader's, unmended, of a text that needs no mending."""
    pieces: list[Piece] = []
    at = parens = 0
    for token in tokens:
        start, end = token.start_pos or 0, token.end_pos or 0
        pieces.extend(_comment(text, at, start))
        kind = token.type
        if kind == "_END":
            pieces.extend(_ends(token, inside=parens > 0))
        elif kind == "COMMA":
            pieces.append(Piece("COMMA", ",", at == start))
            pieces.extend(_after_comma(text, start + 1, end))
        else:
            parens += (kind == "LPAR") - (kind == "RPAR")
            pieces.append(Piece(kind.lstrip("_"), str(token), at == start))
        at = end
    pieces.extend(_comment(text, at, len(text)))
    return pieces


def _comment(text: str, start: int, end: int) -> Iterator[Piece]:
    """The comment in a gap, if there is one."""
    at = text.find("#", start, end) if start < end else -1
    if at >= 0:
        line = text.rfind("\n", 0, at) + 1
        yield Piece("COMMENT", text[at:end].rstrip(BLANKS), column=width(text[line:at]))


def _ends(token: str, *, inside: bool) -> Iterator[Piece]:
    """Semicolons and line ends; inside parentheses neither ends a statement."""
    for number, part in enumerate(token.split(";")):
        if number and not inside:
            yield Piece("SEMI", ";")
        for _ in _LINE_END.findall(part):
            yield Piece("SOFT" if inside else "HARD", "\n")


def _after_comma(text: str, at: int, end: int) -> Iterator[Piece]:
    """The line ends that a comma takes with it, and their comments."""
    while at < end and (found := _AFTER_COMMA.match(text, at, end)):
        if found[1]:
            yield from _comment(text, at, found.end(1))
        yield Piece("SOFT", "\n")
        at = found.end()


def is_break(piece: Piece) -> bool:
    """True for what lies between statements or lines and is no text of its own."""
    return piece.kind in _BREAKS


def width(text: str) -> int:
    """Columns that a text takes."""
    if text.isascii():
        return len(text)
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)
