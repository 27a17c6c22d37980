"""`explain`: every manual page set for a terminal, and the list of all rules."""

from __future__ import annotations

from textwrap import indent

import pytest
from click.testing import CliRunner

from compiler.checks import HEADINGS, RULES, Rule
from compiler.cli import main
from compiler.reports.manual import WIDTH, markdown, page, sections


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.slug)
def test_a_page_holds_every_word_of_the_manual_in_lines_that_fit(rule: Rule) -> None:
    text = page(rule)
    assert "".join(rule.manual.split()) in "".join(text.split())
    prose = text.partition(f"\n{HEADINGS[3]}\n")[0]
    assert max(map(len, prose.splitlines())) <= WIDTH
    assert text.startswith(f"{rule.slug} ({rule.severity}; ")


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.slug)
def test_examples_stand_as_they_are_written(rule: Rule) -> None:
    bodies = dict(sections(rule.manual))
    assert list(bodies)[1:] == list(HEADINGS)
    for heading in HEADINGS[3:]:
        tail = page(rule).partition(f"\n{heading}\n")[2]
        assert tail.startswith(indent(bodies[heading], "    "))
        assert f"## {heading}\n\n```show\n{bodies[heading]}\n```" in markdown(rule)


def test_the_list_names_every_rule_once_with_severity_and_title() -> None:
    result = CliRunner().invoke(main, ["explain", "--all"])
    lines = result.output.splitlines()
    assert lines == sorted(lines)
    assert {line.split()[0] for line in lines} == {rule.slug for rule in RULES}
    assert len(lines) == len(RULES)
    by_slug = {line.split()[0]: line for line in lines}
    assert all(by_slug[rule.slug].endswith(f"  {rule.title}") for rule in RULES)
    assert all(by_slug[rule.slug].split()[1] == rule.severity for rule in RULES)


def test_headings_are_bold_where_colours_are_wanted() -> None:
    result = CliRunner().invoke(main, ["explain", "firing-current", "--color", "always"], color=True)
    assert "\x1b[1mProtects from\x1b[0m" in result.output
    assert "\x1b" not in CliRunner().invoke(main, ["explain", "firing-current"], color=True).output
