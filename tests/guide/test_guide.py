"""The guide as a reader meets it: every block is added to the show, and after each of them the show is clean.

How blocks are marked stands in `tests/guide/blocks.py`; nothing is hidden from the reader.
"""

from __future__ import annotations

import re
from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest

from compiler.checks import manual
from compiler.compile import solve
from compiler.vocabulary.kinds import KINDS
from grammar.formatter import format_text
from tests.guide.blocks import GUIDE, Slip, Stage, blocks, slips, stages

TEXT = GUIDE.read_text(encoding="utf-8")
STAGES = stages(TEXT)
SLIPS = slips(TEXT)
TRIAL = Path(__file__).parent / "trial.show"


def serious(stage: Stage) -> list[tuple[str, str]]:
    """Errors and warnings that nobody waived."""
    return [(f.rule, f.headline) for f in stage.compiled().findings if f.severity != "note" and f.waived_by is None]


@pytest.mark.parametrize("number", range(len(STAGES)))
def test_the_show_is_clean_after_every_block(number: int) -> None:
    assert serious(STAGES[number]) == []


def test_every_block_is_marked_as_one_that_is_run() -> None:
    found = blocks(TEXT)
    assert {block.word for block in found} == {"show", "csv", "slip", "text"}
    assert [block.name for block in found if block.word == "csv"] == ["swans.csv"]
    after_slips = [after.word for block, after in pairwise(found) if block.word == "slip"]
    assert after_slips == ["text"] * len(SLIPS)
    assert Counter(block.word for block in found)["text"] == len(SLIPS)
    assert TEXT.count("```") == 2 * len(found)


@pytest.mark.parametrize("slip", SLIPS, ids=lambda slip: slip.text.split("\n")[0])
def test_a_slip_is_told_as_the_guide_prints_it(slip: Slip) -> None:
    assert slip.told.text == slip.said()


def test_the_blocks_are_in_the_layout_that_format_writes() -> None:
    for block in blocks(TEXT):
        if block.word == "show":
            assert format_text(block.text) == block.text


def test_the_whole_show_has_what_the_guide_teaches() -> None:
    plan = STAGES[-1].compiled().plan()
    numbers = {cue["number"] for cue in plan["cues"]}
    assert {"1", "101.1", "230", "250", "270", "300", "310", "402.8", "900", "910"} <= numbers
    assert {one["press"] for one in plan["cues"]} == {None, "800", "900", "910"}
    assert {out["circuit"].split("-")[0] for out in plan["outs"]} == {"P9"}
    assert [one["rule"] for one in plan["waivers"]] == ["hand-overlap"]


def test_what_the_guide_says_of_its_cues_is_in_the_plan() -> None:
    plan = STAGES[-1].compiled().plan()
    cues = {cue["number"]: cue for cue in plan["cues"]}
    said = {  # number: seen, fired, in seconds of show time or after the press
        "1": (10.0, 7.3), "5.1": (28.0, 24.8), "5.2": (28.0, 28.0), "101.1": (49.0, 49.0), "101.2": (49.2, 49.2), "270": (150.0, 147.3),
        "800": (3.2, 0.0), "903": (12.0, 12.0),
    }  # fmt: skip
    assert {number: (cues[number]["seen_s"], cues[number]["fired_s"]) for number in said} == said
    heron = next(one for one in plan["devices"] if one["effect"] == "heron")
    assert (heron["bursts_s"][:2], len(heron["tubes"])) == ([0.0, 0.6], 5)
    whole = STAGES[14].compiled().plan()  # before P9 is out
    assert [one["number"] for one in whole["cues"] if one["number"].startswith("101.")] == [
        f"101.{n}" for n in range(1, 10)
    ]
    there_and_back = [one["circuits"][0][:2] for one in whole["cues"] if one["number"].startswith("103.")]
    assert there_and_back == ["P3", "P4", "P5", "P6", "P7", "P6", "P5", "P4", "P3"]


def test_every_kind_of_statement_that_a_show_needs_is_in_the_guide() -> None:
    words = set(re.findall(r"^([a-z-]+)\b", "\n".join(b.text for b in blocks(TEXT) if b.word == "show"), re.MULTILINE))
    left_out = set(KINDS) - words
    assert left_out == {"cable", "module", "battery", "ruleset"}  # the guide points to the reference for them


def test_every_rule_that_the_guide_names_has_a_page() -> None:
    named = re.findall(r"explain ([a-z]+-[a-z-]+)", TEXT)
    assert named
    assert [slug for slug in named if manual(slug) is None] == []


def test_the_cautions_stand_before_everything_else() -> None:
    headings = re.findall(r"^## (.*)$", TEXT, re.MULTILINE)
    assert headings[0] == "Before anything else"
    cautions = TEXT.split("## Before anything else")[1].split("\n## ")[0]
    for word in ("law", "standard", "maker", "licensed operator", "induction", "static", "radio"):
        assert word in cautions


def test_the_commands_that_the_guide_types_are_there() -> None:
    from compiler.cli import main

    typed = set(re.findall(r"linstock (\w+)", TEXT)) - {"is"}
    assert typed <= set(main.commands) | {"check"}
    assert {"check", "build", "new", "format", "parts", "explain"} <= typed


def test_the_trial_show_is_clean_and_has_sixty_cues() -> None:
    compiled = solve(TRIAL)
    assert [(f.rule, f.headline) for f in compiled.findings if f.severity != "note" and f.waived_by is None] == []
    assert len({cue["number"].split(".")[0] for cue in compiled.plan()["cues"]}) >= 60
