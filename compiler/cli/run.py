"""What `check` and `build` do, as functions that return exit codes."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import click

from compiler.cli import CLEAN, FOUND, Report, WrongUseError
from compiler.cli.emit import say, say_document, style_for
from compiler.cli.files import named_file
from compiler.compile import Compiled, solve
from compiler.reports.told import Told

Reports = Sequence[Report]

_FACTS = ("cue", "circuit", "rail")


def check_show(file: Path, reports: Reports, fail_on: str, colour: str) -> int:
    """Check, and write what was found into every report."""
    reports = _with_text(reports)
    named_file(file)
    compiled = solve(file)
    told = _told(file, compiled, reports, fail_on)
    _may_write(file, compiled, reports, None)
    _send(told, reports, colour)
    return _code(told)


def build_show(file: Path, out: Path, papers: tuple[str, ...], reports: Reports, fail_on: str, colour: str) -> int:
    """Check, write the reports and every document, and say what was written."""
    from compiler.cli.output import OutputRefusedError, documents, replace_folder

    reports = _with_text(reports)
    named_file(file)
    compiled = solve(file)
    told = _told(file, compiled, reports, fail_on)
    _may_write(file, compiled, reports, out)
    _send(told, reports, colour)
    if any(finding.rule == "bad-file" for finding in compiled.findings):
        click.echo(f"Nothing is written: there is no show to build. What stands in {out} stays.", err=True)
        return FOUND
    plan = compiled.plan()
    if version := installed_version():
        plan["tool_version"] = version
    try:
        made = documents(plan, papers, _progress())
        replace_folder(out, made, keep=file)
    except OutputRefusedError as refused:
        raise WrongUseError(str(refused)) from refused
    _done(f"{len(made)} files in {out}; plan {plan['fingerprint'][:8]}\n", reports)
    return _code(told)


def installed_version() -> str:
    """The version of the compiler; empty where it is not installed."""
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version("linstock")
    except PackageNotFoundError:
        return ""


def _with_text(reports: Reports) -> Reports:
    """The reports asked for, and text on standard output where nothing else goes there."""
    bare = [form for form, path in reports if not path]
    if len(bare) > 1:
        raise WrongUseError(
            f"Standard output holds one report, not {len(bare)}. Give the others a file, as in `--report {bare[1]}=PATH`."
        )
    return reports if bare else (("text", ""), *reports)


def _told(file: Path, compiled: Compiled, reports: Reports, fail_on: str) -> Told:
    model = compiled.solved.model
    counts = (len(model.cues), len(model.circuits), len(model.rails))
    version = installed_version() if any(form != "text" for form, _ in reports) else ""
    return Told(
        compiled.findings, compiled.places.sources, compiled.places.main, _folder(file),
        dict(zip(_FACTS, counts, strict=True)), fail_on, version,
    )  # fmt: skip


def _folder(file: Path) -> str:
    """The show's folder as seen from here, with slashes; empty: here, or on another drive."""
    parent = file.parent
    if parent.is_absolute() or ".." in parent.parts:
        try:
            parent = Path(os.path.relpath(os.path.realpath(parent)))
        except ValueError:
            return ""
    return "" if parent == Path() else parent.as_posix()


def _may_write(file: Path, compiled: Compiled, reports: Reports, out: Path | None) -> None:
    """Reports never overwrite the show, each other, or what a build replaces."""
    sources = {os.path.realpath(file.parent / name) for name in compiled.places.sources}
    taken: set[str] = set()
    for form, path in reports:
        if not path:
            continue
        target = os.path.realpath(path)
        if target in sources:
            raise WrongUseError(f"`{path}` is a file of the show. Name another file for the {form} report.")
        if target in taken:
            raise WrongUseError(f"Two reports go to `{path}`. Name a file for each.")
        if out is not None and Path(target).is_relative_to(os.path.realpath(out)):
            raise WrongUseError(f"`{path}` lies in `{out}`, which a build replaces. Name a file outside it.")
        taken.add(target)


def _send(told: Told, reports: Reports, colour: str) -> None:
    """Files first: standard output may be a pipe whose reader leaves."""
    from compiler.reports import rendered
    from compiler.reports.text import document

    below = replace(told, folder="") if told.folder.split("/")[0] == ".." else told
    for form, path in sorted(reports, key=lambda report: not report[1]):
        if path:
            _write(path, rendered(form, below))
        elif form == "text":
            say(document(told, style_for(colour)))
        else:
            say_document(rendered(form, below))


def _write(path: str, text: str) -> None:
    from compiler.cli.output import write_whole

    try:
        write_whole(Path(path), text.encode("utf-8", "replace"))
    except OSError as error:
        raise WrongUseError(f"`{path}` cannot be written: {error.strerror}. Name another file.") from error


def _done(line: str, reports: Reports) -> None:
    """What was written: below the text, or beside another document."""
    if ("text", "") in reports:
        say(line)
    else:
        click.echo(line, nl=False, err=True)


def _code(told: Told) -> int:
    return FOUND if any(map(told.fails, told.findings)) else CLEAN


def _progress() -> Callable[[str], None] | None:
    """A line that says what is being made, where a terminal watches; else nothing."""
    if sys.stderr is None or not sys.stderr.isatty():
        return None

    def show(what: str) -> None:
        click.echo(f"\r\x1b[K{what} …" if what else "\r\x1b[K", nl=False, err=True)

    return show
