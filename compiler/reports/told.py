"""What every report is made of: the findings of one run, and their places as people and tools count them."""

from __future__ import annotations

import posixpath
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from grammar.findings import Finding, Span
from grammar.source import Source

SEVERITIES = ("error", "warning", "note")

Style = Callable[[str, str], str]
"""Colours a text by a role: ``error``, ``warning``, ``note``, ``quiet``, ``mend`` or ``heading``."""


def plain(text: str, role: str) -> str:
    """No colour."""
    del role
    return text


class Place(NamedTuple):
    """A stretch of a file: path with slashes, lines and columns from 1, the end column behind the last character."""

    path: str
    line: int
    column: int
    end_line: int
    end_column: int


@dataclass(frozen=True, slots=True)
class Told:
    """One run's findings, every place a span.

    `folder`   the show's folder seen from where the command runs, with slashes; empty: the same.
    `main`     the show's file, relative to its folder.
    `facts`    counts that the summary begins with: ``{"cue": 11, "circuit": 14, "rail": 1}``.
    `fail_on`  the least severity that fails the run.
    `version`  of the compiler; empty where it is not installed.
    """

    findings: tuple[Finding, ...]
    sources: Mapping[str, Source]
    main: str
    folder: str = ""
    facts: Mapping[str, int] = field(default_factory=dict)
    fail_on: str = "error"
    version: str = ""

    def path(self, file: str) -> str:
        """A file's path as seen from where the command runs; never absolute."""
        return file if file.startswith("built-in/") else posixpath.join(self.folder, file)

    def place(self, span: Span | str | None, *, utf16: bool = False) -> Place | None:
        """Where a span is. Columns count code points, or UTF-16 code units where asked. None: no such file."""
        source = self.sources.get(span.file) if isinstance(span, Span) else None
        if source is None or not isinstance(span, Span):
            return None
        line, column = source.line_column(span.start)
        end_line, end_column = source.line_column(max(span.start, span.end))
        if utf16:
            column = _utf16(source.line(line), column)
            end_column = _utf16(source.line(end_line), end_column)
        return Place(self.path(span.file), line, column, end_line, end_column)

    def fails(self, finding: Finding) -> bool:
        """True if this finding makes the run fail: severe enough, and nobody answers for it."""
        failing = SEVERITIES[: SEVERITIES.index(self.fail_on) + 1]
        return finding.severity in failing and finding.waived_by is None

    def counts(self) -> dict[str, int]:
        """How many findings of each severity."""
        seen = Counter(finding.severity for finding in self.findings)
        return {severity: seen[severity] for severity in SEVERITIES}

    def fingerprints(self) -> Iterator[tuple[Finding, str]]:
        """Every finding with a short digest that stays when lines are added above it.

        It counts rule, file, and the subject or else the line's own text; equal ones are numbered.
        """
        import hashlib

        seen: Counter[str] = Counter()
        for finding in self.findings:
            key = "\0".join((finding.rule, *self._stable(finding)))
            seen[key] += 1
            text = f"{key}\0{seen[key]}"
            yield finding, hashlib.sha256(text.encode("utf-8", "replace")).hexdigest()[:32]

    def _stable(self, finding: Finding) -> tuple[str, str]:
        source = self.sources.get(finding.at.file) if isinstance(finding.at, Span) else None
        if source is None or not isinstance(finding.at, Span):
            return "", finding.subject or finding.headline
        if finding.subject:
            return source.name, f"{finding.subject} {finding.role}"
        return source.name, source.line(source.line_column(finding.at.start)[0]).strip()


def _utf16(line: str, column: int) -> int:
    """A column in code points as one in UTF-16 code units."""
    return column + sum(character > "\uffff" for character in line[: column - 1])


def inert(text: str) -> str:
    """Text from a show cannot move the cursor, end a line or turn the reading direction."""
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else "�" for c in text)


def sentences(finding: Finding) -> list[str]:
    """Working, detail and hint, inert, those that say something."""
    return [inert(part) for part in (finding.working, finding.detail, finding.hint) if part]
