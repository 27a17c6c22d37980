"""Columns: the cells of neighbouring lines, and the comments at their ends, stand below one another.

Only the layout decides, never the spaces that stood there, so that formatting twice changes nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from grammar.format_cells import NUMBER
from grammar.format_pieces import width
from grammar.format_rows import WIDEST, Row

WIDE_CELLS = 20
"""Cells whose widths differ by more share no column: one long name must not push a whole table apart."""
WIDE_LINES = 40
"""The same for lines with comments at their ends."""
_NEAR = frozenset(("every",))  # a column only where every line between has it


def align_cells(rows: Iterable[Row]) -> None:
    """Set the pads of the rows of one block."""
    for run in _runs(rows):
        _columns(run, 0)


def _runs(rows: Iterable[Row]) -> Iterator[list[Row]]:
    """Neighbours: no blank line between them, no opened block, outside blocks the same head."""
    run: list[Row] = []
    for row in rows:
        if row.blank or row.kind == "close" or (run and row.cells and run[-1].head != row.head and row.kind != "more"):
            yield run
            run = []
        if row.kind in ("code", "open"):
            row.pads = [0] * len(row.labels)
            run.append(row)
    yield run


def _columns(run: Sequence[Row], level: int) -> None:
    """One column and those to its right, wherever neighbours share it."""
    for section in _sections(run, level):
        pads = _pads(section, level)
        if _too_wide(section, pads):
            continue
        for row, pad in zip(section, pads, strict=True):
            row.pads[level] = pad
        _columns(section, level + 1)


def _too_wide(section: Sequence[Row], pads: Sequence[int]) -> bool:
    """True if the column would push a block on one line over the edge; long texts go over it anyhow."""
    lines = zip(section, pads, strict=True)
    return any(row.cells[-1].endswith("}") and row.width + pad > WIDEST >= row.width for row, pad in lines)


def _sections(run: Sequence[Row], level: int) -> Iterator[list[Row]]:
    """Neighbours that share a column; a line that has ended before it does not part them."""
    section: list[Row] = []
    least = most = 0
    parted = False
    for row in run:
        if len(row.labels) <= level:
            parted = True
            continue
        size = width(row.cells[level])
        least, most = min(least, size), max(most, size)
        label = row.labels[level]
        if section and (label != section[0].labels[level] or most - least > WIDE_CELLS or (parted and label in _NEAR)):
            yield section
            section = []
        if not section:
            least = most = size
        parted = False
        section.append(row)
    if section:
        yield section


def _pads(section: Sequence[Row], level: int) -> list[int]:
    """Spaces before a column: cells begin below one another; numbers have their decimal points so."""
    if section[0].labels[level].startswith(NUMBER):
        sizes = [len(row.cells[level + 1].split()[0].partition(".")[0]) for row in section]
    else:
        sizes = [width(row.cells[level]) for row in section]
    most = max(sizes)
    return [most - size for size in sizes]


def comment_columns(rows: Sequence[Row]) -> Iterator[int]:
    """For each row the column of its comment, counted from 0; of no meaning where it has none."""
    group: list[Row] = []
    least = most = 0
    for row in rows:
        if row.kind != "under":
            size = row.width
            least, most = min(least, size), max(most, size)
            if not (group and _neighbours(group[0], group[-1], row) and most - least <= WIDE_LINES):
                yield from _group_columns(group)
                group = []
                least = most = size
        group.append(row)
    yield from _group_columns(group)


def _group_columns(group: Sequence[Row]) -> Iterator[int]:
    """Two spaces after the longest line; a comment that stands alone begins at its indent."""
    column = max((row.width for row in group if row.cells), default=0) + 2
    return (row.indent if row.kind == "comment" else column for row in group)


def _neighbours(first: Row, last: Row, row: Row) -> bool:
    """True if the comments of two lines that follow one another may stand below one another."""
    if row.blank or not (row.comment and last.comment):
        return False
    return first.kind == row.kind and row.kind in ("code", "more") and first.indent == row.indent
