"""`python -m tests.bench.run`: speed of the compiler against other programs, and how it grows.

Prints figures and asserts nothing: a shared machine is no judge.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from . import pages
from .generate import bean, generate
from .measure import BEAN_CHECK, LINSTOCK, ROOT, best_s, exponent, in_pairs, run_s, stages_s

DEMO = ROOT / "shows" / "lantern-quay" / "lantern-quay.show"


def main() -> None:
    """Measure and print."""
    said = _arguments()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for part in PARTS:
            for line in part(folder, said):
                print(line, flush=True)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Measure the compiler.")
    parser.add_argument("--cues", type=int, default=2_000, help="size held against bean-check")
    parser.add_argument("--small", type=int, default=1_000, help="small end of the growth")
    parser.add_argument("--large", type=int, default=20_000, help="large end of the growth")
    parser.add_argument("--pairs", type=int, default=9, help="pairs of runs")
    parser.add_argument("--show", type=Path, default=DEMO, help="show whose pages are printed")
    return parser.parse_args()


def against_bean(folder: Path, said: argparse.Namespace) -> Iterator[str]:
    """`check` against `bean-check --no-cache` on as many entries, in pairs."""
    show = _show(folder, said.cues)
    ledger = folder / "made.beancount"
    ledger.write_text(bean(said.cues), encoding="utf-8")
    pairs = in_pairs((*LINSTOCK, "check", str(show)), (*BEAN_CHECK, str(ledger)), said.pairs)
    yield (
        f"check of {said.cues} cues {pairs.first_s:.3f} s, bean-check of {said.cues} transactions "
        f"{pairs.second_s:.3f} s: ratio {pairs.ratio:.2f} (median of {said.pairs} pairs)"
    )


def growth(folder: Path, said: argparse.Namespace) -> Iterator[str]:
    """Exponent of growth, whole processes."""
    small, large = (best_s((*LINSTOCK, "check", str(_show(folder, cues))), 3) for cues in (said.small, said.large))
    power = exponent(small, large, said.large / said.small)
    yield f"check of {said.small} cues {small:.3f} s, of {said.large} cues {large:.3f} s: exponent {power:.3f}"


def stages(folder: Path, said: argparse.Namespace) -> Iterator[str]:
    """Seconds and exponent of each stage, in one process."""
    del folder
    small, large = (stages_s(generate(cues), 3) for cues in (said.small, said.large))
    yield f"{'stage':10} {said.small:>9} {said.large:>9}  exponent"
    for stage, seconds in small.items():
        power = f"{exponent(seconds, large[stage], said.large / said.small):9.2f}" if seconds > 1e-4 else ""
        yield f"{stage:10} {seconds:9.4f} {large[stage]:9.4f} {power}"


def start_up(folder: Path, said: argparse.Namespace) -> Iterator[str]:
    """`--help`, against an interpreter that does nothing."""
    del folder
    pairs = in_pairs((*LINSTOCK, "--help"), (sys.executable, "-c", ""), said.pairs)
    yield f"--help {pairs.first_s * 1e3:.0f} ms, bare interpreter {pairs.second_s * 1e3:.0f} ms"


def printed(folder: Path, said: argparse.Namespace) -> Iterator[str]:
    """Printed sheets of one paper against bare typst on the same pages; and the whole build."""
    made = pages.keep(said.show, folder)
    count = sum(_pages(path) for path in made)
    command = (sys.executable, "-m", pages.__name__)
    pairs = in_pairs((*command, "plan", str(folder)), (*command, "bare", str(folder)), max(1, said.pairs // 3))
    yield (
        f"{count} pages from the plan {pairs.first_s:.2f} s, bare typst {pairs.second_s:.2f} s: ratio {pairs.ratio:.2f}, "
        f"{pairs.second_s / count * 1e3:.0f} ms a page by typst alone"
    )
    build = run_s((*LINSTOCK, "build", str(said.show), "--out", str(folder / "out"), "--paper", pages.PAPER))
    yield f"build of the same show, one paper: {build:.2f} s"


def _show(folder: Path, cues: int) -> Path:
    path = folder / f"made-{cues}.show"
    path.write_text(generate(cues), encoding="utf-8")
    return path


def _pages(path: Path) -> int:
    shown = subprocess.run(("pdfinfo", path), check=True, capture_output=True, text=True).stdout
    return int(next(line for line in shown.splitlines() if line.startswith("Pages:")).split()[1])


PARTS = (against_bean, growth, stages, start_up, printed)
"""What is measured, in order."""

if __name__ == "__main__":
    main()
