"""What formatting must keep, looked up without the formatter's own means."""

from __future__ import annotations

import re
from collections import Counter

from grammar.formatter import format_text
from grammar.reader import lexed, read
from grammar.source import Source
from grammar.tree import Group, Item, Statement

_TEXT_OR_COMMENT = re.compile(r'"[^"\n]*"|#[^\n]*')


def shape(statements: tuple[Statement, ...]) -> list[object]:
    """Statements as nested lists of kinds and texts, without places."""
    return [
        ([item_shape(item) for item in one.items], None if one.block is None else shape(one.block))
        for one in statements
    ]


def item_shape(item: Item) -> object:
    """One item; a comma is a comma, whatever line ends it took with it."""
    if isinstance(item, Group):
        return [item_shape(one) for one in item.items]
    return (item.type, "," if item.type == "COMMA" else str(item))


def parsed(text: str) -> list[object]:
    """The statements of a text that is not broken."""
    tree, findings = read(Source("", text))
    assert not findings
    return shape(tree.statements)


def comments(text: str) -> Counter[str]:
    """All comments, without the blanks at their ends."""
    return Counter(part.rstrip(" \t\f\r") for part in _TEXT_OR_COMMENT.findall(text) if part.startswith("#"))


def spelled(text: str) -> list[str]:
    """All tokens but statement ends, as written."""
    tokens, _ = lexed(Source("", text))
    return ["," if token.type == "COMMA" else str(token) for token in tokens if token.type != "_END"]


def holds_to_the_laws(text: str) -> str:
    """Format a text that is not broken, hold the result to every law, and give it back."""
    after = format_text(text)
    assert after is not None
    assert parsed(after) == parsed(text)
    assert spelled(after) == spelled(text)
    assert comments(after) == comments(text)
    assert format_text(after) == after
    for line in after.split("\n"):
        bare = _TEXT_OR_COMMENT.sub("", line)
        assert "\t" not in bare
        assert not line.endswith((" ", "\t", "\r"))
        assert ";;" not in bare
    assert "\n\n\n" not in after
    assert not after.startswith("\n")
    assert not after or (after.endswith("\n") and not after.endswith("\n\n"))
    return after
