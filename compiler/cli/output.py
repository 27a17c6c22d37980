"""The output folder: everything that a build makes, replaced as a whole or not at all."""

from __future__ import annotations

import json
import os
import shutil
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

PLAN = "plan.json"


class OutputRefusedError(Exception):
    """The folder cannot be written; the message says why and what to do."""


def documents(
    plan: Mapping[str, Any], papers: tuple[str, ...], progress: Callable[[str], None] | None
) -> dict[str, bytes]:
    """All files of a build by name, made from the plan alone."""
    from compiler.sheets.page import page_html
    from compiler.sheets.print import print_pdf
    from compiler.sheets.tables import load_table_csv

    made = {
        PLAN: (json.dumps(plan, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode(),
        "load-table.csv": load_table_csv(plan).encode(),
        "show.html": page_html(plan).encode(),
    }
    for paper in dict.fromkeys(papers):
        made.update(print_pdf(plan, paper, progress))
    if progress is not None:
        progress("")
    return made


def replace_folder(out: Path, made: Mapping[str, bytes], keep: Path) -> None:
    """Write all files beside the folder, then swap; on any failure the old folder stays."""
    out = Path.cwd() / out
    _may_replace(out, keep)
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        fresh = Path(tempfile.mkdtemp(prefix=f".{out.name}-", dir=out.parent))
    except OSError as error:
        raise OutputRefusedError(f"`{out}` cannot be written: {error.strerror}. Choose another folder.") from error
    try:
        for name, data in made.items():
            (fresh / name).write_bytes(data)
        fresh.chmod(0o755)
        _swap(fresh, out)
    except OSError as error:
        shutil.rmtree(fresh, ignore_errors=True)
        raise OutputRefusedError(f"`{out}` cannot be written: {error.strerror}. The earlier build stands.") from error
    except KeyboardInterrupt:
        shutil.rmtree(fresh, ignore_errors=True)
        raise


def write_whole(path: Path, data: bytes) -> None:
    """Write a file as a whole or not at all; raises OSError. Missing folders are made.

    A link is followed. What is no file (a pipe, a terminal, `/dev/null`) is written to and never replaced.
    """
    path = Path(os.path.realpath(path))
    if path.exists() and not path.is_file():
        path.write_bytes(data)
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    fresh = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        fresh.write_bytes(data)
        fresh.replace(path)
    finally:
        fresh.unlink(missing_ok=True)


def _swap(fresh: Path, out: Path) -> None:
    if not out.exists():
        fresh.rename(out)
        return
    old = out.with_name(f"{fresh.name}.old")
    out.rename(old)
    try:
        fresh.rename(out)
    except OSError:
        old.rename(out)
        raise
    shutil.rmtree(old)


def _may_replace(out: Path, keep: Path) -> None:
    """Only a folder that is empty or holds nothing but an earlier build may be replaced."""
    if not out.exists():
        return
    if not out.is_dir():
        raise OutputRefusedError(f"`{out}` is a file. Name a folder.")
    if Path(os.path.realpath(keep)).is_relative_to(os.path.realpath(out)):
        raise OutputRefusedError(f"`{out}` holds the show itself. Name a folder of its own, as in `--out out`.")
    names = {path.name for path in out.iterdir()}
    if names and not (PLAN in names and _is_plan(out / PLAN)):
        raise OutputRefusedError(f"`{out}` holds other files. Name an empty folder, so that nothing of yours is lost.")
    strangers = sorted(name for name in names if not name.endswith((".json", ".pdf", ".html", ".csv")))
    if strangers:
        raise OutputRefusedError(
            f"`{out}` also holds `{strangers[0]}`. Move it away, so that nothing of yours is lost."
        )


def _is_plan(path: Path) -> bool:
    try:
        value = json.loads(path.read_bytes())
    except (OSError, ValueError):
        return False
    return isinstance(value, dict) and "format_version" in value and "fingerprint" in value
