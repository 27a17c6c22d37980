"""Findings as SARIF 2.1.0 (OASIS, Static Analysis Results Interchange Format), as plain dictionaries.

Section numbers in this file are those of that standard. Columns are UTF-16 code units and the log says so
(`columnKind`, 3.14.17). Files are relative to the folder the command ran in (3.14.14, 3.4).
"""

from __future__ import annotations

import json
from typing import Any
from urllib.parse import quote

from compiler.checks import RULES, Rule
from compiler.reports.manual import markdown
from compiler.reports.told import Place, Told, inert, sentences
from grammar.findings import Finding, Span

_SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_BASE = "%SRCROOT%"

Json = dict[str, Any]


def document(told: Told) -> str:
    """The SARIF log as JSON text. Help texts are no message strings: they take no arguments, and stand as they are."""
    rules = RULES
    index = {rule.slug: number for number, rule in enumerate(rules)}
    run: Json = {
        "tool": {"driver": _driver(told, rules)},
        "columnKind": "utf16CodeUnits",
        "originalUriBaseIds": {_BASE: {"description": {"text": "the folder that the command ran in"}}},
        "results": [_result(told, finding, digest, index) for finding, digest in told.fingerprints()],
    }
    value = {"$schema": _SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(value, ensure_ascii=False, indent=1) + "\n"


def _driver(told: Told, rules: tuple[Rule, ...]) -> Json:
    driver: Json = {"name": "linstock", "rules": [_rule(rule) for rule in rules]}
    if told.version:
        driver["version"] = told.version
    return driver


def _rule(rule: Rule) -> Json:
    return {
        "id": rule.slug,
        "shortDescription": {"text": f"{rule.title}."},
        "help": {"text": rule.manual, "markdown": markdown(rule)},
        "defaultConfiguration": {"level": rule.severity},
        "properties": {"waivable": rule.waivable},
    }


def _result(told: Told, finding: Finding, digest: str, index: dict[str, int]) -> Json:
    result: Json = {
        "ruleId": finding.rule,
        "ruleIndex": index[finding.rule],
        "level": finding.severity,
        "message": {"text": _message(finding)},
        "locations": [_location(told, finding.at)],
        "partialFingerprints": {"linstockFinding/v1": digest},
    }
    related = [_location(told, one.at, one.word) for one in finding.related if told.place(one.at)]
    if related:
        result["relatedLocations"] = [{"id": number, **one} for number, one in enumerate(related, 1)]
    if finding.edit is not None and told.place(finding.edit.span):
        result["fixes"] = [_fix(told, finding)]
    if finding.waived_by is not None:
        result["suppressions"] = [{"kind": "inSource", "justification": _literal(finding.waived_by)}]
    return result


def _message(finding: Finding) -> str:
    return _literal("\n".join((finding.headline, *sentences(finding))), lines=True)


def _literal(text: str, *, lines: bool = False) -> str:
    """Text as a message string: inert, braces doubled (3.11.5), brackets that would read as a link escaped (3.11.6)."""
    parts = text.split("\n") if lines else [text]
    safe = "\n".join(map(inert, parts))
    return safe.replace("{", "{{").replace("}", "}}").replace("](", "\\](")


def _location(told: Told, at: Span | str | None, word: str = "") -> Json:
    place = told.place(at, utf16=True)
    location: Json = {}
    if place is not None:
        location["physicalLocation"] = {"artifactLocation": _artifact(place.path), "region": _region(place)}
    if word:
        location["message"] = {"text": _literal(word)}
    return location


def _artifact(path: str) -> Json:
    return {"uri": quote(path, errors="replace"), "uriBaseId": _BASE}


def _region(place: Place) -> Json:
    return {
        "startLine": place.line,
        "startColumn": place.column,
        "endLine": place.end_line,
        "endColumn": place.end_column,
    }


def _fix(told: Told, finding: Finding) -> Json:
    assert finding.edit is not None
    place = told.place(finding.edit.span, utf16=True)
    assert place is not None
    replacement = {"deletedRegion": _region(place), "insertedContent": {"text": finding.edit.text}}
    change = {"artifactLocation": _artifact(place.path), "replacements": [replacement]}
    return {"description": {"text": _literal(finding.hint or "Mend it.")}, "artifactChanges": [change]}
