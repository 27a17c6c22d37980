"""The syntax tree: statements of items, each with its span in code points."""

from __future__ import annotations

from dataclasses import dataclass

from lark import Token

from grammar.findings import Related, Span

# What a person calls each kind of token.
WORDS = {
    "NAME": "a word",
    "NUMBER": "a number",
    "TIME": "a time",
    "DATE": "a date",
    "TEXT": "a text in quotes",
    "COMMA": "a comma",
    "DOTS": "the two dots of a range",
    "TOLERANCE": "a tolerance sign",
    "PERCENT": "a per cent or degree sign",
    "GROUP": "a group in parentheses",
    "OTHER": "a stray character",
}


@dataclass(slots=True)
class Group:
    """Items in parentheses."""

    items: tuple[Item, ...]
    start_pos: int = 0
    end_pos: int = 0
    type: str = "GROUP"


Item = Token | Group
"""A token of lark (`type`, `start_pos`, `end_pos`; a `str` itself) or a group."""


@dataclass(slots=True)
class Statement:
    """A head and its items, perhaps with a block of statements.

    `items` may be empty for a block that stands alone; `block` is None where there is none.
    `origin`: where it was made from, outermost last, for statements that a pattern or a table made.
    """

    items: tuple[Item, ...]
    block: tuple[Statement, ...] | None
    file: str = ""
    origin: tuple[Related, ...] = ()

    @property
    def span(self) -> Span:
        """From the first to the last item, without the block."""
        if not self.items:
            return Span(self.file, 0, 0)
        return Span(self.file, self.items[0].start_pos or 0, self.items[-1].end_pos or 0)


@dataclass(frozen=True, slots=True)
class Tree:
    """One file's statements."""

    file: str
    statements: tuple[Statement, ...]


def span_of(file: str, item: Item) -> Span:
    """The place of one item."""
    return Span(file, item.start_pos or 0, item.end_pos or 0)


def describe(item: Item) -> str:
    """An item as a message names it: its own text in quotes, or what it is."""
    if isinstance(item, Group):
        return WORDS["GROUP"]
    return f"`{item}`" if item.type != "TEXT" else f"the text {item}"
