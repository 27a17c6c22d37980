"""JUnit: one case a rule; what fails the run fails its case, and nothing else does."""

from __future__ import annotations

from xml.etree import ElementTree as ET
from xml.etree.ElementTree import Element

from compiler.checks import RULES
from compiler.reports import rendered
from compiler.reports.told import Told
from tests.reports.told import BAD, hostile, told_from

SAME = "position Q1 at 0 m, 0 m\nposition Q2 at 0 m, 0 m\n"


def _suite(told: Told) -> Element:
    root = ET.fromstring(rendered("junit", told).encode("utf-8"))
    (suite,) = root
    assert (root.tag, suite.tag) == ("testsuites", "testsuite")
    assert int(suite.attrib["tests"]) == len(suite.findall("testcase"))
    assert int(suite.attrib["failures"]) == len(suite.findall("testcase/failure")) == int(root.attrib["failures"])
    return suite


def _failed(suite: Element) -> set[str]:
    return {case.attrib["name"] for case in suite if case.find("failure") is not None}


def test_each_rule_is_one_case_and_the_broken_ones_fail() -> None:
    told = told_from(BAD)
    suite = _suite(told)
    assert [case.attrib["name"] for case in suite] == [rule.slug for rule in RULES]
    assert _failed(suite) == {finding.rule for finding in told.findings}
    case = next(case for case in suite if case.attrib["name"] == "duplicate-name")
    failure = case.find("failure")
    assert failure is not None
    assert failure.attrib["message"] == "the position `Q1` exists already"
    assert "shows/main.show:2:10: error: the position `Q1` exists already\n  Give this one another name." in str(
        failure.text
    )


def test_the_failing_severity_decides_what_fails() -> None:
    assert _failed(_suite(told_from(SAME))) == set()
    assert _failed(_suite(told_from(SAME, fail_on="warning"))) == {"same-place"}
    case = next(case for case in _suite(told_from(SAME)) if case.attrib["name"] == "same-place")
    assert "warning: " in str(case.findtext("system-out"))


def test_several_findings_of_a_rule_stand_in_one_failure() -> None:
    told = told_from("spam 1\neggs 2\nham 3\n")
    failure = next(case for case in _suite(told) if case.attrib["name"] == "unknown-statement").find("failure")
    assert failure is not None
    assert failure.attrib["message"].endswith("(and 2 more)")
    assert str(failure.text).count("main.show:") == 3


def test_hostile_text_is_text() -> None:
    told = hostile()
    suite = _suite(told)
    case = next(case for case in suite if case.attrib["name"] == "unknown-name")
    assert [child.tag for child in case] == ["failure", "system-out"]
    said = "".join(str(child.text) for child in case)
    assert all(character.isprintable() or character == "\n" for character in said)
    assert "<b>&" in said
    assert "waived by" in said
