"""Findings as text for a terminal or a CI log: what, where, why, and what to do next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from compiler.reports.excerpt import SourceLines
from compiler.reports.told import Style, Told, inert, plain
from grammar.findings import Edit, Finding, Span
from grammar.source import Source

__all__ = ["Style", "document", "inert", "plain", "render", "summary"]

_MOST_RELATED = 6
_LONGEST_PASTE = 3  # lines of a mend that are shown


def document(told: Told, style: Style = plain) -> str:
    """All findings and the line that counts them."""
    return _all(told, style) + _facts(told.facts) + summary(told.findings) + "\n"


def render(findings: Iterable[Finding], sources: Mapping[str, Source], folder: str = "", style: Style = plain) -> str:
    """All findings, each with its source line and the place underlined; places are spans.

    `folder` is put before file names, so that a terminal can open them from where it is.
    """
    return _all(Told(tuple(findings), sources, next(iter(sources), ""), folder), style)


def _all(told: Told, style: Style) -> str:
    return "".join("\n".join(_one(finding, told, style)) + "\n\n" for finding in told.findings)


def _one(finding: Finding, told: Told, style: Style) -> Iterator[str]:
    waived = "" if finding.waived_by is None else f" (waived by {inert(finding.waived_by)})"
    head = style(f"{finding.severity}[{finding.rule}]{waived}", finding.severity if not waived else "quiet")
    yield f"{head} {inert(finding.headline)}"
    yield from _excerpt(finding.at, told, style)
    for sentence in (finding.working, finding.detail):
        if sentence:
            yield f"  {inert(sentence)}"
    if finding.hint:
        yield "  " + style(f"→ {inert(finding.hint)}", "mend")
    if finding.edit is not None and not _holds(finding.hint, finding.edit):
        yield from _mended(finding.edit, told, style)
    told_once = list(dict.fromkeys(finding.related))
    for related in told_once[:_MOST_RELATED]:
        yield from _excerpt(related.at, told, style, related.word, most=1)
    if len(told_once) > _MOST_RELATED:
        yield style(f"  and {len(told_once) - _MOST_RELATED} more places", "quiet")


def _excerpt(at: Span | str | None, told: Told, style: Style, word: str = "", most: int = 3) -> Iterator[str]:
    place = told.place(at)
    if place is None or not isinstance(at, Span):
        return
    said = f": {inert(word)}" if word else ""
    yield style(f"  {inert(place.path)}:{place.line}:{place.column}{said}", "quiet")
    yield from SourceLines(told.sources[at.file]).underlined(at, style, most)


def _holds(hint: str, edit: Edit) -> bool:
    """True if the hint already holds the text to paste."""
    return bool(edit.text.strip()) and edit.text.strip() in hint


def _mended(edit: Edit, told: Told, style: Style) -> Iterator[str]:
    source = told.sources.get(edit.span.file)
    if source is not None:
        yield from SourceLines(source).mended(edit, style, _LONGEST_PASTE)


def _facts(facts: Mapping[str, int]) -> str:
    said = ", ".join(_counted(count, word) for word, count in facts.items())
    return f"{said}: " if said else ""


def _counted(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


def summary(findings: Iterable[Finding]) -> str:
    """``2 errors, 1 warning``, or ``clean``; notes are counted too, waived findings apart."""
    counts: dict[str, int] = {}
    for finding in findings:
        kind = finding.severity if finding.waived_by is None else "waived"
        counts[kind] = counts.get(kind, 0) + 1
    words = [_counted(counts[kind], kind) for kind in ("error", "warning", "note") if kind in counts]
    if "waived" in counts:
        words.append(f"{counts['waived']} waived")
    return ", ".join(words) if words else "clean"
