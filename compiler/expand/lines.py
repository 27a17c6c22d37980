"""Cue lines: from `cue` statements and from scripts, with their times and numbers.

A line is still text in records; `compiler.model.lines` makes devices, circuits and cues of it.
"""

from __future__ import annotations

from dataclasses import dataclass

from compiler.expand.book import Book, Decl
from compiler.expand.when import TIMES, Clockwork, When
from compiler.vocabulary.forms import Record, decode_statement
from compiler.vocabulary.kinds import LINE
from compiler.vocabulary.names import Name, natural
from grammar.findings import Finding, Related, Span
from grammar.tree import Statement


@dataclass(frozen=True, slots=True)
class Line:
    """One line: exactly one of `seen_s`, `lit_s` is given, in seconds of show time.

    `press`: the times count from the press of that cue instead.
    """

    number: str
    seen_s: float | None
    lit_s: float | None
    record: Record
    statement: Statement
    span: Span
    press: str | None = None


def all_lines(book: Book, clockwork: Clockwork) -> list[Line]:
    """Every cue line of the show that has a time."""
    clockwork.read_music()
    lines = [line for decl in _scripts(book) for line in _script(book, decl)]
    for scripted in lines:
        clockwork.known.setdefault(scripted.number, When(scripted.seen_s, None))
    waiting: list[Decl] = []
    for decl in book.singles.get("cue", ()):
        line = _cue(book, decl, clockwork, waiting)
        if line is not None:
            clockwork.known.setdefault(line.number, When(line.seen_s, line.lit_s, line.press))
            lines.append(line)
    times = clockwork.after([(decl.record.get("number"), decl.record) for decl in waiting])
    for decl in waiting:
        when = times.get(decl.record.get("number"))
        if when is None:
            _lost(book, decl)
        else:
            lines.append(_line(decl, when))
    return lines


def _line(decl: Decl, when: When) -> Line:
    record = decl.record
    return Line(record.get("number"), when.seen_s, when.lit_s, record, decl.statement, record.span, when.press)


def _cue(book: Book, decl: Decl, clockwork: Clockwork, waiting: list[Decl]) -> Line | None:
    """The line of a cue; None where it is broken, or where it waits for another cue."""
    record = decl.record
    number = record.get("number")
    said = [key for key in TIMES if key in record.values]
    if record.broken or number is None:
        _lost(book, decl)
        return None
    if len(said) != 1:
        _one_time(book, record, number, said)
        _lost(book, decl)
        return None
    if record.get("what") is None and "starts" not in record.values:
        book.findings.append(
            Finding(
                "missing-value",
                f"what cue {number} fires is not said",
                record.span,
                hint=f"Name an effect and its place, or a circuit: `cue {number} … shell-75 at Q5`.",
            )
        )
        _lost(book, decl)
        return None
    if said == ["after"]:
        waiting.append(decl)
        return None
    when = clockwork.direct(record, number)
    if when is None:
        _lost(book, decl)
        return None
    return _line(decl, when)


def _lost(book: Book, decl: Decl) -> None:
    book.touch(decl.statement)
    book.touched_numbers.add(decl.record.get("number", ""))


def _one_time(book: Book, record: Record, number: str, said: list[str]) -> None:
    if said:
        book.findings.append(
            Finding(
                "duplicate-property",
                f"cue {number} says twice when it is",
                record.span_of(said[-1]),
                hint="Keep one: `at` (seen; the prefire is subtracted), `lit at` (the firing time itself), or `by hand`.",
                related=(Related(record.span_of(said[0]), "said first here"),),
            )
        )
    else:
        book.findings.append(
            Finding(
                "missing-property",
                f"cue {number} has no time",
                record.span,
                hint=f"Write `cue {number} at 0:30.0 …` for when it is seen, `lit at` for when it is fired, or `by hand`.",
            )
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
                Finding(
                    "duplicate-name",
                    f"a script `{name.text}` exists already",
                    name.span,
                    hint="Give this one another name.",
                )
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
    rows = [(row, made) for made in record.get("block", ()) if (row := _row(book, made)) is not None]
    rows.sort(key=lambda one: (_seen(start, one[0]), *_order(one[0])))
    name = record.get("name")[0].text
    first = record.get("numbered")
    lines = []
    for index, (row, made) in enumerate(rows):
        number = f"{name}-{index + 1}" if first is None else str(first + index)
        seen = _seen(start, row)
        _within(book, record, row, seen)
        lines.append(Line(number, seen, None, row, made, row.span))
    return lines


def _row(book: Book, statement: Statement) -> Record | None:
    """One line of a script, decoded; None where it has no offset or says nothing."""
    head = statement.items[0] if statement.items else None
    if head is None or head.type != "TIME":
        book.findings.append(
            Finding(
                "unknown-statement",
                "a line of a script starts with its offset",
                statement.span,
                hint="Write `+0:02.5 shell-75 at Q3`.",
            )
        )
        book.touch(statement)
        return None
    record = decode_statement(LINE, statement, book.findings, skip_head=False, what="line of a script")
    if record.broken or record.get("what") is None or record.get("offset") is None:
        book.touch(statement)
        return None
    return record


def _order(row: Record) -> tuple[object, ...]:
    """By what and where: never by the order of writing."""
    what = tuple(natural(name.text) for name in row.get("what", ()))
    places = tuple(natural(name.text) for name in row.get("places", ()))
    return what, places, row.get("text", "")


def _seen(start: float, row: Record) -> float:
    """Show time of a line: its offset from the script's start, or a show time of its own."""
    seconds, counts = row.get("offset")
    return round(start + seconds, 9) if counts else float(seconds)


def _within(book: Book, script: Record, row: Record, seen: float) -> None:
    end = script.get("to")
    if seen < script.get("from"):
        book.findings.append(
            Finding(
                "out-of-range",
                f"this line comes {script.get('from') - seen:.6g} s before its script starts",
                row.span,
                hint="Write an offset with a plus, as in `+0:02.0`, or a show time within the script.",
            )
        )
    if end is None:
        return
    last = seen + _chase_s(row)
    if seen > end:
        headline = f"this line comes {seen - end:.6g} s after its script ends"
    elif last > end:
        headline = f"the last step of this chase comes {last - end:.6g} s after its script ends"
    else:
        return
    book.findings.append(
        Finding("out-of-range", headline, row.span, hint="Correct the offset or the step, or let the script end later.")
    )


def _chase_s(row: Record) -> float:
    """Seconds from the first to the last step of a chase; 0 for a line that is none."""
    stops = len(row.get("places", ()))
    steps = 2 * stops - 2 if row.get("and") == "back" else stops - 1
    return float(row.get("every", 0.0)) * max(0, steps)
