"""Lines of source with a place underlined: wide characters and tabs aligned, long lines cut around the place.

A line becomes *cells*, one for each code point: the text that is shown for it and the columns that this takes.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from typing import NamedTuple

from compiler.reports.told import Style, inert
from grammar.findings import Edit, Span
from grammar.source import Source

_ROOM = 100  # columns for source text
_LEAD = 30  # columns kept before a place, when a line is cut
_TAB = 4
_UNDER = "‾"


class Cell(NamedTuple):
    """What is shown for one code point."""

    text: str
    columns: int


def cells(line: str) -> list[Cell]:
    """One cell for each code point; a tab reaches the next stop, what could move the cursor becomes ``�``."""
    made: list[Cell] = []
    column = 0
    for character in line:
        cell = _tab(column) if character == "\t" else _cell(inert(character))
        made.append(cell)
        column += cell.columns
    return made


def _cell(character: str) -> Cell:
    return Cell(character, width(character))


def _tab(column: int) -> Cell:
    columns = _TAB - column % _TAB
    return Cell(" " * columns, columns)


def width(character: str) -> int:
    """Columns that a character takes in a terminal."""
    if unicodedata.category(character) in {"Mn", "Me"}:
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


class Shown(NamedTuple):
    """A line as shown, and where its mark stands: columns before it and columns of it."""

    text: str
    before: int
    marked: int


def shown(line: str, start: int, end: int) -> Shown:
    """A line with the code points from `start` to `end` marked, cut around them if it is too long."""
    if start > 4 * _ROOM:  # nobody sees what stands long before the mark; measuring it takes time
        cut = start - 2 * _ROOM
        line, start, end = "…" + line[cut : end + 2 * _ROOM], start - cut + 1, end - cut + 1
    else:
        line = line[: end + 2 * _ROOM]
    row = cells(line)
    first, last = _window(row, min(start, len(row)), min(max(end, start + 1), len(row)))
    head = "…" if first > 0 else ""
    tail = "…" if last < len(row) else ""
    text = head + "".join(cell.text for cell in row[first:last]) + tail
    before = len(head) + _columns(row[first:start])
    return Shown(text.rstrip(), before, max(1, _columns(row[start : min(max(end, start + 1), last)])))


def _columns(row: list[Cell]) -> int:
    return sum(cell.columns for cell in row)


def _window(row: list[Cell], start: int, end: int) -> tuple[int, int]:
    """The cells to show: all if they fit, else from a little before the mark."""
    if _columns(row) <= _ROOM:
        return 0, len(row)
    first = start
    room = _LEAD if _columns(row[:end]) > _ROOM else _ROOM
    while first > 0 and room - row[first - 1].columns >= 0:
        first -= 1
        room -= row[first].columns
    last, room = first, _ROOM
    while last < len(row) and room - row[last].columns >= 0:
        room -= row[last].columns
        last += 1
    return first, last


class SourceLines:
    """One source file, shown line by line behind a gutter."""

    def __init__(self, source: Source) -> None:
        self.source = source

    def underlined(self, span: Span, style: Style, most: int = 3) -> Iterator[str]:
        """The lines of a span with the span underlined; of more than `most` lines the first and the last."""
        first, column = self.source.line_column(span.start)
        last, end_column = self.source.line_column(max(span.start, span.end))
        if last > first and end_column == 1:  # it ends with a line's end
            last, end_column = last - 1, len(self.source.line(last - 1)) + 1
        numbers = list(range(first, last + 1))
        if len(numbers) > most:
            numbers = numbers[: max(1, most - 1)] + ([last] if most > 1 else [])
        before = first
        for number in numbers:
            if number > before + 1:
                yield style(f"{'⋮':>6}", "quiet")
            before = number
            start = column - 1 if number == first else 0
            end = end_column - 1 if number == last else len(self.source.line(number))
            yield from self._line(number, start, end, style)

    def _line(self, number: int, start: int, end: int, style: Style) -> Iterator[str]:
        line = self.source.line(number)
        if not line.strip():
            return
        if start == 0 and end == len(line):
            start = len(line) - len(line.lstrip())  # a whole line: its indent is no part of what is meant
        row = shown(line, start, max(start, end))
        gutter = f"{number:>6} │ "
        yield style(gutter, "quiet") + row.text
        yield " " * (len(gutter) + row.before) + style(_UNDER * row.marked, "mend")

    def mended(self, edit: Edit, style: Style, most: int) -> Iterator[str]:
        """The line or lines of an edit as they read after it: text to paste."""
        text = self.source.text
        start = text.rfind("\n", 0, edit.span.start) + 1
        stop = text.find("\n", edit.span.end)
        tail = text[edit.span.end : stop if stop >= 0 else len(text)]
        lines = (text[start : edit.span.start] + edit.text + tail).splitlines()
        if not any(line.strip() for line in lines) or len(lines) > most:
            return
        for line in lines:
            yield f"{'':>6} {style('+', 'mend')} " + style("".join(cell.text for cell in cells(line)).rstrip(), "mend")
