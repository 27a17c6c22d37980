"""The measured shows are what they say they are; the measuring itself works on tiny ones. No times are judged."""

from __future__ import annotations

import argparse
import subprocess
from collections import Counter
from pathlib import Path

import pytest

from compiler.compile import Compiled, solve_files
from grammar.findings import Finding

from . import measure, run
from .generate import bean, clock, generate


def _compiled(cues: int, seed: int = 0) -> Compiled:
    data = generate(cues, seed).encode()
    return solve_files("made.show", lambda _: data)


def _serious(findings: tuple[Finding, ...]) -> list[str]:
    return [f"{f.rule}: {f.headline}" for f in findings if f.severity != "note"]


@pytest.mark.parametrize(("cues", "seed"), [(10, 1), (100, 0), (100, 7), (1_000, 0), (2_000, 0)])
def test_a_made_show_is_clean(cues: int, seed: int) -> None:
    compiled = _compiled(cues, seed)
    assert _serious(compiled.findings) == []
    assert len(compiled.solved.model.cues) == cues
    assert len(compiled.solved.model.circuits) == cues


def test_a_made_show_of_20000_cues_is_clean() -> None:
    compiled = _compiled(20_000)
    assert _serious(compiled.findings) == []
    assert len(compiled.solved.circuits) == 20_000


def test_the_mix_of_a_made_show_is_the_one_it_promises() -> None:
    solved = _compiled(1_000).solved
    topologies = Counter(wiring.topology for wiring in solved.wirings.values())
    assert topologies["single"] == 900
    assert all(topologies[kind] >= 10 for kind in ("series", "parallel", "mixed"))
    assert len(solved.model.supplies) == 3
    times = Counter(cue.fired_s for cue in solved.schedule.cues)
    assert sorted(times.values()) == [1] * 900 + [2] * 50
    assert len({supply for instant in solved.instants if len(instant.circuits) > 1 for supply in (instant.supply,)}) == 3


def test_the_same_numbers_make_the_same_show_and_other_seeds_another() -> None:
    assert generate(120, 3) == generate(120, 3)
    assert generate(120, 3) != generate(120, 4)
    assert " ft" in generate(120)
    assert " m " in generate(120)


def test_a_made_ledger_holds_as_many_balanced_transactions(tmp_path: Path) -> None:
    path = tmp_path / "made.beancount"
    path.write_text(bean(50), encoding="utf-8")
    done = subprocess.run((*measure.BEAN_CHECK, str(path)), capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    assert bean(50).count(" * ") == 50


@pytest.mark.parametrize(("seconds", "said"), [(6.0, "0:06.000"), (3723.25, "1:02:03.250"), (599.9996, "10:00.000")])
def test_times_are_written_as_the_language_reads_them(seconds: float, said: str) -> None:
    assert clock(seconds) == said


def test_linear_work_has_exponent_one() -> None:
    assert measure.exponent(0.5, 10.0, 20.0) == pytest.approx(1.0)
    assert measure.exponent(1.0, 400.0, 20.0) == pytest.approx(2.0)


def test_the_stages_add_up_to_the_whole() -> None:
    spent = measure.stages_s(generate(60), 1)
    whole = spent.pop("all")
    assert set(spent) == {*measure.STAGES, "places"}
    assert sum(spent.values()) == pytest.approx(whole)
    assert all(spent[stage] > 0.0 for stage in measure.STAGES)


def test_every_figure_can_be_measured_on_a_tiny_show(tmp_path: Path) -> None:
    said = argparse.Namespace(cues=20, small=10, large=30, pairs=1, show=measure.ROOT / "shows" / "first-show" / "first-show.show")
    lines = [line for part in run.PARTS for line in part(tmp_path, said)]
    text = "\n".join(lines)
    for word in ("ratio", "exponent", "--help", "pages from the plan", "build of the same show"):
        assert word in text
