"""Annotations: one line a finding, and no text of a show starts a command of its own."""

from __future__ import annotations

import re

import pytest

from compiler.reports import rendered
from compiler.reports.annotations import azure, github, gnu, renderer, teamcity
from grammar.findings import Finding
from tests.reports.told import hostile, span, told_of

TOLD = told_of(
    "one\ntwo bad\n",
    Finding("unknown-name", "no [bad]; 5 %, 'a|b': x", span(8, 11), hint="Write good."),
    folder="my,shows",
)


def test_workflow_commands_are_escaped_as_the_service_wants_it() -> None:
    assert github(TOLD) == (
        "::error title=unknown-name,file=my%2Cshows/main.show,line=2,endLine=2,col=5,endColumn=8::"
        "no [bad]; 5 %25, 'a|b': x%0AWrite good.\n"
    )


def test_a_stretch_of_several_lines_names_no_columns() -> None:
    assert ",line=1,endLine=2::" in github(told_of("one\ntwo\n", Finding("unknown-name", "x", span(0, 7))))


def test_logging_commands_are_escaped_as_the_service_wants_it() -> None:
    assert azure(TOLD) == (
        "##vso[task.logissue type=error;sourcepath=my,shows/main.show;linenumber=2;columnnumber=5;code=unknown-name]"
        "no [bad%5D%3B 5 %AZP25, 'a|b': x%0AWrite good.\n"
    )


def test_service_messages_are_escaped_as_the_service_wants_it() -> None:
    kind, message = teamcity(TOLD).splitlines()
    assert kind.startswith("##teamcity[inspectionType id='unknown-name' ")
    assert message == (
        "##teamcity[inspection typeId='unknown-name' message='no |[bad|]; 5 %, |'a||b|': x|nWrite good.' "
        "file='my,shows/main.show' line='2' SEVERITY='ERROR']"
    )


def test_the_plain_form_is_one_line_a_finding() -> None:
    assert gnu(TOLD) == "my,shows/main.show:2:5: error: no [bad]; 5 %, 'a|b': x [unknown-name]\n"


@pytest.mark.parametrize(
    ("form", "start"),
    [("github", "::"), ("azure", "##vso["), ("teamcity", "##teamcity["), ("gnu", "a ")],
)
def test_hostile_text_makes_no_line_and_no_command(form: str, start: str) -> None:
    text = rendered(f"annotations-{form}", hostile())
    lines = text.splitlines()
    assert text.isascii() or all(character.isprintable() or character == "\n" for character in text)
    assert len(lines) == (3 if form == "teamcity" else 2)
    assert all(line.startswith(start) for line in lines)
    if form == "azure":
        assert all(len(re.findall(r"[^%]\]", line)) == 1 for line in lines)


def test_what_somebody_answers_for_is_only_noted() -> None:
    first, second = github(hostile()).splitlines()
    assert (first[:8], second[:9]) == ("::error ", "::notice ")


@pytest.mark.parametrize(
    ("surroundings", "chosen"),
    [
        ({}, gnu),
        ({"GITHUB_ACTIONS": "true"}, github),
        ({"TF_BUILD": "True"}, azure),
        ({"TEAMCITY_VERSION": "2026.1"}, teamcity),
        ({"GITHUB_ACTIONS": "false"}, gnu),
    ],
)
def test_the_service_is_known_by_the_variable_that_it_sets(surroundings: dict[str, str], chosen: object) -> None:
    assert renderer(surroundings) is chosen
