"""Cue lines to devices, circuits and cues: nine lines in ten of a real show.

A line names effects at places (it then makes a device and a circuit at each), or circuits and
devices that are declared elsewhere; `with` adds more of both to the same cue. A chase makes parts
`102.1`, `102.2`, … of one cue; so do effects of different prefire, which are seen together and
fired apart.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from compiler.expand.book import Book
from compiler.expand.lines import Line
from compiler.model.parts import Parts
from compiler.model.quantities import ZERO, Given
from compiler.model.site import Site
from compiler.model.types import Circuit, Cue, Device, Effect, Group, MatchUse, Position, Run
from compiler.vocabulary.forms import Record
from compiler.vocabulary.names import Name, natural
from grammar.findings import Finding, Span

MOST_SHOTS = 100_000
"""More than any show fires: beyond it a slip is likelier, and nobody waits for it."""


class Shot(NamedTuple):
    """One device that a line makes: an effect at a place, `step` steps into a chase."""

    place: Position
    effect: Effect
    step: int
    tilt_deg: float | None
    part: Record  # the line, or its `with`
    copy: int = 0  # of several at one place on channels of their own


@dataclass(slots=True)
class Pending:
    """A shot on its way to a name: names count by firing time."""

    line: Line
    shot: Shot
    seen_s: float | None
    lit_s: float | None
    name: str = ""

    @property
    def fired_s(self) -> float:
        """The wanted firing time in seconds, for the order of names."""
        if self.lit_s is not None:
            return self.lit_s
        return (self.seen_s or 0.0) - self.shot.effect.prefire_s.nominal

    @property
    def order(self) -> tuple[object, ...]:
        """Show time first, then presses by number; ties by cue, step, place and effect."""
        press = self.line.press
        return (
            press is not None, natural(press or ""), self.fired_s, natural(self.line.number), self.shot.step,
            natural(self.shot.place.name), self.shot.effect.name, self.shot.copy,
        )  # fmt: skip


class Made(NamedTuple):
    """A device with its matches and its circuits."""

    device: Device
    uses: tuple[MatchUse, ...]
    circuits: tuple[Circuit, ...]
    pending: Pending


class _Moment(NamedTuple):
    """What one part of a cue has in common: one firing time."""

    seen_s: float | None
    lit_s: float | None
    prefire_s: float

    def fired_s(self) -> float:
        """The wanted firing time in seconds."""
        return self.lit_s if self.lit_s is not None else (self.seen_s or 0.0) - self.prefire_s


def _hull(givens: list[Given]) -> Given:
    """The interval that holds all of them; the first one's nominal."""
    return Given(min(g.low for g in givens), givens[0].nominal, max(g.high for g in givens))


class Lines:
    """Makes of all lines what they mean."""

    def __init__(self, book: Book, parts: Parts, site: Site) -> None:
        self.book, self.parts, self.site = book, parts, site
        self.pending: list[Pending] = []
        self.existing: list[tuple[Line, tuple[Name, ...]]] = []
        self.named: dict[int, list[Pending]] = {}  # line's id to its shots
        self.prefires: dict[str, Given] = {}  # declared circuits: the prefire of what they light
        self.circuits_of: dict[str, tuple[str, ...]] = {}  # device made here to its circuits

    def take(self, lines: list[Line]) -> None:
        """Read every line; shots wait for their names."""
        for line in lines:
            self.book.origin = line.statement.origin
            self._line(line)
        self.book.origin = ()
        self._names()

    # --- reading a line ---

    def _line(self, line: Line) -> None:
        known: list[Name] = []
        shots: list[Pending] = []
        for part in (line.record, *(value.data for value in line.record.many("with"))):
            read = self._part(line, part)
            if read is None:
                self.book.touch(line.statement)
                self.book.touched_numbers.add(line.number)
                return
            known.extend(read[0])
            shots.extend(read[1])
        if len(shots) > 1 and not self._one_circuit(line, len(shots)):
            return
        self.existing.append((line, tuple(known)))
        self.named[id(line)] = shots
        self.pending.extend(shots)

    def _part(self, line: Line, part: Record) -> tuple[list[Name], list[Pending]] | None:
        """What one part of a line fires: names that exist, and shots that it makes."""
        made, known = [], []
        for name in part.get("what", ()):
            if self.book.has(("circuit", "device"), name.text):
                known.append(name)
            elif self.book.find(("effect", "circuit", "device"), name) is None:
                return None
            else:
                made.append(name)
        effects = [effect for name in made if (effect := self.parts.effect(name)) is not None]
        if len(effects) < len(made) or not self._fits(part, made, known):
            return None
        shots = self._shots(line, part, effects)
        return None if shots is None else (known, shots)

    def _fits(self, part: Record, made: list[Name], known: list[Name]) -> bool:
        """Places where effects need them, and nowhere else."""
        if made and "places" not in part.values:
            if "places" not in part.broken:
                self._say(
                    "missing-property",
                    f"`{made[0].text}` has no place",
                    made[0].span,
                    f"Say where: `{made[0].text} at Q5`.",
                )
            return False
        if made or not known:
            return True
        for key, word in _MAKING.items():
            if key in part.values:
                self._say(
                    "unexpected-value",
                    f"`{known[0].text}` is wired already, so `{word}` says nothing",
                    part.span_of(key),
                    "Take it out here, and say it where the circuit is declared.",
                )
                return False
        return True

    def _shots(self, line: Line, part: Record, effects: list[Effect]) -> list[Pending] | None:
        if not effects:
            return []
        places = [self.site.position(name) for name in part.get("places", ())]
        if any(place is None for place in places) or not self._wiring_said(part):
            return None
        step_s, stops = self._chase(line.record, [place for place in places if place is not None])
        tilts = _tilts(part.get("tilt"), len(stops))
        copies = part.get("count", 1) if "own" in part.values else 1
        if len(self.pending) + len(stops) * len(effects) * part.get("count", 1) > MOST_SHOTS:
            self._say(
                "too-many", f"the show fires more than {MOST_SHOTS} matches", line.span, "Split it into several shows."
            )
            return None
        return [
            Pending(line, Shot(place, effect, index, tilts[index], part, copy), *_moved(line, index * step_s))
            for index, place in enumerate(stops)
            for effect in effects
            for copy in range(copies)
        ]

    def _one_circuit(self, line: Line, count: int) -> bool:
        for key, word in (("on", "on"), ("as", "as")):
            if key in line.record.values:
                self._say(
                    "unexpected-value",
                    f"`{word}` gives one name to {count} circuits",
                    line.record.span_of(key),
                    "Write a line for each, or let the names and channels be found.",
                )
                return False
        return True

    def _chase(self, record: Record, stops: list[Position]) -> tuple[float, list[Position]]:
        """The step in seconds (0 without a chase) and the places in firing order."""
        step = record.get("every")
        if record.get("and") == "back":
            if step is None:
                self._say(
                    "missing-property",
                    "`and back` belongs to a chase",
                    record.span_of("and"),
                    "Say its step: `every 150 ms and back`.",
                )
            stops = stops + stops[-2::-1]
        return (0.0 if step is None else step), stops

    def _wiring_said(self, part: Record) -> bool:
        count = part.get("count", 1)
        said = [key for key in ("in", "own", "twice") if key in part.values]
        if len(said) > 1:
            self._say(
                "duplicate-property",
                "how they are wired is said twice",
                part.span_of(said[1]),
                "Keep one: `in series`, `in parallel`, `on own channels` or `twice`.",
            )
            return False
        if count > 1 and not said:
            self._say(
                "missing-property",
                f"how the {count} at one place are wired is not said",
                part.span_of("count"),
                f"Write `count {count} in series`, `count {count} in parallel` or `count {count} on own channels`.",
            )
            return False
        return True

    def _say(self, rule: str, headline: str, span: Span, hint: str) -> None:
        self.book.findings.append(Finding(rule, headline, span, hint=hint, related=self.book.origin))

    # --- naming ---

    def _names(self) -> None:
        """PLACE-EFFECT-N, N counted by firing time, unless the line says `as`."""
        counts: dict[str, int] = {}
        for pending in sorted(self.pending, key=lambda p: p.order):
            said: tuple[Name, ...] | None = pending.line.record.get("as")
            if said:
                pending.name = said[0].text
                continue
            stem = f"{pending.shot.place.name}-{pending.shot.effect.name}"
            counts[stem] = counts.get(stem, 0) + 1
            pending.name = f"{stem}-{counts[stem]}"

    # --- making ---

    def devices(self) -> list[Made]:
        """A device, its matches and its circuits for every shot, in order of names."""
        return [self._device(pending) for pending in sorted(self.pending, key=lambda p: natural(p.name))]

    def _device(self, pending: Pending) -> Made:
        part, shot, name = pending.shot.part, pending.shot, pending.name
        twice = "twice" in part.values
        count = 2 if twice else 1 if "own" in part.values else part.get("count", 1)
        names = (name,) if count == 1 else tuple(f"{name}.{index}" for index in range(1, count + 1))
        place = shot.place
        uses = tuple(MatchUse(one, name, shot.effect.match, place.x_m, place.y_m, place.z_m) for one in names)
        device = Device(
            name, shot.effect.name, place.name, names, shot.tilt_deg, 1 if twice else count, key=twice,
            heading_deg=part.get("heading"),
        )  # fmt: skip
        return Made(device, uses, self._circuits(pending, names, twice=twice), pending)

    def _circuits(self, pending: Pending, names: tuple[str, ...], *, twice: bool) -> tuple[Circuit, ...]:
        record, shot, name = pending.line.record, pending.shot, pending.name
        lead = run_of(record.get("lead"), self.parts, self.book)
        place = shot.place.name
        if twice:
            both = (name, f"{name}-again")
            return tuple(
                Circuit(one, Group("single", (match,), lead=lead), None, None, place, name, apart_from=other)
                for one, match, other in zip(both, names, reversed(both), strict=True)
            )
        how = "single" if len(names) == 1 else shot.part.get("in")
        on: tuple[str, int] | None = record.get("on")
        rail, channel = on or (None, None)
        return (Circuit(name, Group(how, names, lead=lead), rail, channel, place, None),)

    def cues(self, fired_by: dict[str, tuple[str, ...]]) -> list[tuple[Cue, Line]]:
        """All cues. `fired_by`: device or circuit name to the circuits that it stands for."""
        cues: list[tuple[Cue, Line]] = []
        for line, known in self.existing:
            cues.extend(self._cue_parts(line, known, fired_by))
        return cues

    def _cue_parts(
        self, line: Line, known: tuple[Name, ...], fired_by: dict[str, tuple[str, ...]]
    ) -> list[tuple[Cue, Line]]:
        moments: dict[_Moment, list[str]] = {}
        prefires: dict[_Moment, list[Given]] = {}

        def add(seen: float | None, lit: float | None, prefire: Given, circuits: tuple[str, ...]) -> None:
            key = _Moment(seen, lit, prefire.nominal if lit is None else 0.0)
            moments.setdefault(key, []).extend(circuits)
            prefires.setdefault(key, []).append(prefire)

        for pending in self.named[id(line)]:
            circuits = self.circuits_of.get(pending.name, (pending.name,))
            add(pending.seen_s, pending.lit_s, pending.shot.effect.prefire_s, circuits)
        for name in known:
            for circuit in fired_by.get(name.text, (name.text,)):
                add(line.seen_s, line.lit_s, self.prefires.get(circuit, ZERO), (circuit,))
        if not moments:  # a press that only starts music
            add(line.seen_s, line.lit_s, ZERO, ())
        order = sorted(moments, key=_Moment.fired_s)
        text, step = line.record.get("text", ""), line.record.get("every")
        by = "hand" if line.record.get("by") == "hand" else "clock"
        return [
            (
                Cue(
                    line.number if len(order) == 1 else f"{line.number}.{index + 1}", text, by,
                    moment.seen_s, moment.lit_s, _hull(prefires[moment]),
                    tuple(sorted(moments[moment], key=natural)), step if index == 0 else None, line.press,
                ),
                line,
            )
            for index, moment in enumerate(order)
        ]  # fmt: skip


_MAKING = {
    "places": "at", "on": "on", "as": "as", "count": "count", "tilt": "tilt", "heading": "heading", "every": "every",
    "in": "in", "own": "on own channels", "twice": "twice", "lead": "lead",
}  # fmt: skip
"""Clauses that say something about devices and circuits that a line makes."""


def _moved(line: Line, by_s: float) -> tuple[float | None, float | None]:
    if by_s == 0.0:
        return line.seen_s, line.lit_s  # a timecode is no whole microsecond
    seen = None if line.seen_s is None else round(line.seen_s + by_s, 9)
    lit = None if line.lit_s is None else round(line.lit_s + by_s, 9)
    return seen, lit


def _tilts(said: tuple[float, float] | None, count: int) -> list[float | None]:
    """The tilt at each stop: one for all, or spread evenly from first to last."""
    if said is None:
        return [None] * count
    first, last = said
    if count == 1:
        return [first]
    return [round(first + (last - first) * index / (count - 1), 6) for index in range(count)]


def run_of(record: Record | None, parts: Parts, book: Book) -> Run:
    """A run of cable as said; what is not said is None and is laid out later."""
    if record is None:
        return Run(None, None)
    names: tuple[Name, ...] | None = record.get("cable")
    cable = parts.cable(names[0]) if names else None
    if names and cable is None:
        book.touched.add(names[0].text)
    return Run(record.get("length"), cable.name if cable else None)
