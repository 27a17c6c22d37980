"""Source files: decoded text, and the one line index that turns offsets into line and column."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field
from functools import cached_property

from grammar.findings import Span


@dataclass(frozen=True)
class Source:
    """One file as read: `name` is the path relative to the show's folder, with slashes.

    `text` is decoded UTF-8 without a byte-order mark. Spans count code points of `text`.
    """

    name: str
    text: str = field(repr=False)

    @cached_property
    def _starts(self) -> list[int]:
        starts = [0]
        find = self.text.find
        at = find("\n")
        while at >= 0:
            starts.append(at + 1)
            at = find("\n", at + 1)
        return starts

    def line_column(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset, both counted from 1."""
        offset = max(0, min(offset, len(self.text)))
        line = bisect_right(self._starts, offset) - 1
        return line + 1, offset - self._starts[line] + 1

    def line(self, number: int) -> str:
        """The text of one line, counted from 1, without its end."""
        start = self._starts[number - 1]
        end = self._starts[number] if number < len(self._starts) else len(self.text)
        return self.text[start:end].rstrip("\r\n")

    def place(self, span: Span) -> dict[str, object]:
        """A span as a person counts it: file, line, column, end line, end column (from 1)."""
        line, column = self.line_column(span.start)
        end_line, end_column = self.line_column(span.end)
        return {
            "file": self.name,
            "line": line,
            "column": column,
            "end_line": end_line,
            "end_column": end_column,
        }


def decode(data: bytes) -> tuple[str, int | None]:
    """Bytes to text: UTF-8 with or without mark; each byte that is none becomes U+FFFD.

    Returns the text and the offset of the first bad byte's place in it, or None.
    """
    data = data.removeprefix(b"\xef\xbb\xbf")
    try:
        return data.decode("utf-8"), None
    except UnicodeDecodeError as error:
        return data.decode("utf-8", "replace"), len(data[: error.start].decode("utf-8"))
