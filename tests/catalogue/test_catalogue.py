"""Every answer of the check is in the catalogue, says what it said, and is of use to whoever reads it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from compiler.checks import slugs
from compiler.compile import solve
from tests.catalogue.entries import FINDINGS, HERE, SLIPS, Entry, entries, findings, slips

ENTRIES = tuple(entries())
README = (HERE / "README.md").read_text(encoding="utf-8")
FIELD = (
    "channel-overload", "driver-short", "rail-overload", "feed-overload", "supply-overload", "fuse-overload", "firing-current",
    "firing-impulse", "circuit-resistance", "mixed-matches", "match-wired-twice", "channel-used-twice", "lead-out-of-reach",
    "key-effect-one-feed", "test-current", "test-current-unknown",
)  # fmt: skip
"""Rules whose mend may be a hand on what is wired."""


def listed(heading: str) -> set[str]:
    """The first cells of a section's table."""
    section = README.split(f"## {heading}\n")[1].split("\n## ")[0]
    return set(re.findall(r"^\| `([a-z0-9-]+)` \|", section, re.MULTILINE))


def name(entry: Entry) -> str:
    """What stands in the name of a test."""
    return entry.text.stem


@pytest.mark.parametrize("entry", ENTRIES, ids=name)
def test_an_answer_is_the_one_in_the_catalogue(entry: Entry) -> None:
    assert entry.said() == entry.text.read_text(encoding="utf-8")


def test_every_rule_is_in_the_catalogue_and_answers_there() -> None:
    assert {path.stem for path in FINDINGS.glob("*.txt")} == set(slugs())
    for entry in findings():
        assert f"[{entry.rule}]" in entry.text.read_text(encoding="utf-8")


def test_what_no_text_provokes_is_listed_with_its_reason() -> None:
    assert {entry.rule for entry in findings() if not entry.show.is_file()} == listed("What no text provokes")


def test_a_slip_is_told_unless_it_is_none_or_listed_as_not_told() -> None:
    silent = {path.stem for path in SLIPS.glob("*.txt") if path.read_text(encoding="utf-8") == "clean\n"}
    assert silent == listed("What is no slip") | listed("What is not told")


def test_every_file_of_the_catalogue_belongs_to_an_entry() -> None:
    texts = {entry.text for entry in ENTRIES}
    assert {*SLIPS.glob("*.txt"), *FINDINGS.glob("*.txt")} == texts
    named = {path.stem for path in SLIPS.glob("*.csv")}
    assert named <= {entry.show.stem for entry in slips()}


@pytest.mark.parametrize("entry", ENTRIES, ids=name)
def test_every_finding_says_where_and_what_to_do_next(entry: Entry) -> None:
    made = solve(entry.show)
    for finding in made.findings:
        place = made.places.place(finding)
        assert Path(str(place["file"])).name
        assert int(str(place["line"])) >= 1
        assert finding.hint.endswith((".", "?", "`")), finding
        assert not finding.headline.endswith("."), finding
        assert re.search(r"\ba (effect|angle|area|offset|ampere)", f"{finding.headline} {finding.hint}") is None, (
            finding
        )


@pytest.mark.parametrize("slug", FIELD)
def test_a_mend_in_the_field_says_who_must_be_clear(slug: str) -> None:
    assert "everyone clear" in (FINDINGS / f"{slug}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("entry", slips(), ids=name)
def test_an_answer_to_one_slip_fits_on_a_screen(entry: Entry) -> None:
    assert len(entry.text.read_text(encoding="utf-8").split("\n")) <= 40
