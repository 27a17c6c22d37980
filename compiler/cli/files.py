"""Files as they are named on the command line."""

from __future__ import annotations

from pathlib import Path

from compiler.cli import WrongUseError


def named_file(file: Path) -> None:
    """Raise `WrongUseError` for a folder, or a file that is not there; what cannot be read is a finding."""
    try:
        if file.is_dir():
            inside = sorted(path.name for path in file.glob("*.show"))
            example = f"`{(file / inside[0]).as_posix()}`" if inside else "`harbour/harbour.show`"
            raise WrongUseError(f"`{file}` is a folder. Name the show's file, as in {example}.")
        if file.exists():
            return
        if file.is_symlink():
            raise WrongUseError(f"`{file}` is a link to a file that is not there. Name the file itself.")
        beside = [path.name for path in file.parent.glob("*.show")] if file.parent.is_dir() else []
    except PermissionError:
        return
    from compiler.vocabulary.names import closest

    near = closest(file.name, sorted(beside))
    hint = f"Did you mean `{(file.parent / near[0]).as_posix()}`?" if near else "Check the name."
    raise WrongUseError(f"There is no file `{file}`. {hint}")
