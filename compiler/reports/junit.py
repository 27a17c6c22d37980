"""Findings as JUnit XML: one test case a rule, so that a CI service shows which rules hold.

A rule fails where one of its findings fails the run; findings that don't stand in its output.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from compiler.checks import RULES, Rule
from compiler.reports.told import Told, inert, sentences
from grammar.findings import Finding


def document(told: Told) -> str:
    """The XML text. It names no time and no machine."""
    by_rule: dict[str, list[Finding]] = defaultdict(list)
    for finding in told.findings:
        by_rule[finding.rule].append(finding)
    failed = sum(any(map(told.fails, found)) for found in by_rule.values())
    counts = {"tests": str(len(RULES)), "failures": str(failed), "errors": "0"}
    root = Element("testsuites", {"name": "linstock", **counts})
    suite = SubElement(root, "testsuite", {"name": _safe(told.path(told.main)), **counts, "skipped": "0"})
    for rule in RULES:
        _case(suite, told, rule, by_rule.get(rule.slug, []))
    indent(root, " ")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{tostring(root, encoding="unicode")}\n'


def _case(suite: Element, told: Told, rule: Rule, found: list[Finding]) -> None:
    case = SubElement(suite, "testcase", {"classname": f"linstock.{rule.severity}", "name": rule.slug})
    failing = [finding for finding in found if told.fails(finding)]
    if failing:
        more = f" (and {len(failing) - 1} more)" if len(failing) > 1 else ""
        said = {"type": failing[0].severity, "message": _safe(failing[0].headline) + more}
        SubElement(case, "failure", said).text = _text(told, failing)
    rest = [finding for finding in found if not told.fails(finding)]
    if rest:
        SubElement(case, "system-out").text = _text(told, rest)


def _text(told: Told, findings: Iterable[Finding]) -> str:
    return "\n".join(line for finding in findings for line in _lines(told, finding))


def _lines(told: Told, finding: Finding) -> list[str]:
    place = told.place(finding.at)
    where = f"{_safe(place.path)}:{place.line}:{place.column}: " if place else ""
    waived = f" (waived by {_safe(finding.waived_by)})" if finding.waived_by is not None else ""
    head = f"{where}{finding.severity}: {_safe(finding.headline)}{waived}"
    return [head, *(f"  {_safe(sentence)}" for sentence in sentences(finding))]


def _safe(text: str) -> str:
    """Inert text that XML 1.0 can hold: no control character, no lone surrogate, none of the two noncharacters."""
    return inert(text)
