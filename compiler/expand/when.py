"""When a cue is: show time, wall clock, timecode of a music, after another cue, or by hand.

A time that counts from a press carries the number of the pressed cue; nobody knows when that is.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from typing import NamedTuple

from compiler.expand.book import Book, Decl
from compiler.model.values import replace
from compiler.vocabulary.forms import Record
from compiler.vocabulary.music import Music
from compiler.vocabulary.names import Name, did_you_mean
from compiler.vocabulary.timecode import count
from grammar.findings import Finding, Span

_DAY_S = 86_400.0


class When(NamedTuple):
    """Exactly one of `seen_s` and `lit_s`, in seconds of show time, or after the press of a cue."""

    seen_s: float | None
    lit_s: float | None
    press: str | None = None

    @property
    def base_s(self) -> float:
        """What a later cue counts from."""
        return self.seen_s if self.seen_s is not None else self.lit_s or 0.0


TIMES = ("seen", "lit", "clock", "music", "after", "by")


@dataclass(slots=True)
class Clockwork:
    """Resolves the times of cues. `known` grows as cues are resolved: number to time."""

    book: Book
    zero: str
    music: dict[str, Music] = field(default_factory=dict)
    known: dict[str, When] = field(default_factory=dict)

    def read_music(self) -> None:
        """All pieces of music, and the presses that start them."""
        for decl in self.book.decls.get("music", {}).values():
            music = self._music(decl)
            if music is not None:
                self.music[decl.name] = music
        for decl in self.book.singles.get("cue", ()):
            self._starts(decl)

    def _music(self, decl: Decl) -> Music | None:
        record = decl.record
        rate, starts = record.get("timecode"), record.get("starts")
        if rate is None or starts is None:
            return None
        wrong = count(starts, rate[0], drop=rate[1]).wrong
        if wrong:
            self._say(
                "bad-time",
                f"`{starts}` does not exist: {wrong}",
                record.span_of("starts"),
                "Correct the timecode or the rate.",
            )
            return None
        return Music(decl.name, rate[0], rate[1], starts, record.get("at", 0.0), record.get("delay", 0.0), None)

    def _starts(self, decl: Decl) -> None:
        names: tuple[Name, ...] | None = decl.record.get("starts")
        number = decl.record.get("number")
        if not names or number is None:
            return
        if decl.record.get("by") != "hand":
            self._say(
                "unexpected-value",
                "only a press starts music",
                decl.record.span_of("starts"),
                "Write `by hand`, or give the music its show time with `at`.",
            )
            return
        music = self.music.get(names[0].text)
        if music is None:
            self.book.find(("music",), names[0])
        else:
            self.music[music.name] = replace(music, at_s=0.0, press=number)

    def direct(self, record: Record, number: str) -> When | None:
        """The time of a cue that counts from no other cue; None where it does, or where it is wrong."""
        if record.get("by") == "hand":
            return When(None, 0.0, number)
        if "seen" in record.values or "lit" in record.values:
            return When(record.get("seen"), record.get("lit"))
        if "clock" in record.values:
            return self.by_clock(record, "clock")
        if "music" in record.values:
            return self._by_music(record)
        return None

    def by_clock(self, record: Record, key: str) -> When | None:
        """Show time of a wall-clock time; one that lies half a day before zero is past midnight."""
        if " " not in self.zero:
            self._say(
                "missing-property",
                "the wall clock of show time zero is not said",
                record.span_of(key),
                'Add it: `show "…" { zero 2027-06-19 22:15:00 }`.',
            )
            return None
        zero = dt.datetime.fromisoformat(self.zero)
        since = record.get(key) - (zero.hour * 3600 + zero.minute * 60 + zero.second)
        if since < -_DAY_S / 2:
            since += _DAY_S  # past midnight
        return When(round(since, 9), None)

    def _by_music(self, record: Record) -> When | None:
        name, label = record.get("music")
        music = self.music.get(name.text)
        span = record.span_of("music")
        if music is None:
            self.book.find(("music",), name)
            return None
        counted = count(label, music.rate, drop=music.drop)
        if counted.wrong:
            self._say(
                "bad-time", f"`{label}` does not exist: {counted.wrong}", span, "Correct the timecode or the rate."
            )
            return None
        since = counted.seconds - count(music.starts, music.rate, drop=music.drop).seconds
        if since < 0:
            self._say(
                "out-of-range",
                f"`{label}` lies before `{name.text}` starts at {music.starts}",
                span,
                "Correct one of the two.",
            )
            return None
        return When(float(since) + music.at_s + music.delay_s, None, music.press)

    def after(self, waiting: list[tuple[str, Record]]) -> dict[str, When]:
        """The times of cues that count from other cues, in any order; circles and unknown numbers are told."""
        found: dict[str, When] = {}
        left = list(waiting)
        while left:
            ready = [(number, record) for number, record in left if record.get("after")[1] in self.known]
            if not ready:
                break
            for number, record in ready:
                seconds, other = record.get("after")
                base = self.known[other]
                when = When(round(base.base_s + seconds, 9), None, base.press)
                found[number] = self.known[number] = when
            left = [(number, record) for number, record in left if number not in found]
        for number, record in left:
            self._never(number, record, {n for n, _ in left})
        return found

    def _never(self, number: str, record: Record, left: set[str]) -> None:
        _, other = record.get("after")
        span = record.span_of("after")
        if other in left:
            self._say(
                "use-cycle",
                f"cue {number} waits for cue {other}, which waits for it",
                span,
                "Give one of them a time of its own.",
            )
        elif other not in self.book.touched_numbers:
            self._say(
                "unknown-name",
                f"there is no cue {other}",
                span,
                did_you_mean(other, self.known) or "Name the number of a cue.",
            )

    def _say(self, rule: str, headline: str, span: Span, hint: str) -> None:
        self.book.findings.append(Finding(rule, headline, span, hint=hint))
