"""The measuring: whole processes in pairs, stages of one compilation, growth, pages.

Times are seconds of wall clock; on a shared machine only ratios taken in pairs mean anything.
"""

from __future__ import annotations

import gc
import math
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple
from unittest.mock import patch

from compiler import compile as stages_of

ROOT = Path(__file__).resolve().parents[2]
LINSTOCK = (sys.executable, "-m", "compiler")
BEAN_CHECK = (sys.executable, "-c", "from beancount.scripts.check import main; main()", "--no-cache")

STAGES = {
    "read": "load",
    "parts": "catalogue",
    "declare": "declare_all",
    "model": "build_model",
    "address": "addresses",
    "lay out": "laid_out",
    "wiring": "_wirings",
    "schedule": "schedule",
    "solve": "solve_show",
    "checks": "run_checks",
}
"""Stage as printed to the function of `compiler.compile` that does it."""


class Pairs(NamedTuple):
    """Two commands run in turn: median seconds of each, and the median of their ratios."""

    first_s: float
    second_s: float
    ratio: float


def run_s(command: tuple[str, ...]) -> float:
    """Wall-clock seconds of one process. A process that fails raises `CalledProcessError`."""
    start = time.perf_counter()
    subprocess.run(command, check=True, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    return time.perf_counter() - start


def in_pairs(first: tuple[str, ...], second: tuple[str, ...], pairs: int) -> Pairs:
    """Run A B A B …; each pair gives one ratio, so that a slow minute spoils one pair only.

    One run of each beforehand fills the file cache and is not counted.
    """
    run_s(first), run_s(second)
    taken = [(run_s(first), run_s(second)) for _ in range(pairs)]
    return Pairs(
        statistics.median(one for one, _ in taken),
        statistics.median(other for _, other in taken),
        statistics.median(one / other for one, other in taken),
    )


def best_s(command: tuple[str, ...], times: int) -> float:
    """The least of several runs: what the work takes when nothing else disturbs it."""
    return min(run_s(command) for _ in range(times))


def exponent(small: float, large: float, times_larger: float) -> float:
    """The power of growth: time ∝ size ** exponent."""
    return math.log(large / small) / math.log(times_larger)


@contextmanager
def timed_stages() -> Iterator[dict[str, float]]:
    """Seconds of each stage of the compilations inside, by the names of `STAGES`."""
    spent = dict.fromkeys(STAGES, 0.0)

    def watched(stage: str, function: Any) -> Any:
        def run(*given: Any) -> Any:
            start = time.perf_counter()
            try:
                return function(*given)
            finally:
                spent[stage] += time.perf_counter() - start

        return run

    watches = {name: watched(stage, getattr(stages_of, name)) for stage, name in STAGES.items()}
    with patch.multiple(stages_of, **watches):
        yield spent


def stages_s(text: str, times: int) -> dict[str, float]:
    """Least seconds of each stage, of the rest of `solve_files`, and of all together.

    The collector is off, as in the command; one run beforehand fills what is read once a process.
    """
    data = text.encode()
    best: dict[str, float] = {}
    for count in range(times + 1):
        gc.collect()
        gc.disable()
        try:
            with timed_stages() as spent:
                start = time.perf_counter()
                stages_of.solve_files("made.show", lambda _: data)
                whole = time.perf_counter() - start
        finally:
            gc.enable()
        spent |= {"places": whole - sum(spent.values()), "all": whole}
        if count:
            best = {stage: min(seconds, best.get(stage, math.inf)) for stage, seconds in spent.items()}
    return best
