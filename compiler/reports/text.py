"""Findings as text for a terminal or a CI log: what, where, why, and what to do next."""

from __future__ import annotations

import posixpath
import unicodedata
from collections.abc import Callable, Iterable, Iterator, Mapping

from grammar.findings import Finding, Span
from grammar.source import Source

Style = Callable[[str, str], str]
"""Colours a text by a role: ``error``, ``warning``, ``note``, ``quiet`` or ``mend``."""


def plain(text: str, role: str) -> str:
    """No colour."""
    del role
    return text


def render(
    findings: Iterable[Finding], sources: Mapping[str, Source], folder: str = "", style: Style = plain
) -> str:
    """All findings, each with its source line and the place underlined; places are spans.

    `folder` is put before file names, so that a terminal can open them from where it is.
    """
    return "".join("\n".join(_one(f, sources, folder, style)) + "\n\n" for f in findings)


def _one(finding: Finding, sources: Mapping[str, Source], folder: str, style: Style) -> Iterator[str]:
    head = style(f"{finding.severity}[{finding.rule}]", finding.severity)
    yield f"{head} {inert(finding.headline)}"
    if isinstance(finding.at, Span):
        yield from _excerpt(finding.at, sources, folder, style)
    if finding.working:
        yield f"  {inert(finding.working)}"
    if finding.detail:
        yield f"  {inert(finding.detail)}"
    if finding.hint:
        yield "  " + style(f"→ {inert(finding.hint)}", "mend")
    for related in finding.related:
        if isinstance(related.at, Span):
            yield style(f"  {_where(related.at, sources, folder)}: {inert(related.word)}", "quiet")


def _where(span: Span, sources: Mapping[str, Source], folder: str) -> str:
    line, column = sources[span.file].line_column(span.start)
    name = span.file if span.file.startswith("built-in/") else posixpath.join(folder, span.file)
    return f"{inert(name)}:{line}:{column}"


def _excerpt(span: Span, sources: Mapping[str, Source], folder: str, style: Style) -> Iterator[str]:
    source = sources[span.file]
    number, column = source.line_column(span.start)
    text = source.line(number)
    yield style(f"  {_where(span, sources, folder)}", "quiet")
    if not text.strip():
        return
    before, marked = text[: column - 1], text[column - 1 : column - 1 + max(1, span.end - span.start)]
    cut = max(0, _width(before) - 90)
    shown = inert(text.replace("\t", " "))[cut : cut + 160]
    gutter = f"{number:>6} │ "
    yield style(gutter, "quiet") + shown
    pad = " " * (len(gutter) + _width(before) - cut)
    yield pad + style("‾" * max(1, min(_width(marked), 160)), "mend")


def _width(text: str) -> int:
    """Columns that a text takes in a terminal."""
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


def inert(text: str) -> str:
    """Text from a show cannot move the cursor or turn the reading direction."""
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else "�" for c in text)


def summary(findings: Iterable[Finding]) -> str:
    """``2 errors, 1 warning``, or ``clean``; notes are counted too."""
    counts: dict[str, int] = {}
    for finding in findings:
        counts[finding.severity] = counts.get(finding.severity, 0) + 1
    words = [
        f"{counts[severity]} {severity}{'s' if counts[severity] > 1 else ''}"
        for severity in ("error", "warning", "note")
        if severity in counts
    ]
    return ", ".join(words) if words else "clean"
