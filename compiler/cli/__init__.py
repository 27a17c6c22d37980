"""The command `linstock`: thin. It parses options, calls the compiler, and prints.

Everything heavy is imported by the command that needs it: `--help` answers at once.
Exit codes: 0 clean, 1 findings of the failing severity, 2 wrong use.
"""

from __future__ import annotations

import gc
import os
import sys
from contextlib import suppress
from pathlib import Path

import click

CAUTION = (
    "Linstock fires nothing and replaces neither the law, the standard in force, the maker's data nor the "
    "licensed operator. It computes no induction, static or radio pick-up."
)
CLEAN, FOUND, WRONG_USE = 0, 1, 2

_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)
_FAIL_ON = click.option(
    "--fail-on", type=click.Choice(["error", "warning", "note"]), default="error", show_default=True,
    help="Least severity that makes the exit code 1.",
)  # fmt: skip


@click.group(epilog=CAUTION, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="linstock", message="linstock %(version)s")
def main() -> None:
    """Compile a display show written as plain text into a checked firing plan and printed sheets."""


def entry() -> None:
    """The command itself: `main`, without the collector, and without taking the heap apart at the end.

    A run makes a few hundred thousand small values and ends; freeing them one by one is a tenth of `check`.
    """
    gc.disable()
    code: object = CLEAN
    try:
        main()
    except SystemExit as stop:
        code = stop.code
    with suppress(BrokenPipeError):  # the reader of a pipe may have left
        sys.stdout.flush()
    sys.stderr.flush()
    os._exit(code if isinstance(code, int) else CLEAN if code is None else FOUND)


@main.command()
@click.argument("file", type=_FILE)
@_FAIL_ON
def check(file: Path, fail_on: str) -> None:
    """Check the show FILE and say what is wrong, where, and what to do next."""
    from compiler.cli.run import check_show

    raise SystemExit(check_show(file, fail_on))


@main.command()
@click.argument("file", type=_FILE)
@click.option(
    "--out",
    required=True,
    type=click.Path(file_okay=False, path_type=Path),
    help="Folder to write; an earlier build in it is replaced as a whole.",
)
@click.option(
    "--paper",
    "papers",
    type=click.Choice(["a4", "us-letter"]),
    multiple=True,
    default=("a4", "us-letter"),
    show_default=True,
    help="Paper of the printed sheets; may be given twice.",
)
@_FAIL_ON
def build(file: Path, out: Path, papers: tuple[str, ...], fail_on: str) -> None:
    """Compile the show FILE and write plan.json, the printed sheets, the page and the tables.

    A show with errors is written too, and every sheet of it says that it must not be wired from.
    """
    from compiler.cli.run import build_show

    raise SystemExit(build_show(file, out, papers, fail_on))


@main.command()
@click.argument("rule")
def explain(rule: str) -> None:
    """Explain a RULE: what it protects from, how it is computed, its limit and source, examples."""
    from compiler.cli.run import explain_rule

    raise SystemExit(explain_rule(rule))


@main.command()
def schema() -> None:
    """Print the JSON Schema of plan.json."""
    from compiler.plan import schema_text

    click.echo(schema_text(), nl=False)
