"""Every label of the table, through the language: from `music` and `cue … at` to the plan.

data/timecode.csv: SMPTE ST 12-1 counting, with what was confirmed elsewhere in its last column.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from tests.shows import compiled

ROWS = tuple(csv.DictReader((Path(__file__).parent / "data" / "timecode.csv").read_text("utf-8").splitlines()))
VALID = tuple(row for row in ROWS if row["valid"] == "yes")
INVALID = tuple(row for row in ROWS if row["valid"] == "no")
RATES = {"24": "24", "25": "25", "30": "30", "29.97df": "29.97 drop", "29.97ndf": "29.97"}
BASE = """
defaults { lead zip-18 }
position Q1 at 0 m, 0 m
supply Pack of lead-acid-24 at Q1
rail A of dc-16 at Q1 { feed Pack through 3 m of trunk-2.5 }
"""


def show(rate: str, starts: str, *cues: str, more: str = "") -> str:
    """A show with one piece of music and a cue at each of its labels."""
    rows = [f"cue {number} at M {label} mine-red at Q1" for number, label in enumerate(cues, 1)]
    return "\n".join((BASE, f"music M {{ timecode {RATES[rate]}; starts {starts}{more} }}", *rows, ""))


def title(row: dict[str, Any]) -> str:
    """What stands in the name of a test."""
    return f"{row['rate_label']} {row['timecode']}"


def test_the_table_has_all_rates_and_labels_that_do_not_exist() -> None:
    assert {row["rate_label"] for row in ROWS} == set(RATES)
    assert (len(VALID), len(INVALID)) == (42, 6)


@pytest.mark.parametrize("row", VALID, ids=title)
def test_a_label_is_seen_at_its_exact_second(row: dict[str, str]) -> None:
    made = compiled(show(row["rate_label"], "00:00:00:00", row["timecode"]))
    exact = Fraction(row["seconds_exact"])
    assert [finding.headline for finding in made.findings if finding.rule == "bad-time"] == []
    (cue,) = made.solved.model.cues
    assert abs(Fraction(cue.seen_s) - exact) < Fraction(1, 10**9)
    (planned,) = made.plan()["cues"]
    # the plan writes twelve digits, and half a unit of the last one is what it may be off
    assert abs(Fraction(planned["seen_s"]) - exact) <= Fraction(5, 10**12) * max(1, exact)
    assert abs(planned["seen_s"] - float(row["seconds_decimal"])) < 1e-6


@pytest.mark.parametrize("row", INVALID, ids=title)
def test_a_label_that_does_not_exist_is_no_time(row: dict[str, str]) -> None:
    made = compiled(show(row["rate_label"], "00:00:00:00", row["timecode"], "00:05:00:10"))
    (wrong,) = [finding for finding in made.findings if finding.severity == "error"]
    assert (wrong.rule, made.places.place(wrong)["line"]) == ("bad-time", 8)
    assert row["timecode"] in wrong.headline
    assert [cue["number"] for cue in made.plan()["cues"]] == ["2"]


@pytest.mark.parametrize("row", INVALID, ids=title)
def test_music_cannot_start_at_a_label_that_does_not_exist(row: dict[str, str]) -> None:
    made = compiled(show(row["rate_label"], row["timecode"]))
    assert [finding.rule for finding in made.findings if finding.severity == "error"] == ["bad-time"]


@pytest.mark.parametrize("rate", RATES)
def test_labels_of_one_rate_keep_their_order_and_count_from_the_start_of_the_music(rate: str) -> None:
    rows = [row for row in VALID if row["rate_label"] == rate]
    rows.sort(key=lambda row: int(row["frame_count"]))
    first = rows[0]
    made = compiled(show(rate, first["timecode"], *(row["timecode"] for row in rows), more="; at 0:10; delay 120 ms"))
    seen = [cue.seen_s for cue in sorted(made.solved.model.cues, key=lambda cue: int(cue.number))]
    start = Fraction(first["seconds_exact"])
    assert seen == pytest.approx([float(Fraction(row["seconds_exact"]) - start) + 10.12 for row in rows], abs=1e-9)
    assert seen == sorted(seen)


def test_a_label_before_the_start_of_its_music_is_told() -> None:
    made = compiled(show("25", "01:00:00:00", "00:59:59:24"))
    assert [finding.rule for finding in made.findings if finding.severity == "error"] == ["out-of-range"]


def test_a_semicolon_at_a_rate_that_drops_nothing_is_told() -> None:
    made = compiled(show("29.97ndf", "00:00:00:00", "00:01:00;02"))
    assert [finding.rule for finding in made.findings if finding.severity == "error"] == ["bad-time"]
