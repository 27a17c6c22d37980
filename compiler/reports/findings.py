"""Findings as JSON: a published shape of its own, described by `findings.schema.json`.

Texts are given as they stand in the show; whoever prints them has to make them harmless.
"""

from __future__ import annotations

import json
from pathlib import Path

from compiler.plan.numbers import plain
from compiler.reports.told import Told
from grammar.findings import Finding, Span

FORMAT_VERSION = 1

Json = dict[str, object]


def document(told: Told) -> str:
    """The JSON text."""
    value: Json = {
        "format_version": FORMAT_VERSION,
        "tool": {"name": "linstock", "version": told.version or None},
        "show": told.path(told.main),
        "facts": dict(told.facts),
        "counts": told.counts(),
        "fail_on": told.fail_on,
        "failed": any(map(told.fails, told.findings)),
        "findings": [_finding(told, finding, digest) for finding, digest in told.fingerprints()],
    }
    return json.dumps(value, ensure_ascii=False, indent=1) + "\n"


def schema_text() -> str:
    """The JSON Schema of the document."""
    return Path(__file__).with_name("findings.schema.json").read_text(encoding="utf-8")


def _finding(told: Told, finding: Finding, digest: str) -> Json:
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "subject": finding.subject,
        "role": finding.role,
        "headline": finding.headline,
        "working": finding.working,
        "detail": finding.detail,
        "hint": finding.hint,
        "values": plain(finding.values),
        "waived_by": finding.waived_by,
        "fingerprint": digest,
        "place": _place(told, finding.at),
        "related": [{"word": one.word, "place": _place(told, one.at)} for one in finding.related],
        "edit": finding.edit and {"place": _place(told, finding.edit.span), "text": finding.edit.text},
    }


def _place(told: Told, at: Span | str | None) -> Json | None:
    place = told.place(at)
    return None if place is None else {"file": place.path, **{k: v for k, v in place._asdict().items() if k != "path"}}
