"""What the tests of the reports share: runs told from text."""

from __future__ import annotations

from compiler.model.values import replace
from compiler.reports.told import Told
from grammar.findings import Edit, Finding, Related, Span
from grammar.source import Source
from tests.shows import compiled

BAD = """position Q1 at 0 m, 0 m
position Q1 at 5 m, 0 m
cue 1 at 0:05.0 shel-75 at Q1 "Maroon
position Q2 at 9 m, 0 m }
"""
"""Four slips: one with a related place, two with an edit."""


def told_from(text: str, fail_on: str = "error", folder: str = "shows", **files: str) -> Told:
    """A run on a text as `main.show`."""
    result = compiled(text, **files)
    return Told(result.findings, result.places.sources, result.places.main, folder, {"cue": 1}, fail_on, "1.2")


def told_of(text: str, *findings: Finding, folder: str = "") -> Told:
    """Findings made by hand, about one file `main.show`."""
    made = tuple(replace(finding, severity=finding.severity or "error") for finding in findings)
    return Told(made, {"main.show": Source("main.show", text)}, "main.show", folder, fail_on="error", version="1.2")


def span(start: int, end: int) -> Span:
    """A stretch of `main.show`."""
    return Span("main.show", start, end)


HOSTILE = "]]>\x1b[31m\u202e<b>&\x00\ud800;]|'\"\n::error::x\r##vso[x]%0A,:{0}[a](b)\u2028"
"""Text that means something to terminals, XML, Markdown and every service's log format."""


def hostile() -> Told:
    """One finding all of whose texts are hostile, in a file of a hostile name."""
    name = f"a {HOSTILE}.show"
    at = Span(name, 0, 4)
    finding = Finding(
        "unknown-name", HOSTILE, at, subject=HOSTILE, values={"text": HOSTILE}, working=HOSTILE, detail=HOSTILE,
        hint=HOSTILE, related=(Related(at, HOSTILE),), edit=Edit(at, HOSTILE), severity="error", waived_by=None,
    )  # fmt: skip
    waived = replace(finding, waived_by=HOSTILE)
    source = Source(name, HOSTILE)
    return Told((finding, waived), {name: source}, name, "", {"cue": 1}, "error", "1.2")
