"""The canonical layout of show text.

One statement a line, blocks indented by four, one space between items, none before a comma. A block on one line
stays there while it fits; an open block stays open. Comments stay at their places, groups keep their blank line.
Neighbouring lines read as a table (`grammar.format_cells`). Digits, units, texts, names and comments are kept
character for character, and what the text means is never touched: the same statements come back.
"""

from __future__ import annotations

from grammar.findings import Finding, Span
from grammar.format_columns import align_cells, comment_columns
from grammar.format_pieces import pieces_of
from grammar.format_rows import Layout, Row
from grammar.reader import lexed
from grammar.source import Source


def format_text(text: str) -> str | None:
    """A text in canonical layout, lines ended by a line feed; None if it is broken (see `format_source`)."""
    return format_source(Source("", text))[0]


def format_source(source: Source) -> tuple[str | None, tuple[Finding, ...]]:
    """A source's text in canonical layout; or None and what is broken in it, as the reader says it.

    Text that the reader has to mend is left alone: what was meant is for its writer to say.
    """
    text = source.text.removeprefix("\ufeff")
    tokens, findings = lexed(Source(source.name, text))
    strays = [token for token in tokens if token.type == "OTHER"]
    if strays and not findings:  # the reader leaves it to whoever decoded the file
        start = strays[0].start_pos or 0
        findings = (Finding("not-utf8", "this is no text: bytes were lost here", Span(source.name, start, start + 1),
                            hint="Save the file as UTF-8 in your editor, and write anew what stood here."),)  # fmt: skip
    if findings:
        return None, findings
    layout = Layout(pieces_of(text, tokens))
    for rows in layout.blocks:
        align_cells(rows)
    return _text(layout.rows), ()


def _text(rows: list[Row]) -> str:
    lines: list[str] = []
    for row, column in zip(rows, comment_columns(rows), strict=True):
        if row.blank:
            lines.append("")
        line = " " * row.indent + row.text if row.cells else ""
        if row.comment:
            line += " " * (column - (row.width if row.cells else 0)) + row.comment
        lines.append(line)
    return "".join(f"{line}\n" for line in lines)
