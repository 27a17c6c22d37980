"""Sample shows: what each must find stands as a comment on the offending line, and nothing else.

``# expect: slug`` or ``# expect: slug, slug`` on a line. Errors and warnings that are missing and
those that are unexpected both fail; notes count only where a line expects one.
A show that can't be read is a folder here; what it must find stands in its file ``expected``.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from compiler.checks import CHECKED, RAISED, severity_of
from compiler.compile import compile_show, solve

SAMPLES = Path(__file__).parent / "samples"
_EXPECT = re.compile(r"#\s*expect:\s*([a-z0-9-]+(?:,\s*[a-z0-9-]+)*)")

Places = list[tuple[int, str]]  # line, rule


def expected(path: Path) -> Places:
    """What the comments of a sample expect."""
    path = path / "expected" if path.is_dir() else path
    lines = path.read_bytes().decode("utf-8", "replace").split("\n")
    return [
        (number, slug.strip())
        for number, line in enumerate(lines, 1)
        for found in [_EXPECT.search(line)]
        if found
        for slug in found[1].split(",")
    ]


def reported(path: Path, wanted: set[str]) -> Places:
    """Errors and warnings of a sample that nobody waived, and notes that it waits for, by line."""
    compiled = solve(path)
    return [
        (int(str(compiled.places.place(finding)["line"])), finding.rule)
        for finding in compiled.findings
        if finding.waived_by is None and (finding.severity != "note" or finding.rule in wanted)
    ]


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*.show")), ids=lambda path: path.stem)
def test_a_sample_gives_exactly_the_findings_it_expects(path: Path) -> None:
    wanted = expected(path)
    assert sorted(reported(path, {slug for _, slug in wanted})) == sorted(wanted)


@pytest.mark.parametrize("slug", RAISED + CHECKED)
def test_the_breaking_sample_expects_its_rule_and_no_other(slug: str) -> None:
    assert {rule for _, rule in expected(SAMPLES / f"{slug}-breaks.show")} == {slug}


@pytest.mark.parametrize("slug", RAISED + CHECKED)
def test_the_keeping_sample_expects_nothing(slug: str) -> None:
    assert expected(SAMPLES / f"{slug}-keeps.show") == []


@pytest.mark.parametrize("slug", RAISED + CHECKED)
def test_a_broken_sample_still_gives_a_plan_that_carries_the_finding(slug: str) -> None:
    plan, findings = compile_show(SAMPLES / f"{slug}-breaks.show")
    carried = [one for one in plan["findings"] if one["rule"] == slug]
    assert carried
    assert all(one["severity"] == severity_of(slug) for one in carried)
    assert slug in {finding.rule for finding in findings}
