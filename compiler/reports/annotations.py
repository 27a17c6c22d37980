"""Findings as lines that CI services read from standard output and show beside the changed lines.

The formats are those that the services publish: workflow commands (``::error``), logging commands
(``##vso``), service messages (``##teamcity``); and the GNU coding standards' ``file:line:column:``, which
many services and editors read.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from compiler.reports.told import Place, Told, inert, sentences
from grammar.findings import Finding

_WORKFLOW = {"error": "error", "warning": "warning", "note": "notice"}
_SERVICE = {"error": "ERROR", "warning": "WARNING", "note": "WEAK WARNING"}


def by_surroundings(told: Told) -> str:
    """The format of the service that the command runs in, told by the variable that it sets; else GNU's."""
    return renderer(os.environ)(told)


def renderer(surroundings: Mapping[str, str]) -> Callable[[Told], str]:
    """The renderer for a process environment."""
    if surroundings.get("GITHUB_ACTIONS") == "true":
        return github
    if surroundings.get("TF_BUILD", "").casefold() == "true":
        return azure
    return teamcity if surroundings.get("TEAMCITY_VERSION") else gnu


def github(told: Told) -> str:
    """Workflow commands, which several services share: ``::error file=…,line=…::message``."""
    return _joined(_workflow(finding, place) for finding, place in _placed(told))


def _workflow(finding: Finding, place: Place) -> str:
    columns = {"col": place.column, "endColumn": place.end_column} if place.line == place.end_line else {}
    said = {"title": finding.rule, "file": place.path, "line": place.line, "endLine": place.end_line, **columns}
    properties = ",".join(f"{key}={_escaped(str(value), _PROPERTY)}" for key, value in said.items())
    return f"::{_WORKFLOW[finding.severity]} {properties}::{_escaped(_message(finding), _DATA)}"


def azure(told: Told) -> str:
    """Logging commands: ``##vso[task.logissue …]message``; a note is a warning there."""
    return _joined(_logging(finding, place) for finding, place in _placed(told))


def _logging(finding: Finding, place: Place) -> str:
    kind = "error" if finding.severity == "error" else "warning"
    said = {
        "type": kind,
        "sourcepath": place.path,
        "linenumber": place.line,
        "columnnumber": place.column,
        "code": finding.rule,
    }
    properties = ";".join(f"{key}={_escaped(str(value), _VSO)}" for key, value in said.items())
    return f"##vso[task.logissue {properties}]{_escaped(_message(finding), _VSO)}"


def teamcity(told: Told) -> str:
    """Service messages: an inspection type for each rule that found something, then the inspections."""
    return _joined(_service(told))


def _service(told: Told) -> Iterator[str]:
    for rule in dict.fromkeys(finding.rule for finding in told.findings):
        yield _service_message("inspectionType", id=rule, name=rule, description=rule, category="linstock")
    for finding, place in _placed(told):
        yield _service_message(
            "inspection", typeId=finding.rule, message=_message(finding), file=place.path, line=str(place.line),
            SEVERITY=_SERVICE[finding.severity],
        )  # fmt: skip


def _service_message(kind: str, /, **values: str) -> str:
    said = " ".join(f"{key}='{_escaped(value, _SERVICE_VALUE)}'" for key, value in values.items())
    return f"##teamcity[{kind} {said}]"


def gnu(told: Told) -> str:
    """One line a finding: ``show.show:12:5: error: headline [rule]``."""
    return _joined(
        f"{place.path}:{place.line}:{place.column}: {finding.severity}: {inert(finding.headline)} [{finding.rule}]"
        for finding, place in _placed(told)
    )


def _placed(told: Told) -> Iterator[tuple[Finding, Place]]:
    """Findings with a place; what somebody answers for is no more than a note."""
    for finding in told.findings:
        place = told.place(finding.at) or Place(told.path(told.main), 1, 1, 1, 1)
        shown = finding if finding.waived_by is None else replace(finding, severity="note")
        yield shown, place._replace(path=inert(place.path))


def _message(finding: Finding) -> str:
    """Headline and sentences on lines of their own; only these line ends are ours."""
    return "\n".join((inert(finding.headline), *sentences(finding)))


def _joined(lines: Iterator[str]) -> str:
    return "".join(f"{line}\n" for line in lines)


def _escaped(text: str, table: Mapping[int, str]) -> str:
    return text.translate(table)


_DATA = str.maketrans({"%": "%25", "\r": "%0D", "\n": "%0A"})
_PROPERTY = str.maketrans({"%": "%25", "\r": "%0D", "\n": "%0A", ":": "%3A", ",": "%2C"})
_VSO = str.maketrans({"%": "%AZP25", "\r": "%0D", "\n": "%0A", "]": "%5D", ";": "%3B"})
_SERVICE_VALUE = str.maketrans(
    {"|": "||", "'": "|'", "\n": "|n", "\r": "|r", "[": "|[", "]": "|]", "\u0085": "|x", "\u2028": "|l", "\u2029": "|p"}
)
