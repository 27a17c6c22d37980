"""Reads the show's files: follows `use`, each file once, never outside the show's folder."""

from __future__ import annotations

import errno
import posixpath
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from grammar.findings import Finding, Span
from grammar.reader import read
from grammar.source import Source, decode
from grammar.tree import Statement

LARGEST = 20_000_000
"""A file of more bytes is not read: nobody writes such a show by hand."""

DEEPEST_USE = 200
"""Files that use files that use files: a longer chain is refused."""

ReadFile = Callable[[str], bytes]
"""Gives the bytes of a file by its name relative to the show's folder; raises OSError."""


@dataclass(slots=True)
class Loaded:
    """All files of a show: sources by name and their statements in order of reading."""

    main: str
    sources: dict[str, Source] = field(default_factory=dict)
    statements: list[Statement] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    tables: dict[tuple[str, str], Source] = field(default_factory=dict)  # (file, path as written) to its table
    unread: bool = False  # a file could not be read: what it declares is unknown


def reader_of(folder: Path) -> ReadFile:
    """Reads files below a folder, and only there, links followed."""
    root = folder.resolve()

    def read_file(name: str) -> bytes:
        try:
            path = (root / name).resolve()
        except RuntimeError as error:  # a link to itself; an OSError in later versions of Python
            raise OSError(errno.ELOOP, "a link that leads to itself") from error
        if not path.is_relative_to(root):
            raise PermissionError("outside the show's folder")
        if path.stat().st_size > LARGEST:
            raise OSError("larger than 20 MB")
        return path.read_bytes()

    return read_file


def load(main: str, read_file: ReadFile) -> Loaded:
    """Read the main file and all that it uses. What cannot be read is a finding."""
    loaded = Loaded(main)
    _load(loaded, main, read_file, None, ())
    return loaded


def _load(loaded: Loaded, name: str, read_file: ReadFile, used_at: Span | None, above: tuple[str, ...]) -> None:
    if name in above:
        assert used_at is not None
        chain = " → ".join((*above[above.index(name) :], name))
        loaded.findings.append(
            Finding(
                "use-cycle",
                f"the files use each other in a circle: {chain}",
                used_at,
                hint="Take this `use` out: what the first file declares is known everywhere.",
            )
        )
        return
    if name in loaded.sources:
        return
    if used_at is not None and len(above) > DEEPEST_USE:
        loaded.unread = True
        loaded.findings.append(
            Finding(
                "too-many",
                f"the files use each other more than {DEEPEST_USE} deep",
                used_at,
                hint="Let the main file use them.",
            )
        )
        return
    source = _read_source(loaded, name, read_file, used_at)
    if source is None:
        return
    tree, findings = read(source)
    loaded.findings.extend(findings)
    for statement in tree.statements:
        loaded.statements.append(statement)
        if statement.items and str(statement.items[0]) == "use" and statement.items[0].type == "NAME":
            _use(loaded, statement, read_file, (*above, name))
    _tables(loaded, tree.statements, read_file)


def _read_source(loaded: Loaded, name: str, read_file: ReadFile, used_at: Span | None) -> Source | None:
    try:
        data = read_file(name)
    except (OSError, ValueError) as error:
        loaded.unread = True
        if used_at is None:
            loaded.sources[name] = Source(name, "")
        loaded.findings.append(_unreadable(name, error, used_at))
        return None
    text, bad = decode(data)
    source = Source(name, text)
    loaded.sources[name] = source
    if bad is not None:
        loaded.findings.append(
            Finding(
                "not-utf8",
                "this file is not UTF-8 text",
                Span(name, bad, min(bad + 1, len(text))),
                hint="Save it as UTF-8 in your editor.",
            )
        )
    return source


def _unreadable(name: str, error: OSError | ValueError, used_at: Span | None) -> Finding:
    reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    if used_at is None:
        return Finding(
            "bad-file",
            f"`{name}` cannot be read: {reason}",
            Span(name, 0, 0),
            hint="Check the file's name and that you may read it.",
        )
    return Finding(
        "use-missing",
        f"`{name}` cannot be read: {reason}",
        used_at,
        hint="Check the path; it counts from the file that says `use`.",
    )


def _tables(loaded: Loaded, statements: tuple[Statement, ...], read_file: ReadFile) -> None:
    """Read the tables that statements name, in blocks too."""
    stack = list(statements)
    while stack:
        statement = stack.pop()
        stack.extend(statement.block or ())
        items = statement.items
        if len(items) in (2, 4) and str(items[0]) == "table" and items[1].type == "TEXT":
            text = str(items[1])[1:-1]
            span = Span(statement.file, items[1].start_pos or 0, items[1].end_pos or 0)
            name = _inside(loaded, text, statement.file, span)
            source = loaded.sources.get(name) if name else None
            if name and source is None:
                source = _read_source(loaded, name, read_file, span)
            if source is not None:
                loaded.tables[statement.file, text] = source


def _inside(loaded: Loaded, text: str, file: str, span: Span) -> str | None:
    """The name of a file that another one names; None, and a finding, for one outside the show's folder."""
    name = posixpath.normpath(posixpath.join(posixpath.dirname(file), text.replace("\\", "/")))
    if text and not text.startswith(("/", "~")) and not name.startswith("..") and ":" not in text and "\0" not in text:
        return name
    loaded.unread = True
    loaded.findings.append(
        Finding(
            "use-outside",
            f"`{text}` lies outside the show's folder",
            span,
            hint="Copy the file into the show's folder, so that the repository holds the whole show.",
        )
    )
    return None


def _use(loaded: Loaded, statement: Statement, read_file: ReadFile, above: tuple[str, ...]) -> None:
    paths = [item for item in statement.items[1:] if item.type == "TEXT"]
    if len(paths) != 1:
        return  # the vocabulary says what `use` takes
    text = str(paths[0])[1:-1]
    span = Span(statement.file, paths[0].start_pos or 0, paths[0].end_pos or 0)
    name = _inside(loaded, text, above[-1], span)
    if name is not None:
        _load(loaded, name, read_file, span, above)
