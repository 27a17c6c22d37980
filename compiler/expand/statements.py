"""Statements to declarations: finds each statement's kind, decodes it, opens lists of names."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from compiler.expand.book import Book, Decl
from compiler.vocabulary.forms import Record, decode_statement
from compiler.vocabulary.kinds import KINDS
from compiler.vocabulary.names import Name, closest, did_you_mean, open_range
from grammar.findings import Finding, Span
from grammar.source import Source
from grammar.tree import Statement, describe

_SINGLE = frozenset(
    (
        "show",
        "defaults",
        "limits",
        "note",
        "bind",
        "use",
        "script",
        "cue",
        "ruleset",
        "weather",
        "out",
        "waive",
        "change",
    )
)
PARTS = Path(__file__).parent.parent / "parts"


_HEAD = re.compile(r'^([a-z]+) +"?([^\s"{]+)', re.MULTILINE)


@cache
def catalogue() -> dict[str, dict[str, Source]]:
    """The built-in parts by kind and name: the text of each statement, unread until it is asked for.

    A statement of a part file starts at the start of a line and ends before the next one; a test
    holds the files to that.
    """
    index: dict[str, dict[str, Source]] = {}
    for path in sorted(PARTS.glob("*.show")):
        text = path.read_text(encoding="utf-8")
        heads = list(_HEAD.finditer(text))
        ends = [head.start() for head in heads[1:]] + [len(text)]
        for head, end in zip(heads, ends, strict=True):
            part = Source(f"built-in/{path.name}", text[head.start() : end])
            index.setdefault(head[1], {})[head[2]] = part
    return index


def declare_all(statements: list[Statement], book: Book) -> None:
    """Decode every statement and enter what it declares into the book."""
    for statement in statements:
        _declare(statement, book)


def _declare(statement: Statement, book: Book) -> None:
    head = statement.items[0] if statement.items else None
    if head is None:
        book.findings.append(
            Finding(
                "unknown-statement",
                "a block stands here without a head",
                _block_span(statement),
                hint="Write what it belongs to before `{`, or take the braces out.",
            )
        )
        return
    word = str(head)
    kind = KINDS.get(word) if head.type == "NAME" else None
    if kind is None:
        _unknown(statement, word, head.type, book)
        return
    before = len(book.findings)
    record = decode_statement(kind.form, statement, book.findings, what=word)
    if len(book.findings) > before:
        book.touch(statement)
    _enter(kind.word, record, statement, book)


def _served(statement: Statement) -> set[str]:
    """The places that a lost rail serves."""
    found: set[str] = set()
    for one in (statement, *(statement.block or ())):
        words = [str(item) for item in one.items]
        if "serves" in words:
            for word in words[words.index("serves") + 1 :]:
                found.update(open_range(word) or (word,))
    return found


def _declared(statement: Statement) -> Iterator[str]:
    """The names that a statement with a misspelt head means to declare."""
    for item in statement.items[1:]:
        if item.type == "NAME":
            yield from open_range(str(item)) or (str(item),)
        elif item.type != "COMMA":
            return


def _block_span(statement: Statement) -> Span:
    for inner in statement.block or ():
        if inner.items:
            return inner.span
    return statement.span


def _unknown(statement: Statement, word: str, shape: str, book: Book) -> None:
    book.touch(statement)
    book.lost.update(_declared(statement))
    if "rail" in closest(word, KINDS):
        served = _served(statement)
        book.unserved.update(served)
        book.unserved_all |= not served
    start = statement.span.start
    if any(f.rule == "text-after-brace" and isinstance(f.at, Span) and f.at.start == start for f in book.findings):
        return  # that it stands there is the slip
    if shape == "TIME":
        hint = "A line with a time belongs into a script; outside one write `cue 12 at 0:30.0 …`."
    else:
        hint = did_you_mean(word, KINDS) or f"A statement starts with one of {', '.join(f'`{k}`' for k in KINDS)}."
    head = statement.items[0]
    span = statement.span._replace(end=head.end_pos or 0)
    said = describe(head)
    book.findings.append(Finding("unknown-statement", f"{said} starts no statement", span, hint=hint))


def _enter(word: str, record: Record, statement: Statement, book: Book) -> None:
    if word in _SINGLE:
        book.singles.setdefault(word, []).append(Decl(word, "", record, statement))
        return
    key = "names" if "names" in record.values else "name"
    names: tuple[Name, ...] = record.get(key, ())
    for index, name in enumerate(names):
        decl = Decl(word, name.text, record, statement, index, len(names))
        if book.declare(decl, name.span):
            book.put_record(f"{'device' if word == 'falls' else word}:{name.text}", record)
