"""The registry: one rule, one file, one manual page, two samples."""

from __future__ import annotations

from pathlib import Path
from textwrap import dedent

import pytest

import compiler.checks as checks
from compiler.checks import CHECKED, HEADINGS, RAISED, RULES, Rule, manual, run_checks, severity_of, without_echoes
from grammar.findings import Finding, Related
from tests.rules.builders import check_of, well, with_part, with_result
from tests.shows import compiled

ROOM = Path(checks.__file__).parent
SHARED = {"__init__", "rule", "words", "lookups", "loads", "burns", "sides"}
SAMPLES = Path(__file__).parent / "samples"


def test_every_file_of_the_room_is_a_rule_in_the_registry() -> None:
    files = {path.stem.replace("_", "-") for path in ROOM.glob("*.py") if path.stem not in SHARED}
    assert files == {rule.slug for rule in RULES}


def test_no_slug_stands_twice() -> None:
    assert len(set(RAISED + CHECKED)) == len(RAISED) + len(CHECKED)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.slug)
def test_a_manual_page_has_its_headings_in_order_and_text_under_each(rule: Rule) -> None:
    lines = rule.manual.splitlines()
    places = [lines.index(heading) for heading in HEADINGS]
    assert places == sorted(places)
    assert lines[0].endswith(".")
    assert lines[1] == ""
    assert all(lines[place - 1] == "" and lines[place + 1].startswith("    ") for place in places)


ELSEWHERE = {"unknown-name", "missing-property", "use-missing", "unknown-rules", "no-free-channel", "tube-missing", "waiver-unused"}
WORDS = set(RAISED) - ELSEWHERE
"""Rules of reading: an example may leave out what stands elsewhere in a show, but never spell it wrong."""


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule.slug != "bad-file"], ids=lambda rule: rule.slug)
def test_the_example_that_keeps_a_rule_is_right_show_language(rule: Rule) -> None:
    example = dedent(rule.manual.partition("\nKeeps it\n")[2])
    found = {finding.rule for finding in compiled(example).findings}
    assert found & WORDS == set()


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.slug)
def test_a_rule_names_its_severity_and_a_check_exactly_where_it_is_checked_here(rule: Rule) -> None:
    assert rule.severity in {"error", "warning", "note"}
    assert (rule.check is not None) == (rule.slug in CHECKED)


@pytest.mark.parametrize("slug", RAISED + CHECKED)
def test_every_rule_has_a_sample_that_breaks_it_and_one_that_keeps_it(slug: str) -> None:
    assert (SAMPLES / f"{slug}-breaks.show").exists()
    assert (SAMPLES / f"{slug}-keeps.show").is_file()


def test_every_sample_belongs_to_a_rule() -> None:
    known = {f"{slug}-{ending}.show" for slug in RAISED + CHECKED for ending in ("breaks", "keeps")}
    assert {path.name for path in SAMPLES.glob("*.show")} == known


@pytest.mark.parametrize(
    "slug",
    [
        "channel-used-twice", "control-cycle", "crowd-side", "crowd-side-unknown", "fired-before-zero", "firing-current",
        "hold-broken", "press-early", "zone-late", "zone-twice", "match-wired-twice", "missing-firing-data",
        "missing-no-fire", "mixed-matches", "not-computed", "test-current", "test-current-unknown", "test-fault", "tube-missing",
        "waiver-refused",
    ],
)  # fmt: skip
def test_what_can_kill_is_never_waived(slug: str) -> None:
    assert severity_of(slug) == "error"
    assert not next(rule for rule in RULES if rule.slug == slug).waivable


def test_an_unknown_slug_has_no_page_and_no_severity() -> None:
    assert manual("no-such-rule") is None
    with pytest.raises(KeyError):
        severity_of("no-such-rule")


def test_a_show_in_which_all_is_well_has_no_findings() -> None:
    assert run_checks(well()) == ()


def test_a_rule_that_is_passed_over_where_a_show_has_none_of_its_things_finds_nothing_there() -> None:
    passed_over = [slug for slug, asked in checks._ONLY_WITH.items() if not asked(well())]
    assert set(passed_over) == set(checks._ONLY_WITH) <= set(CHECKED)
    assert [one for slug in passed_over for one in check_of(slug)(well())] == []


def test_findings_carry_the_severity_of_their_rule() -> None:
    found = run_checks(with_part(well(), "batteries", "pack-24", fuse_a=None))
    assert [(one.rule, one.severity) for one in found] == [("fuse-missing", "warning")]


def test_a_hole_that_a_room_reported_is_not_reported_again() -> None:
    solved = with_result(well(), current_a=None)
    assert [one.rule for one in run_checks(solved)] == ["not-computed"]
    assert run_checks(solved, (Finding("not-computed", "rail A: no voltage is left", at="rail:A"),)) == ()


def test_not_computed_gives_way_to_the_rule_that_says_why() -> None:
    hole = Finding("not-computed", "module bare-8 states no driver resistance", at="module:bare-8")
    reason = Finding("missing-module-data", "module bare-8 states no driver", at="module:bare-8")
    other = Finding("not-computed", "rail B: no voltage is left", at="rail:B")
    assert without_echoes((hole, other, reason)) == (other, reason)


def test_a_reason_also_covers_what_it_names_beside_itself() -> None:
    hole = Finding("not-computed", "the feeds lead round", at="rail:B")
    ring = Finding("feed-cycle", "rail A feeds itself", at="rail:A", related=(Related("rail:B", "in the ring"),))
    assert without_echoes((hole, ring)) == (ring,)


def test_of_two_lists_of_missing_firing_data_the_full_one_stays() -> None:
    short = Finding("missing-firing-data", "no bridge", at="match:bare")
    full = Finding("missing-firing-data", "no bridge and impulse", at="match:bare")
    assert without_echoes((short, full)) == (full,)
