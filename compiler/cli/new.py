"""`new`: writes a small working show with comments that teach, and what a repository of it needs."""

from __future__ import annotations

import re
from pathlib import Path
from shlex import quote

from compiler.cli import CLEAN, WrongUseError
from compiler.cli.emit import say

TEMPLATES = Path(__file__).parent.parent / "templates"
_FILES = {
    "show.show": "{name}.show",
    "addresses.show": "addresses.show",
    "check.sh": "ci/check",
    "workflow.yml": ".github/workflows/show.yml",
    "gitignore": ".gitignore",
    "README.md": "README.md",
}
_PROGRAMS = frozenset(("ci/check",))


def new_show(directory: Path) -> int:
    """Write the files into a new or empty folder; anything else is wrong use, and stays as it is."""
    name = _show_name(directory)
    try:
        directory.mkdir(parents=True, exist_ok=True)
        if any(directory.iterdir()):
            raise WrongUseError(f"`{directory}` is not empty. Name a new folder, so that nothing of yours is lost.")
        written = [_written(directory, source, target, name) for source, target in _FILES.items()]
    except OSError as error:
        raise WrongUseError(f"`{directory}` cannot be written: {error.strerror}. Name another folder.") from error
    show = (directory / f"{name}.show").as_posix()
    say(
        "".join(f"{path}\n" for path in written)
        + f"\nRead {show} from top to bottom, then:\n    linstock check {quote(show)}\n"
    )
    return CLEAN


def _show_name(directory: Path) -> str:
    """The show's file is called like its folder, in letters that every system takes."""
    name = re.sub(r"[^a-z0-9]+", "-", directory.resolve().name.casefold()).strip("-")
    return name if name and name != "addresses" else "show"


def _written(directory: Path, source: str, target: str, name: str) -> str:
    path = directory / target.format(name=name)
    path.parent.mkdir(parents=True, exist_ok=True)
    text = (TEMPLATES / source).read_text(encoding="utf-8").replace("@SHOW@", f"{name}.show")
    with path.open("x", encoding="utf-8", newline="\n") as file:
        file.write(text)
    if target in _PROGRAMS:
        path.chmod(path.stat().st_mode | 0o111)
    return path.as_posix()
