"""Cue lines: from `cue` statements and from scripts, with their times and numbers.

A line is still text in records; `compiler.model.lines` makes devices, circuits and cues of it.
"""

from __future__ import annotations

from dataclasses import dataclass

from compiler.expand.book import Book, Decl
from compiler.vocabulary.forms import Record, decode_statement
from compiler.vocabulary.kinds import LINE
from compiler.vocabulary.names import Name, natural
from grammar.findings import Finding, Span
from grammar.tree import Statement


@dataclass(frozen=True, slots=True)
class Line:
    """One line: exactly one of `seen_s`, `lit_s` is given, in seconds of show time."""

    number: str
    seen_s: float | None
    lit_s: float | None
    record: Record
    statement: Statement
    span: Span


def all_lines(book: Book) -> list[Line]:
    """Every cue line of the show that has a time."""
    lines = [line for decl in book.singles.get("cue", ()) if (line := _cue(book, decl)) is not None]
    for decl in _scripts(book):
        lines.extend(_script(book, decl))
    return lines


def _cue(book: Book, decl: Decl) -> Line | None:
    record = decl.record
    seen, lit = record.get("seen"), record.get("lit")
    number = record.get("number")
    if record.broken or number is None or record.get("what") is None:
        book.touch(decl.statement)
        return None
    if (seen is None) == (lit is None):
        _one_time(book, record, number, both=seen is not None)
        book.touch(decl.statement)
        return None
    return Line(number, seen, lit, record, decl.statement, record.span)


def _one_time(book: Book, record: Record, number: str, *, both: bool) -> None:
    if both:
        book.findings.append(
            Finding("duplicate-property", f"cue {number} says when it is seen and when it is lit", record.span_of("lit"),
                    hint="Keep `at` (the prefire is subtracted) or `lit at` (the firing time itself).")
        )
    else:
        book.findings.append(
            Finding("missing-property", f"cue {number} has no time", record.span,
                    hint=f"Write `cue {number} at 0:30.0 …` for when it is seen, or `lit at` for when it is fired.")
        )


def _scripts(book: Book) -> list[Decl]:
    """Scripts with a name each; two of one name are a finding."""
    seen: dict[str, Span] = {}
    found = []
    for decl in book.singles.get("script", ()):
        names: tuple[Name, ...] = decl.record.get("name", ())
        if not names:
            book.touch(decl.statement)
            continue
        name = names[0]
        if name.text in seen:
            book.findings.append(
                Finding("duplicate-name", f"a script `{name.text}` exists already", name.span, hint="Give this one another name.")
            )
        seen.setdefault(name.text, name.span)
        found.append(decl)
    return found


def _script(book: Book, decl: Decl) -> list[Line]:
    record = decl.record
    start = record.get("from")
    if start is None:
        book.touch(decl.statement)
        return []
    rows = [row for statement in record.get("block", ()) if (row := _row(book, statement)) is not None]
    rows.sort(key=_order)
    name = record.get("name")[0].text
    first = record.get("numbered")
    lines = []
    for index, row in enumerate(rows):
        number = f"{name}-{index + 1}" if first is None else str(first + index)
        seen = round(start + row.get("offset"), 6)
        _within(book, record, row, seen)
        lines.append(Line(number, seen, None, row, decl.statement, row.span))
    return lines


def _row(book: Book, statement: Statement) -> Record | None:
    """One line of a script, decoded; None where it has no offset or says nothing."""
    head = statement.items[0] if statement.items else None
    if head is None or head.type != "TIME":
        book.findings.append(
            Finding("unknown-statement", "a line of a script starts with its offset", statement.span,
                    hint="Write `+0:02.5 shell-75 at Q3`.")
        )
        book.touch(statement)
        return None
    record = decode_statement(LINE, statement, book.findings, skip_head=False, what="line of a script")
    if record.broken or record.get("what") is None or record.get("offset") is None:
        book.touch(statement)
        return None
    return record


def _order(row: Record) -> tuple[object, ...]:
    """By time, then by what and where: never by the order of writing."""
    what = tuple(natural(name.text) for name in row.get("what", ()))
    places = tuple(natural(name.text) for name in row.get("places", ()))
    return row.get("offset"), what, places, row.get("text", "")


def _within(book: Book, script: Record, row: Record, seen: float) -> None:
    end = script.get("to")
    if end is not None and seen > end:
        book.findings.append(
            Finding("out-of-range", f"this line comes {seen - end:.6g} s after its script ends", row.span_of("offset"),
                    hint="Correct the offset, or let the script end later.")
        )
