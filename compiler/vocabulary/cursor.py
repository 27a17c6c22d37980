"""A cursor over one statement's items: what the shapes read from, and where they report."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from compiler.vocabulary.units import UNITS
from grammar.findings import Edit, Finding, Related, Span
from grammar.tree import Item, Statement


class Value(NamedTuple):
    """A decoded value with its place."""

    data: Any
    span: Span


@dataclass(slots=True)
class Cursor:
    """Position in the items of one statement.

    `findings` is shared by every cursor of a file. `words` are the clause words of the forms
    that are open, innermost last: a shape stops before them.
    """

    file: str
    items: Sequence[Item]
    findings: list[Finding]
    at: int = 0
    words: list[Collection[str]] = field(default_factory=list)
    statement: Statement | None = None

    def kind(self, ahead: int = 0) -> str:
        """The kind of an item ahead, or an empty string past the end."""
        index = self.at + ahead
        return self.items[index].type if index < len(self.items) else ""

    def peek(self, ahead: int = 0) -> Item | None:
        """An item ahead, or None."""
        index = self.at + ahead
        return self.items[index] if index < len(self.items) else None

    def take(self) -> Item:
        """The next item; the caller has seen that there is one."""
        item = self.items[self.at]
        self.at += 1
        return item

    def word(self, ahead: int = 0) -> str:
        """The next item's text if it is a name, else an empty string."""
        item = self.peek(ahead)
        return str(item) if item is not None and item.type == "NAME" else ""

    def is_clause_word(self, word: str) -> bool:
        """True if any open form gives this word a meaning."""
        return any(word in words for words in self.words)

    def span_from(self, start: int) -> Span:
        """The place of the items from index `start` up to here."""
        if start >= len(self.items):
            start = len(self.items) - 1
        last = max(start, self.at - 1)
        if start < 0:
            return Span(self.file, 0, 0)
        return Span(self.file, self.items[start].start_pos or 0, self.items[last].end_pos or 0)

    def here(self) -> Span:
        """The place of the next item, or the end of the last one."""
        item = self.peek()
        if item is not None:
            return Span(self.file, item.start_pos or 0, item.end_pos or 0)
        if not self.items:
            return Span(self.file, 0, 0)
        end = self.items[-1].end_pos or 0
        return Span(self.file, end, end)

    def report(
        self,
        rule: str,
        headline: str,
        span: Span,
        hint: str = "",
        *,
        detail: str = "",
        related: tuple[Related, ...] = (),
        edit: Edit | None = None,
    ) -> None:
        """Add a finding; a made statement says where it was made from."""
        if self.statement is not None:
            related += self.statement.origin
        self.findings.append(Finding(rule, headline, span, hint=hint, detail=detail, related=related, edit=edit))

    def next_is_unit(self) -> bool:
        """True if the next item is a unit that is known."""
        item = self.peek()
        return item is not None and (item.type == "PERCENT" or str(item) in UNITS)
