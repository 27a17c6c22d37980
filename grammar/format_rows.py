"""From pieces to rows: which line each piece stands on, how deep, and which cells the line has."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from grammar.format_cells import cells_of, joined
from grammar.format_pieces import Piece, is_break, width

INDENT = 4
HANGING = 8
"""Further indent of the lines on which a statement goes on."""
WIDEST = 120
"""A block that stood on one line stays there up to this column."""


@dataclass(slots=True)
class Row:
    """One line of the layout.

    `kind`: ``code``; ``more`` for a line on which a statement goes on; ``open`` and ``close`` for the lines of a
    block's braces; ``comment`` for one that stands alone; ``under`` for one that goes on below a trailing comment.
    `cells` with the `labels` of the columns that all but the first begin, and the `pads` before those.
    `column`: where its comment stood, counted from 0.
    """

    kind: str
    indent: int
    cells: list[str] = field(default_factory=list)
    labels: list[str] = field(default_factory=list)
    pads: list[int] = field(default_factory=list)
    head: str = ""
    comment: str = ""
    column: int = 0
    blank: bool = False

    @property
    def text(self) -> str:
        """The line without indent and comment."""
        if not self.pads:
            return " ".join(self.cells)
        rest = (f"{' ' * pad} {cell}" for pad, cell in zip(self.pads, self.cells[1:], strict=True))
        return self.cells[0] + "".join(rest)

    @property
    def width(self) -> int:
        """Columns up to the comment, indent and padding counted."""
        return self.indent + width(" ".join(self.cells)) + sum(self.pads)


class Layout:
    """Rows of one file: `rows` in order, `blocks` with the rows of each block alone."""

    def __init__(self, pieces: Sequence[Piece]) -> None:
        self.pieces = pieces
        self.rows: list[Row] = []
        self.blocks: list[list[Row]] = []
        self._partner, self._lines_before = _partners(pieces)
        self._block(0, len(pieces), 0)

    def _block(self, at: int, end: int, depth: int) -> None:
        """The statements and comments from one piece to another."""
        rows: list[Row] = []
        self.blocks.append(rows)
        lines = 0
        while at < end:
            piece = self.pieces[at]
            if is_break(piece):
                lines += piece.kind != "SEMI"
                at += 1
                continue
            first = len(self.rows)
            blank = lines > 1 and bool(rows)
            if piece.kind == "COMMENT":
                self.comment(piece, depth * INDENT, rows, lines)
                at += 1
            else:
                at = self._statement(at, end, depth, rows)
            if first < len(self.rows):
                self.rows[first].blank = blank
            lines = 0

    def add(self, row: Row, rows: list[Row]) -> None:
        """A row of the file and of its block."""
        self.rows.append(row)
        rows.append(row)

    def comment(self, piece: Piece, indent: int, rows: list[Row], lines: int) -> None:
        """A comment at the end of the line before it, or on a line of its own."""
        last = self.rows[-1] if self.rows else None
        if last and not lines:
            last.comment, last.column = piece.text, piece.column
            return
        goes_on = last and last.comment and last.kind != "comment" and last.column == piece.column and lines == 1
        row = Row("under" if goes_on else "comment", indent, comment=piece.text, column=piece.column)
        self.add(row, rows)

    def _statement(self, at: int, end: int, depth: int, rows: list[Row]) -> int:
        """One statement with its block; gives the index of the piece after it."""
        work = _Statement(self, depth, rows)
        while at < end:
            piece = self.pieces[at]
            if piece.kind in ("HARD", "SEMI"):
                work.ended()
                break
            if piece.kind == "LBRACE":
                return self._braces(at, work)
            work.take(piece, self.pieces[at + 1] if at + 1 < end else None)
            at += 1
        work.flush()
        return at

    def _braces(self, at: int, work: _Statement) -> int:
        """A statement's block, on its line or below it."""
        end = self._partner[at]
        inside = self.pieces[at + 1 : end]
        empty = all(is_break(piece) for piece in inside)
        if empty or self._lines_before[end] == self._lines_before[at]:
            line = [*work.line, Piece("LBRACE", "{"), *_inline(inside), Piece("RBRACE", "}")]
            if empty or work.indent + width(joined(line)) <= WIDEST:
                work.line = line
                work.flush()
                return end + 1
        work.line.append(self.pieces[at])
        work.flush("open")
        self._block(at + 1, end, work.depth + 1)
        self.add(Row("close", work.depth * INDENT, ["}"]), work.rows)
        return end + 1


class _Statement:
    """A statement on its way into rows."""

    def __init__(self, layout: Layout, depth: int, rows: list[Row]) -> None:
        self.layout = layout
        self.depth = depth
        self.rows = rows
        self.line: list[Piece] = []
        self.indent = depth * INDENT
        self.last = self.said = ""  # kinds of the last piece, and of the last that is no comment or line end
        self.lines = 0

    def take(self, piece: Piece, following: Piece | None) -> None:
        """The next piece, which neither ends the statement nor opens its block."""
        if piece.kind == "SOFT":
            self.lines += 1
            if self.last in ("COMMA", "COMMENT") or (following and following.kind == "COMMENT"):
                self.flush()
            return
        if piece.kind == "COMMENT":
            self._comment(piece)
        else:
            self.line.append(piece)
            self.said = piece.kind
        self.last = piece.kind
        self.lines = 0

    def _comment(self, piece: Piece) -> None:
        """Where the line has been broken before it, it stands alone."""
        alone = not self.line
        self.flush()
        self.layout.comment(piece, self.indent, self.rows, max(1, self.lines) if alone else 0)

    def ended(self) -> None:
        """A statement that ends in a comma needs its semicolon, or the next line would belong to it."""
        if self.said == "COMMA":
            self.line.append(Piece("SEMI", ";"))

    def flush(self, kind: str = "") -> None:
        """The pieces so far as a row."""
        if not self.line:
            return
        goes_on = self.indent > self.depth * INDENT
        row = Row(kind or ("more" if goes_on else "code"), self.indent)
        row.cells, row.labels = cells_of(self.line, top=self.depth == 0, whole=row.kind == "code", plain=goes_on)
        row.head = self.line[0].text if self.depth == 0 else ""
        self.layout.add(row, self.rows)
        self.line = []
        self.indent = self.depth * INDENT + HANGING


def _partners(pieces: Sequence[Piece]) -> tuple[dict[int, int], list[int]]:
    """The closing brace of each opening one, and how many line ends and comments come before each piece."""
    partner: dict[int, int] = {}
    before: list[int] = []
    stack: list[int] = []
    count = 0
    for index, piece in enumerate(pieces):
        before.append(count)
        if piece.kind in ("HARD", "SOFT", "COMMENT"):
            count += 1
        elif piece.kind == "LBRACE":
            stack.append(index)
        elif piece.kind == "RBRACE":
            partner[stack.pop()] = index
    return partner, before


def _inline(inside: Iterable[Piece]) -> list[Piece]:
    """The pieces of a block on one line, without semicolons that separate nothing."""
    kept: list[Piece] = []
    for piece in inside:
        if piece.kind == "SEMI" and (not kept or kept[-1].kind in ("SEMI", "LBRACE")):
            continue
        if piece.kind == "RBRACE" and kept and kept[-1].kind == "SEMI":
            kept.pop()
        if piece.kind not in ("HARD", "SOFT"):
            kept.append(piece)
    if kept and kept[-1].kind == "SEMI":
        kept.pop()
    return kept
