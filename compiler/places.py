"""Places last: findings name entities, and only here is it looked up where those were said."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from compiler.expand.book import Book
from compiler.model.values import replace
from grammar.findings import Finding, Related, Span
from grammar.source import Source

_ECHOES = frozenset(("match-unwired", "never-fired", "cue-unwired", "no-free-channel"))
"""Rules that a name in a broken statement sets off: the slip itself is reported, the echo is not."""


@dataclass(frozen=True, slots=True)
class Places:
    """Sources and places of one compiled show."""

    book: Book
    sources: Mapping[str, Source]
    main: str

    def span(self, finding: Finding) -> Span:
        """Where a finding is: its own span, its entity's, or the start of the show."""
        span = self._span(finding.at, finding.role)
        return span if span is not None and span.file in self.sources else Span(self.main, 0, 0)

    def _span(self, at: Span | str | None, role: str = "") -> Span | None:
        if isinstance(at, Span):
            return at
        return None if at is None else self.book.place(at, role)

    def place(self, finding: Finding) -> dict[str, object]:
        """The place of a finding as a person counts it."""
        span = self.span(finding)
        return self.sources[span.file].place(span)

    def settled(self, findings: Iterable[Finding]) -> tuple[Finding, ...]:
        """Without echoes and repeats, every place a span, in order of file and place."""
        seen: set[tuple[object, ...]] = set()
        kept: list[Finding] = []
        for finding in findings:
            if self._echo(finding):
                continue
            placed = replace(
                finding, at=self.span(finding), subject=finding.subject or _subject(finding.at),
                related=(*self._related(finding), *self._origin(finding)),
            )  # fmt: skip
            key = (placed.rule, placed.at, placed.headline)
            if key not in seen:
                seen.add(key)
                kept.append(placed)
        order = {name: index for index, name in enumerate(self.sources)}
        kept.sort(key=lambda f: (order.get(self.span(f).file, len(order)), self.span(f).start, f.rule))
        return tuple(kept)

    def _origin(self, finding: Finding) -> tuple[Related, ...]:
        return self.book.origins.get(finding.at, ()) if isinstance(finding.at, str) else ()

    def _related(self, finding: Finding) -> Iterable[Related]:
        for related in finding.related:
            span = self._span(related.at)
            if span is not None:
                yield Related(span, related.word)

    def _echo(self, finding: Finding) -> bool:
        if self.book.no_lead and finding.rule in ("missing-property", "not-computed") and isinstance(finding.at, str):
            return True
        if finding.rule not in _ECHOES or not isinstance(finding.at, str):
            return False
        if any(slip.rule == "nested-too-deep" for slip in self.book.findings):
            return True  # what was left out may have named it
        if self.book.unread:
            return True
        if finding.rule == "no-free-channel":
            place = str(finding.values.get("place", ""))
            if self.book.unserved_all or place in self.book.unserved:
                return True
        name = finding.at.partition(":")[2]
        touched = self.book.touched
        return name in touched or any(other.split("..")[0].startswith(f"{name}.") for other in touched)


def _subject(at: Span | str | None) -> str:
    if not isinstance(at, str):
        return ""
    kind, _, name = at.partition(":")
    return f"{kind} {name}".strip()
