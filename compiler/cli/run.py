"""What the commands do, as functions that return exit codes."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Any

import click

from compiler.cli import CLEAN, FOUND, WRONG_USE
from compiler.compile import SEVERITIES, Compiled, solve
from compiler.reports.text import plain, render, summary
from grammar.findings import Finding

_COLOURS = {"error": "red", "warning": "yellow", "note": "cyan", "quiet": "bright_black", "mend": "green"}


def check_show(file: Path, fail_on: str) -> int:
    """Check and print findings on standard output."""
    compiled = solve(file)
    _print(file, compiled)
    return _code(compiled.findings, fail_on)


def build_show(file: Path, out: Path, papers: tuple[str, ...], fail_on: str) -> int:
    """Check, write everything, and say what was written."""
    from compiler.cli.output import OutputRefusedError, documents, replace_folder

    compiled = solve(file)
    plan = compiled.plan()
    _print(file, compiled)
    try:
        made = documents(plan, papers, _progress())
        replace_folder(out, made, keep=file)
    except OutputRefusedError as refused:
        click.echo(f"linstock: {refused}", err=True)
        return WRONG_USE
    click.echo(f"{len(made)} files in {out}; plan {plan['fingerprint'][:8]}")
    return _code(compiled.findings, fail_on)


def explain_rule(rule: str) -> int:
    """Print a rule's manual page."""
    from compiler.checks import CHECKED, RAISED, manual
    from compiler.vocabulary.names import did_you_mean

    text = manual(rule)
    if text is None:
        known = (*RAISED, *CHECKED)
        hint = did_you_mean(rule, known) or f"Rules: {', '.join(sorted(known))}."
        click.echo(f"linstock: there is no rule called `{rule}`. {hint}", err=True)
        return WRONG_USE
    click.echo(f"{rule}\n\n{text.strip()}")
    return CLEAN


def _print(file: Path, compiled: Compiled) -> None:
    colour = sys.stdout.isatty() and not os.environ.get("NO_COLOR")
    style = _coloured if colour else plain
    folder = Path(os.path.relpath(file.parent)).as_posix() if file.parent != Path() else ""
    text = render(compiled.findings, compiled.places.sources, "" if folder == "." else folder, style)
    click.echo(text + _facts(compiled) + summary(compiled.findings))


def _facts(compiled: Compiled) -> str:
    model = compiled.solved.model
    return f"{len(model.cues)} cues, {len(model.circuits)} circuits, {len(model.rails)} rails: "


def _coloured(text: str, role: str) -> str:
    return click.style(text, fg=_COLOURS.get(role, "white"))


def _code(findings: tuple[Finding, ...], fail_on: str) -> int:
    failing = SEVERITIES[: SEVERITIES.index(fail_on) + 1]
    return FOUND if any(finding.severity in failing for finding in findings) else CLEAN


def _progress() -> Any:
    """A line that says what is being made, where a terminal watches; else nothing."""
    if not sys.stderr.isatty():
        return None

    def show(what: str) -> None:
        click.echo(f"\r\x1b[K{what} …", nl=False, err=True)

    return show
