"""Printed pages against bare typst: what the press is given is kept, and set again with nothing around it.

    python -m tests.bench.pages keep SHOW FOLDER    # compile, print, keep the press's input
    python -m tests.bench.pages plan FOLDER         # plan.json to PDF, as `build` does it
    python -m tests.bench.pages bare FOLDER         # typst alone on the same input
"""

from __future__ import annotations

import json
import pickle
import sys
from pathlib import Path
from typing import Any
from unittest.mock import patch

PAPER = "a4"


def keep(show: Path, folder: Path) -> list[Path]:
    """Print a show once; keep its plan, its PDFs and everything that typst was given."""
    import typst

    from compiler.compile import compile_show
    from compiler.sheets.print import print_pdf

    plan, _ = compile_show(show)
    given: list[tuple[Any, ...]] = []
    real = typst.Compiler

    def compiler(*files: Any, **options: Any) -> Any:
        given.append((files, options))
        return real(*files, **options)

    with patch.object(typst, "Compiler", compiler):
        made = print_pdf(plan, PAPER)
    (folder / "plan.json").write_text(json.dumps(plan), encoding="utf-8")
    (folder / "given.pickle").write_bytes(pickle.dumps(given))
    for name, data in made.items():
        (folder / name).write_bytes(data)
    return [folder / name for name in made]


def print_plan(folder: Path) -> None:
    """All PDFs of one paper from the plan, as a build makes them."""
    from compiler.sheets.print import print_pdf

    print_pdf(json.loads((folder / "plan.json").read_bytes()), PAPER)


def bare(folder: Path) -> None:
    """The same pages by typst alone: the input is ready, nothing of ours is imported."""
    import typst

    for files, options in pickle.loads((folder / "given.pickle").read_bytes()):  # written by `keep`
        typst.Compiler(*files, **options).compile(format="pdf", pdf_standards=["ua-1"])


def main(arguments: list[str]) -> None:
    """One of the three, by its word."""
    word, *paths = arguments
    if word == "keep":
        keep(Path(paths[0]), Path(paths[1]))
    elif word == "plan":
        print_plan(Path(paths[0]))
    else:
        bare(Path(paths[0]))


if __name__ == "__main__":
    main(sys.argv[1:])
