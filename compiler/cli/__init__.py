"""The command `linstock`: thin. It parses options, calls the compiler, and prints.

Everything heavy is imported by the command that needs it: `--help` answers at once.
Exit codes: 0 clean, 1 findings of the failing severity, 2 wrong use, 130 interrupted.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any, NoReturn

import click
from click.shell_completion import CompletionItem

CAUTION = (
    "Linstock fires nothing and replaces neither the law, the standard in force, the maker's data nor the "
    "licensed operator. It computes no induction, static or radio pick-up."
)
CLEAN, FOUND, WRONG_USE, INTERRUPTED = 0, 1, 2, 130

FORMATS = (
    "text", "json", "sarif", "junit",
    "annotations", "annotations-github", "annotations-azure", "annotations-teamcity", "annotations-gnu",
)  # fmt: skip
"""The formats of `compiler.reports`, said again so that `--help` need not import it."""

SEVERITIES = ("error", "warning", "note")


class WrongUseError(click.ClickException):
    """The command cannot do what it was asked; one line says why and what to do."""

    exit_code = WRONG_USE

    def show(self, file: Any = None) -> None:
        """Print the line on standard error."""
        click.echo(f"linstock: {self.message}", err=True, file=file)


Report = tuple[str, str]
"""A report's format and path; an empty path is standard output."""


def _reports(ctx: click.Context, param: click.Parameter, values: tuple[str, ...]) -> tuple[Report, ...]:
    """Take ``FORMAT`` and ``FORMAT=PATH`` apart; an unknown format is wrong use."""
    return tuple(_report(value, ctx, param) for value in values)


def _report(value: str, ctx: click.Context, param: click.Parameter) -> Report:
    form, equals, path = value.partition("=")
    if form not in FORMATS:
        raise click.BadParameter(f"`{form}` is no format. Formats: {', '.join(FORMATS)}.", ctx, param)
    if equals and not path:
        said = f"`{value}` names no file. Write `{form}=PATH`, or `{form}` for standard output."
        raise click.BadParameter(said, ctx, param)
    return form, "" if path == "-" else path


def _complete_formats(ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    del ctx, param
    return [CompletionItem(form) for form in FORMATS if form.startswith(incomplete)]


def _complete_rules(ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    from compiler.checks import CHECKED, RAISED

    del ctx, param
    return [CompletionItem(slug) for slug in sorted(RAISED + CHECKED) if slug.startswith(incomplete)]


_FILE = click.argument("file", type=click.Path(path_type=Path))
_FAIL_ON = click.option(
    "--fail-on", type=click.Choice(SEVERITIES), default="error", show_default=True,
    help="Least severity that makes the exit code 1.",
)  # fmt: skip
_REPORT = click.option(
    "--report", "reports", metavar="FORMAT[=PATH]", multiple=True, callback=_reports, shell_complete=_complete_formats,
    help=f"A report, on standard output or in the file PATH; may be given several times. FORMAT is one of "
    f"{', '.join(FORMATS)}. `annotations` is for the CI service it runs in. Text is printed where no other report is.",
)  # fmt: skip
_COLOUR = click.option(
    "--color", "colour", type=click.Choice(["auto", "always", "never"]), default="auto", show_default=True,
    help="Colours; `auto`: only on a terminal, and not where NO_COLOR is set.",
)  # fmt: skip


@click.group(epilog=CAUTION, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="linstock", message="linstock %(version)s")
def main() -> None:
    """Compile a display show written as plain text into a checked firing plan and printed sheets.

    Exit codes: 0 clean, 1 findings of the failing severity, 2 wrong use.
    """


def entry() -> NoReturn:
    """The command itself: `main`, without the collector, and without taking the heap apart at the end.

    A run makes a few hundred thousand small values and ends; freeing them one by one is a tenth of `check`.
    """
    gc.disable()
    code = answer(sys.argv[1:])
    for stream in (sys.stdout, sys.stderr):
        with suppress(BrokenPipeError, AttributeError):  # the reader of a pipe may have left; a stream may be closed
            stream.flush()
    os._exit(code)


def answer(arguments: Sequence[str]) -> int:
    """Run the command with these arguments; gives the exit code."""
    try:
        result = main(list(arguments), prog_name="linstock", standalone_mode=False)
    except SystemExit as stop:
        result = stop.code
    except click.ClickException as wrong:
        wrong.show()
        return wrong.exit_code
    except (click.Abort, KeyboardInterrupt):
        return INTERRUPTED
    except BrokenPipeError:
        return CLEAN  # whoever read the answer has seen enough of it
    return result if isinstance(result, int) else CLEAN


@main.command()
@_FILE
@_REPORT
@_FAIL_ON
@_COLOUR
def check(file: Path, reports: tuple[Report, ...], fail_on: str, colour: str) -> None:
    """Check the show FILE and say what is wrong, where, and what to do next."""
    from compiler.cli.run import check_show

    raise SystemExit(check_show(file, reports, fail_on, colour))


@main.command()
@_FILE
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
@_REPORT
@_FAIL_ON
@_COLOUR
def build(
    file: Path, out: Path, papers: tuple[str, ...], reports: tuple[Report, ...], fail_on: str, colour: str
) -> None:
    """Compile the show FILE and write plan.json, the printed sheets, the page and the tables.

    A show with errors is written too, and every sheet of it says that it must not be wired from.
    """
    from compiler.cli.run import build_show

    raise SystemExit(build_show(file, out, papers, reports, fail_on, colour))


@main.command()
@click.argument("rule", required=False, shell_complete=_complete_rules)
@click.option("--all", "every", is_flag=True, help="List all rules: name, severity, title.")
@_COLOUR
def explain(rule: str | None, *, every: bool, colour: str) -> None:
    """Explain a RULE: what it protects from, how it is computed, its limit and source, examples."""
    from compiler.cli.explain import explain_all, explain_rule

    if every == (rule is not None):
        raise WrongUseError("Name one rule, as in `linstock explain firing-current`, or write `--all` for the list.")
    raise SystemExit(explain_all(colour) if rule is None else explain_rule(rule, colour))


@main.command()
@click.argument("directory", type=click.Path(path_type=Path))
def new(directory: Path) -> None:
    """Write a small working show into DIRECTORY: with comments that teach, and its CI files."""
    from compiler.cli.new import new_show

    raise SystemExit(new_show(directory))


@main.command()
@click.argument("words", nargs=-1)
@click.option("--kind", help="Only parts of this kind: match, cable, module, battery, effect, …")
@click.option("--show", "statement", is_flag=True, help="Print each part as it is written, ready to copy.")
def parts(words: tuple[str, ...], kind: str | None, *, statement: bool) -> None:
    """List the built-in parts that hold all WORDS: main values, where they come from, how far that was seen.

    The exit code is 1 where nothing is found.
    """
    from compiler.cli.parts import list_parts

    raise SystemExit(list_parts(words, kind, written=statement))


@main.command("format")
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option(
    "--check", "check_only", is_flag=True, help="Write nothing; the exit code is 1 where a file would change."
)
@click.option("--diff", is_flag=True, help="Write nothing; print what would change.")
def format_command(files: tuple[Path, ...], *, check_only: bool, diff: bool) -> None:
    """Lay the show FILES out in the one canonical way; what is broken is left alone. `-` is standard input."""
    from compiler.cli.files import named_file
    from compiler.cli.format import format_files

    for file in files:
        if str(file) != "-":
            named_file(file)
    raise SystemExit(format_files(files, check_only, diff))


@main.command()
@click.argument("document", type=click.Choice(["plan", "findings"]), default="plan")
def schema(document: str) -> None:
    """Print the JSON Schema of plan.json, or of the JSON report of findings."""
    from compiler.cli.emit import say

    if document == "findings":
        from compiler.reports.findings import schema_text
    else:
        from compiler.plan import schema_text
    say(schema_text())


@main.command()
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
def completion(shell: str) -> None:
    """Print the script that completes `linstock` in a SHELL; each shell has a file that asks for it.

    ~/.bashrc: eval "$(linstock completion bash)"

    ~/.zshrc: eval "$(linstock completion zsh)"

    ~/.config/fish/config.fish: linstock completion fish | source
    """
    from click.shell_completion import get_completion_class

    from compiler.cli.emit import say

    made = get_completion_class(shell)
    assert made is not None
    complete = made(main, {}, "linstock", "_LINSTOCK_COMPLETE")
    say(complete.source_template % complete.source_vars())
