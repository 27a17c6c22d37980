"""Tables: cue lines from a CSV file (RFC 4180), each row with its own place for findings.

The first row names the columns by the clauses of a cue: `cue`, `time`, `lit`, `offset`, `effect`,
`at`, `text`, and any other clause by its word. An empty cell says nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from lark import Token

from compiler.vocabulary.kinds import CUE, Kind
from compiler.vocabulary.names import did_you_mean
from compiler.vocabulary.shapes import Flag, Text
from grammar.findings import Finding, Span
from grammar.reader import tokens_of
from grammar.source import Source
from grammar.tree import Item, Statement

MOST_ROWS = 50_000
PART_WORDS = ("match", "cable", "module", "battery", "effect")
_OWN = ("cue", "time", "lit", "offset", "effect", "at", "text")
_ORDER = ("cue", "offset", "time", "lit", "effect", "at")


class Cell(NamedTuple):
    """One field: its text with doubled quotes made single, and where it stands."""

    text: str
    start: int
    end: int


def cells(text: str) -> Iterator[list[Cell]]:
    """The records of a CSV text. A quoted field may hold commas, newlines and doubled quotes."""
    at, row = 0, []
    while at < len(text):
        cell, at = _cell(text, at)
        row.append(cell)
        if at < len(text) and text[at] == ",":
            at += 1
            if at == len(text):
                row.append(Cell("", at, at))
            else:
                continue
        yield row
        row = []
        if text.startswith("\r\n", at):
            at += 2
        elif at < len(text):
            at += 1


def _cell(text: str, at: int) -> tuple[Cell, int]:
    if text.startswith('"', at):
        end = at + 1
        while True:
            end = text.find('"', end)
            if end < 0:
                return Cell(text[at + 1 :].replace('""', '"'), at + 1, len(text)), len(text)
            if text.startswith('""', end):
                end += 2
                continue
            break
        stop = end + 1
        while stop < len(text) and text[stop] not in ",\r\n":
            stop += 1
        return Cell(text[at + 1 : end].replace('""', '"'), at + 1, end), stop
    stop = at
    while stop < len(text) and text[stop] not in ",\r\n":
        stop += 1
    return Cell(text[at:stop], at, stop), stop


def table_statements(source: Source, *, script: bool, findings: list[Finding]) -> list[Statement]:
    """The rows of a table as statements: lines of a script, or cues."""
    rows = cells(source.text)
    header = next(rows, None)
    if header is None:
        findings.append(
            Finding(
                "missing-value",
                f"the table `{source.name}` is empty",
                Span(source.name, 0, 0),
                hint="Its first row names the columns: `offset,effect,at,text`.",
            )
        )
        return []
    columns = _columns(source, header, findings)
    made: list[Statement] = []
    for row in rows:
        if all(not cell.text.strip() for cell in row):
            continue
        if len(made) >= MOST_ROWS:
            findings.append(
                Finding(
                    "too-many",
                    f"the table has more than {MOST_ROWS} rows",
                    _span(source, row[0]),
                    hint="Split it into several.",
                )
            )
            break
        statement = _statement(source, columns, row, findings, script=script)
        if statement is not None:
            made.append(statement)
    return made


def part_statements(source: Source, kind: Kind, findings: list[Finding]) -> list[Statement]:
    """The rows of a table of parts as statements: a column `name`, and one for each clause by its word.

    A clause that takes a text takes the cell as it is; a flag is said by `yes`.
    """
    rows = cells(source.text)
    header = next(rows, [])
    columns = _known(source, header, ["name", *kind.form.words], findings)
    made: list[Statement] = []
    for row in rows:
        said = {word: cell for word, cell in zip(columns, row, strict=False) if word and cell.text.strip()}
        if len(row) > len(columns):
            findings.append(_too_wide(source, row, columns))
        elif said and len(made) < MOST_ROWS:
            made.append(_part(source, kind, said, findings))
    return made


def _part(source: Source, kind: Kind, said: dict[str, Cell], findings: list[Finding]) -> Statement:
    first = said.get("name") or next(iter(said.values()))
    items: list[Item] = [_word(kind.word, first)]
    if "name" in said:
        items.extend(_items(source, "effect", said["name"], findings))
    for word, cell in said.items():
        shape = kind.form.words[word][0].shape if word != "name" else None
        if isinstance(shape, Text):
            items.extend((_word(word, cell), _text(source, cell, findings)))
        elif isinstance(shape, Flag):
            items.extend([_word(word, cell)] if cell.text.strip().lower() in ("yes", "x", "1") else [])
        elif shape is not None:
            items.extend(_items(source, word, cell, findings))
    return Statement(tuple(items), None, source.name)


def _columns(source: Source, header: list[Cell], findings: list[Finding]) -> list[str]:
    return _known(source, header, [*_OWN, *(word for word in CUE.words if word not in ("at", "lit", "with"))], findings)


def _known(source: Source, header: list[Cell], known: list[str], findings: list[Finding]) -> list[str]:
    """The columns' words; one that is none is a finding and is passed over."""
    columns = []
    for cell in header:
        word = cell.text.strip()
        if word not in known:
            findings.append(
                Finding(
                    "unknown-property",
                    f"`{word}` is no column of a table",
                    _span(source, cell),
                    hint=did_you_mean(word, known) or f"Columns: {', '.join(known)}.",
                )
            )
            word = ""
        columns.append(word)
    return columns


def _statement(
    source: Source, columns: list[str], row: list[Cell], findings: list[Finding], *, script: bool
) -> Statement | None:
    if len(row) > len(columns):
        findings.append(_too_wide(source, row, columns))
        return None
    said = {word: cell for word, cell in zip(columns, row, strict=False) if word and cell.text.strip()}
    if not said:
        return None
    order = [word for word in _ORDER if word in said] + [w for w in said if w not in _ORDER and w != "text"]
    items: list[Item] = [] if script else [_word("cue", next(iter(said.values())))]
    for word in order:
        items.extend(_items(source, word, said[word], findings))
    if "text" in said:
        items.append(_text(source, said["text"], findings))
    return Statement(tuple(items), None, source.name)


def _too_wide(source: Source, row: list[Cell], columns: list[str]) -> Finding:
    return Finding(
        "list-mismatch",
        f"this row has {len(row)} cells for {len(columns)} columns",
        _span(source, row[len(columns)]),
        hint="Put a text that holds a comma in double quotes.",
    )


def _items(source: Source, word: str, cell: Cell, findings: list[Finding]) -> Iterator[Item]:
    """A cell as the items that it stands for, its clause word before them."""
    lead = {"cue": "", "offset": "", "effect": "", "time": "at", "lit": "lit at"}.get(word, word)
    for one in lead.split():
        yield _word(one, cell)
    tokens, found = tokens_of(cell.text, source.name, cell.start)
    findings.extend(found)
    yield from (token for token in tokens if not token.type.startswith("_"))


def _word(text: str, cell: Cell) -> Token:
    return Token("NAME", text, cell.start, end_pos=cell.end)


def _text(source: Source, cell: Cell, findings: list[Finding]) -> Token:
    text = cell.text.strip()
    if '"' in text or "\n" in text:
        findings.append(
            Finding(
                "unexpected-value",
                "a text cannot hold a double quote or a line end",
                _span(source, cell),
                hint="Use single quotes inside it, and one line.",
            )
        )
        text = text.replace('"', "'").replace("\n", " ").replace("\r", "")
    return Token("TEXT", f'"{text}"', cell.start, end_pos=cell.end)


def _span(source: Source, cell: Cell) -> Span:
    return Span(source.name, cell.start, cell.end)
