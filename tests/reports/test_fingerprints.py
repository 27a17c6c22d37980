"""Fingerprints of findings stay when the text moves, and tell findings apart."""

from __future__ import annotations

from tests.reports.told import BAD, told_from


def _digests(text: str) -> list[str]:
    return [digest for _, digest in told_from(text).fingerprints()]


def test_a_fingerprint_stays_when_lines_are_added_above() -> None:
    assert _digests("# one\n\n\n# two\n" + BAD) == _digests(BAD)
    assert len(set(_digests(BAD))) == 4


def test_a_fingerprint_stays_when_the_line_is_indented_or_another_is_mended() -> None:
    assert _digests(BAD.replace("position Q2", "    position Q2")) == _digests(BAD)
    mended = BAD.replace("position Q1 at 5 m, 0 m\n", "")
    assert set(_digests(mended)) < set(_digests(BAD))


def test_two_findings_of_one_rule_in_one_line_are_two() -> None:
    twice = 'position Q1 at 0 m, 0 m\ncue 1 at 0:05.0 shel-75, shel-75 at Q1 "Two"\ncue 2 at 0:09.0 shel-75 at Q1\n'
    assert len(set(_digests(twice))) == len(_digests(twice)) >= 2
