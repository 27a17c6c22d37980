"""From the pieces of a line to text: spaces between pieces, and cells that columns begin at.

Neighbouring lines read as a table. The words in `COLUMNS` begin a column; so do what follows the head of a
line in a block, the brace of a block that stands on the line, and the statements in it. These words are a matter
of looks alone: no line means anything else for them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grammar.format_pieces import Piece

COLUMNS = {
    "of": "of", "at": "at", "from": "at", "on": "on", "to": "to",
    "through": "through", "every": "every", "source": "source",
}  # fmt: skip
"""Words that begin a column, and its label: lines share a column of one label."""
MOST_CELLS = 12
VALUE, BRACE, NUMBER = "value", "{", "number "
_TIGHT_BEFORE = frozenset(("COMMA", "RPAR", "SEMI"))


def joined(pieces: Sequence[Piece]) -> str:
    """The pieces with the spaces that belong between them."""
    parts: list[str] = []
    for index, piece in enumerate(pieces):
        if index and not _tight(pieces, index):
            parts.append(" ")
        parts.append(piece.text)
    return "".join(parts)


def _tight(pieces: Sequence[Piece], index: int) -> bool:
    """True if no space belongs before a piece."""
    piece, before = pieces[index], pieces[index - 1]
    if piece.kind in _TIGHT_BEFORE or before.kind == "LPAR":
        return True
    if piece.kind == "LPAR":
        return piece.glued and before.kind == "NAME"  # `Pair(mine-red, 3 s)` as well as `along (1 m, 2 m)`
    return _decimal_comma(pieces, index)


def _decimal_comma(pieces: Sequence[Piece], index: int) -> bool:
    """`2,5` stays as it is: to set it apart would hide a slip that a reader can still see."""
    if index < 2 or not (pieces[index].glued and pieces[index - 1].glued):
        return False
    return [piece.kind for piece in pieces[index - 2 : index + 1]] == ["NUMBER", "COMMA", "NUMBER"]


def cells_of(pieces: Sequence[Piece], *, top: bool, whole: bool, plain: bool) -> tuple[list[str], list[str]]:
    """The cells of a line, and the labels of the columns that all but the first begin.

    `top`: the line stands outside all blocks. `whole`: it opens no block below it. `plain`: no columns at all.
    """
    if plain:
        return [joined(pieces)], []
    starts: list[int] = []
    labels: list[str] = []
    for index, label in _labels(pieces, top=top, whole=whole):
        if len(labels) < MOST_CELLS:
            starts.append(index)
            labels.append(label)
    bounds = zip([0, *starts], [*starts, len(pieces)], strict=True)
    return [joined(pieces[start:end]) for start, end in bounds], labels


def _labels(pieces: Sequence[Piece], *, top: bool, whole: bool) -> Iterator[tuple[int, str]]:
    """Where columns begin."""
    braces = parens = 0
    for index, piece in enumerate(pieces):
        if not parens and index and not _tight(pieces, index):
            label = _inside(pieces, index) if braces == 1 else _outside(pieces, index, top=top) if not braces else ""
            if label and (whole or (label == VALUE and piece.kind != "LBRACE")):
                yield index, label
        braces += (piece.kind == "LBRACE") - (piece.kind == "RBRACE")
        parens += (piece.kind == "LPAR") - (piece.kind == "RPAR")


def _outside(pieces: Sequence[Piece], index: int, *, top: bool) -> str:
    """The label of a column of the statement itself, or nothing."""
    piece, before = pieces[index], pieces[index - 1]
    if not top and index < (first := _after_head(pieces)):
        return ""
    if not top and index == first:
        return VALUE
    if piece.kind == "LBRACE":
        return BRACE
    if top and piece.kind == "NUMBER" and COLUMNS.get(before.text) == "at":
        return NUMBER + before.text
    return _word(pieces, index)


def _after_head(pieces: Sequence[Piece]) -> int:
    """Where the value of a line in a block begins: `after 3 s` is one head; a `table` has no columns."""
    if pieces[0].text == "table":
        return len(pieces)
    if pieces[0].text == "after" and len(pieces) > 1:
        return 3 if pieces[1].kind == "NUMBER" else 2
    return 1


def _inside(pieces: Sequence[Piece], index: int) -> str:
    """The label of a column of a block on the line, or nothing."""
    piece, before = pieces[index], pieces[index - 1]
    if before.kind == "SEMI" and piece.kind == "NAME":
        return ";" + piece.text
    return "through" if piece.text == "through" else ""


def _word(pieces: Sequence[Piece], index: int) -> str:
    """The label of a word that begins a column: not the `of` of `40 m of zip-14`, nor a name in a list."""
    piece, before = pieces[index], pieces[index - 1]
    if piece.kind != "NAME" or before.kind in ("COMMA", "DOTS", "NUMBER"):
        return ""
    if piece.text == "at" and before.text == "lit":
        return ""  # two words that are one
    if piece.text == "of" and index > 1 and pieces[index - 2].kind == "NUMBER":
        return ""
    return COLUMNS.get(piece.text, "")
