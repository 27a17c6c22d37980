"""Standard output and colours: what the commands print goes through here."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from contextlib import suppress
from typing import TextIO

import click

from compiler.cli import WrongUseError
from compiler.reports.told import Style, plain

_COLOURS = {"error": "red", "warning": "yellow", "note": "cyan", "quiet": "bright_black", "mend": "green"}


def style_for(colour: str) -> Style:
    """The style for ``auto``, ``always`` or ``never``."""
    wanted = _watched() if colour == "auto" else colour == "always"
    return coloured if wanted else plain


def _watched() -> bool:
    """True where a terminal shows the output and nobody asked for none (NO_COLOR, as at no-color.org)."""
    dumb = os.environ.get("TERM") == "dumb" or bool(os.environ.get("NO_COLOR"))
    return not dumb and sys.stdout is not None and sys.stdout.isatty()


def coloured(text: str, role: str) -> str:
    """A text in the colour of its role."""
    if role == "heading":
        return click.style(text, bold=True)
    return click.style(text, fg=_COLOURS.get(role, "white"))


def say(text: str) -> None:
    """Text for people on standard output; what its encoding does not hold becomes a question mark."""
    stream = sys.stdout
    if stream is None:
        return
    encoding = stream.encoding or "utf-8"
    _put(lambda: stream.write(text.encode(encoding, "replace").decode(encoding)), stream)


def say_document(text: str) -> None:
    """A document for programs on standard output: UTF-8, whatever the locale says."""
    stream = sys.stdout
    if stream is None:
        return
    stream.flush()
    _put(lambda: stream.buffer.write(text.encode("utf-8", "replace")), stream)


def _put(write: Callable[[], object], stream: TextIO) -> None:
    """Write and flush. A reader of a pipe that has left is no matter; a full disk is one."""
    try:
        with suppress(BrokenPipeError):
            write()
            stream.flush()
    except OSError as error:
        raise WrongUseError(f"Standard output cannot be written: {error.strerror}.") from error
