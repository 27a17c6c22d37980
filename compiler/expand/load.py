"""Reads the show's files: follows `use`, each file once, never outside the show's folder."""

from __future__ import annotations

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

ReadFile = Callable[[str], bytes]
"""Gives the bytes of a file by its name relative to the show's folder; raises OSError."""


@dataclass(slots=True)
class Loaded:
    """All files of a show: sources by name and their statements in order of reading."""

    main: str
    sources: dict[str, Source] = field(default_factory=dict)
    statements: list[Statement] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    unread: bool = False  # a file could not be read: what it declares is unknown


def reader_of(folder: Path) -> ReadFile:
    """Reads files below a folder, and only there, links followed."""
    root = folder.resolve()

    def read_file(name: str) -> bytes:
        path = (root / name).resolve()
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
        chain = " → ".join((*above[above.index(name):], name))
        loaded.findings.append(
            Finding("use-cycle", f"the files use each other in a circle: {chain}", used_at,
                    hint="Take this `use` out: what the first file declares is known everywhere.")
        )
        return
    if name in loaded.sources:
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
            Finding("not-utf8", "this file is not UTF-8 text", Span(name, bad, min(bad + 1, len(text))),
                    hint="Save it as UTF-8 in your editor.")
        )
    return source


def _unreadable(name: str, error: OSError | ValueError, used_at: Span | None) -> Finding:
    reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    if used_at is None:
        return Finding("bad-file", f"`{name}` cannot be read: {reason}", Span(name, 0, 0),
                       hint="Check the file's name and that you may read it.")
    return Finding("use-missing", f"`{name}` cannot be read: {reason}", used_at,
                   hint="Check the path; it counts from the file that says `use`.")


def _use(loaded: Loaded, statement: Statement, read_file: ReadFile, above: tuple[str, ...]) -> None:
    paths = [item for item in statement.items[1:] if item.type == "TEXT"]
    if len(paths) != 1:
        return  # the vocabulary says what `use` takes
    text = str(paths[0])[1:-1]
    span = Span(statement.file, paths[0].start_pos or 0, paths[0].end_pos or 0)
    name = posixpath.normpath(posixpath.join(posixpath.dirname(above[-1]), text.replace("\\", "/")))
    if not text or text.startswith(("/", "~")) or name.startswith("..") or ":" in text or "\0" in text:
        loaded.unread = True
        loaded.findings.append(
            Finding("use-outside", f"`{text}` lies outside the show's folder", span,
                    hint="Copy the file into the show's folder, so that the repository holds the whole show.")
        )
        return
    _load(loaded, name, read_file, span, above)
