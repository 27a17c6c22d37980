"""`linstock format`: files laid out anew, in place or on standard output; broken files left alone."""

from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import click

from compiler.cli import CLEAN, FOUND
from compiler.reports.text import inert, render
from grammar.findings import Finding, Span
from grammar.formatter import format_source
from grammar.source import Source, decode

STDIN = "-"


@dataclass(frozen=True, slots=True)
class _Result:
    """One file's outcome: its bytes before and after, or what is wrong with it."""

    before: bytes
    after: bytes | None
    source: Source
    findings: tuple[Finding, ...]

    @property
    def changed(self) -> bool:
        return self.after is not None and self.after != self.before


def format_files(paths: Iterable[Path | str], check: bool, diff: bool) -> int:  # noqa: FBT001  # options of the command
    """Lay files out anew; ``-`` is standard input, and goes to standard output.

    `check`: write nothing, name the files that would change, exit code 1 if there are any. `diff`: write nothing,
    print what would change. A file that is broken or cannot be read is told with its findings and left alone, the
    others are done all the same; the exit code is then 1.
    """
    code = CLEAN
    for path in paths:
        code = max(code, _format_one(str(path), check=check, diff=diff))
    return code


def _format_one(name: str, *, check: bool, diff: bool) -> int:
    try:
        result = _formatted(name)
        if result.after is None:
            _refuse(name, result)
            return FOUND
        if diff:
            _show(_difference(name, result))
        if check:
            if result.changed:
                click.echo(f"{inert(name)}: would change", err=diff)
            return FOUND if result.changed else CLEAN
        if not diff:
            _put(name, result)
    except OSError as error:
        click.echo(f"linstock: `{inert(name)}` is left as it was: {error.strerror or error}", err=True)
        return FOUND
    return CLEAN


def _formatted(name: str) -> _Result:
    data = sys.stdin.buffer.read() if name == STDIN else Path(name).read_bytes()
    text, bad = decode(data)
    source = Source("standard input" if name == STDIN else Path(name).name, text)
    if bad is not None:
        lost = Finding("not-utf8", "this file is not UTF-8 text", Span(source.name, bad, min(bad + 1, len(text))),
                       hint="Save it as UTF-8 in your editor.")  # fmt: skip
        return _Result(data, None, source, (lost,))
    after, findings = format_source(source)
    return _Result(data, None if after is None else after.encode("utf-8"), source, findings)


def _refuse(name: str, result: _Result) -> None:
    """Say what is broken, with places."""
    from compiler.checks import severity_of

    told = (replace(f, severity=f.severity or severity_of(f.rule)) for f in result.findings)
    folder = "" if name == STDIN else _folder(Path(name))
    click.echo(render(told, {result.source.name: result.source}, folder), nl=False, err=True)
    click.echo(f"{inert(name)}: broken, left as it was; mend it and format again", err=True)


def _folder(path: Path) -> str:
    folder = path.parent.as_posix()
    return "" if folder == "." else folder


def _put(name: str, result: _Result) -> None:
    """Write what changed; standard output always gets its text."""
    assert result.after is not None
    if name == STDIN:
        sys.stdout.buffer.write(result.after)
        sys.stdout.buffer.flush()
    elif result.changed:
        _replace(Path(name).resolve(), result.after)
        click.echo(f"{inert(name)}: laid out anew")


def _replace(path: Path, data: bytes) -> None:
    """All or nothing: a file beside it takes its place and its mode."""
    handle, beside = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        Path(beside).chmod(path.stat().st_mode & 0o7777)
        Path(beside).replace(path)
    except BaseException:
        Path(beside).unlink(missing_ok=True)
        raise


def _difference(name: str, result: _Result) -> Iterator[str]:
    """A unified diff; lines end at line feeds alone, so that other line ends show."""
    if not result.changed or result.after is None:
        return
    from difflib import unified_diff

    before, after = _lines(result.before.decode("utf-8")), _lines(result.after.decode("utf-8"))
    for line in unified_diff(before, after, name, name):
        yield line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n"


def _lines(text: str) -> list[str]:
    lines = text.split("\n")
    return [f"{line}\n" for line in lines[:-1]] + lines[-1:] * bool(lines[-1])


def _show(lines: Iterable[str]) -> None:
    """The diff as it is, so that it can be applied; on a terminal without what would move its cursor."""
    screen = sys.stdout.isatty()
    text = "".join(f"{inert(line[:-1])}\n" if screen else line for line in lines)
    sys.stdout.flush()
    click.echo(text.encode("utf-8"), nl=False)
