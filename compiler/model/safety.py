"""What keeps people safe: crowd lines, zones, holds, weather, what is out, what is waived."""

from __future__ import annotations

from typing import Any

from compiler.expand.book import Book, Decl
from compiler.expand.when import Clockwork
from compiler.model.types import CrowdLine, Hold, Place, Waiver, Wind, Zone
from compiler.vocabulary.forms import Record
from compiler.vocabulary.names import Name
from grammar.findings import Finding, Span


class Safety:
    """Declarations that are about people more than about power."""

    def __init__(self, book: Book, clockwork: Clockwork) -> None:
        self.book = book
        self.clockwork = clockwork
        self.crowds = {d.name: c for d in _all(book, "crowd") if (c := _crowd(d)) is not None}
        self.firing_points = {d.name: p for d in _all(book, "firing-point") if (p := place_of(d)) is not None}
        self.roles = self._roles()
        self.zones = {d.name: z for d in _all(book, "zone") if (z := self._zone(d)) is not None}
        self.holds = tuple(h for d in _all(book, "hold") if (h := self._hold(d)) is not None)
        self.winds = tuple(wind for decl in book.singles.get("weather", ()) for wind in _winds(decl.record))

    def _roles(self) -> tuple[str, ...]:
        named = [decl.name for decl in _all(self.book, "role")]
        for decl in _all(self.book, "zone"):
            names: tuple[Name, ...] | None = decl.record.get("role")
            named.extend(name.text for name in names or ())
        return tuple(sorted(set(named)))

    def _zone(self, decl: Decl) -> Zone | None:
        names: tuple[Name, ...] | None = decl.record.get("rails")
        if not names:
            return None
        found = [name for name in names if self.book.find(("rail",), name) is not None]
        if len(found) < len(names):
            return None
        role: tuple[Name, ...] | None = decl.record.get("role")
        armed = None
        if "armed" in decl.record.values:
            when = self.clockwork.by_clock(decl.record, "armed")
            armed = when.seen_s if when is not None else None
        return Zone(decl.name, tuple(name.text for name in found), role[0].text if role else None, armed)

    def _hold(self, decl: Decl) -> Hold | None:
        start, end = decl.record.get("from"), decl.record.get("to")
        if start is None or end is None:
            return None
        if end <= start:
            self.say(
                "empty-range",
                f"the hold `{decl.name}` ends before it begins",
                decl.record.span_of("to"),
                "Correct one of its times.",
            )
            return None
        return Hold(decl.name, start, end, decl.record.get("because", ""))

    def waived(self, known: set[str]) -> tuple[Waiver, ...]:
        """Rules waived for one thing, each with a reason and a name. `known`: what can be named."""
        found = []
        for decl in self.book.singles.get("waive", ()):
            record = decl.record
            rule: tuple[Name, ...] | None = record.get("rule")
            names: tuple[Name, ...] | None = record.get("on")
            if not rule or not self.answered_for(record, f"`{rule[0].text}` is waived"):
                continue
            numbers: tuple[str, ...] = record.get("cues", ())
            if not names and not numbers:
                self._missing_thing(record, rule[0])
                continue
            for number in numbers:
                if number in known or any(one.startswith(f"{number}.") for one in known):
                    self.book.put(f"waiver:{rule[0].text}:{number}", "", record.span)
                    found.append(Waiver(rule[0].text, number, record.get("because"), record.get("by")))
                elif number not in self.book.touched_numbers:
                    self.say(
                        "unknown-name", f"there is no cue {number}", record.span_of("cues"), "Name the number of a cue."
                    )
            for name in names or ():
                if (
                    name.text in known
                    or self.book.find(("circuit", "rail", "device", "position", "supply"), name) is not None
                ):
                    self.book.put(f"waiver:{rule[0].text}:{name.text}", "", record.span)
                    found.append(Waiver(rule[0].text, name.text, record.get("because"), record.get("by")))
        return tuple(sorted(found, key=lambda w: (w.rule, w.subject)))

    def _missing_thing(self, record: Record, rule: Name) -> None:
        if "on" not in record.broken:
            self.say(
                "missing-property",
                f"what `{rule.text}` is waived for is not said",
                record.span,
                f'Write `waive {rule.text} on A.1 because "…" by "…"`: a waiver is for one thing.',
            )

    def answered_for(self, record: Record, what: str) -> bool:
        """True if a record says why and who answers for it; else a finding says what is missing."""
        missing = [word for word in ("because", "by") if not record.get(word)]
        if not missing:
            return True
        if not record.broken & set(missing):
            said = " and ".join({"because": "a reason", "by": "a name"}[word] for word in missing)
            self.say("missing-property", f"{what} without {said}", record.span, 'Add `because "…" by "…"`: it prints.')
        return False

    def say(self, rule: str, headline: str, span: Span, hint: str) -> None:
        """Add a finding."""
        self.book.findings.append(Finding(rule, headline, span, hint=hint))


def _all(book: Book, kind: str) -> list[Decl]:
    return list(book.decls.get(kind, {}).values())


def place_of(decl: Decl) -> Place | None:
    """A declared point with perhaps a height."""
    at: tuple[float, float, float] | None = decl.record.get("at")
    return None if at is None else Place(decl.name, *at, height_m=decl.record.get("height"))


def _crowd(decl: Decl) -> CrowdLine | None:
    points: Any = decl.record.get("along")
    return None if points is None else CrowdLine(decl.name, points)


def _winds(record: Record) -> list[Wind]:
    found = []
    for value in record.many("wind"):
        wind: Record = value.data
        above: Record | None = wind.get("from")
        if wind.get("speed") is not None:
            found.append(Wind(wind.get("speed"), None if above is None else above.get("calibre")))
    return sorted(found, key=lambda w: w.from_calibre_m or 0.0)
