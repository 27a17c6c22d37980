"""Cue lines to devices, circuits and cues: nine lines in ten of a real show.

A line names effects at places (it then makes a device and a circuit at each), or circuits and
devices that are declared elsewhere. A chase makes parts `102.1`, `102.2`, … of one cue; so do
effects of different prefire, which are seen together and fired apart.
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


class Shot(NamedTuple):
    """One circuit that a line makes: an effect at a place, `step` steps into a chase."""

    place: Position
    effect: Effect
    step: int
    tilt_deg: float | None


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
        assert self.seen_s is not None
        return self.seen_s - self.shot.effect.prefire_s.nominal


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

    def take(self, lines: list[Line]) -> None:
        """Read every line; shots wait for their names."""
        for line in lines:
            self._line(line)
        self._names()

    # --- reading a line ---

    def _line(self, line: Line) -> None:
        what: tuple[Name, ...] = line.record.get("what")
        made, known = [], []
        for name in what:
            if self.book.has(("circuit", "device"), name.text):
                known.append(name)
            elif self.book.find(("effect", "circuit", "device"), name) is None:
                self.book.touch(line.statement)
                return
            else:
                made.append(name)
        effects = [effect for name in made if (effect := self.parts.effect(name)) is not None]
        if len(effects) < len(made) or not self._fits(line, made, known):
            return
        shots = self._shots(line, effects)
        if shots is None:
            return
        self.existing.append((line, tuple(known)))
        self.named[id(line)] = shots
        self.pending.extend(shots)

    def _fits(self, line: Line, made: list[Name], known: list[Name]) -> bool:
        """Places where effects need them, and nowhere else."""
        record = line.record
        if made and "places" not in record.values:
            self._say("missing-property", f"`{made[0].text}` has no place", made[0].span,
                      f"Say where: `{made[0].text} at Q5`.")
            return False
        if known and not made:
            for key, word in (("places", "at"), ("on", "on"), ("as", "as"), ("count", "count"), ("tilt", "tilt"),
                              ("every", "every"), ("in", "in"), ("lead", "lead")):
                if key in record.values:
                    self._say("unexpected-value", f"`{known[0].text}` is wired already, so `{word}` says nothing", record.span_of(key),
                              "Take it out here, and say it where the circuit is declared.")
                    return False
        return True

    def _shots(self, line: Line, effects: list[Effect]) -> list[Pending] | None:
        record = line.record
        if not effects:
            return []
        places = [self.site.position(name) for name in record.get("places", ())]
        if any(place is None for place in places) or not self._count_said(record):
            return None
        stops = [place for place in places if place is not None]
        step_s, stops = self._chase(record, stops)
        tilts = _tilts(record.get("tilt"), len(stops))
        made = [
            Pending(line, Shot(place, effect, index, tilts[index]), *_moved(line, index * step_s))
            for index, place in enumerate(stops)
            for effect in effects
        ]
        for key, word in (("on", "on"), ("as", "as")):
            if key in record.values and len(made) > 1:
                self._say("unexpected-value", f"`{word}` gives one name to {len(made)} circuits", record.span_of(key),
                          "Write a line for each, or let the names and channels be found.")
                return None
        return made

    def _chase(self, record: Record, stops: list[Position]) -> tuple[float, list[Position]]:
        """The step in seconds (0 without a chase) and the places in firing order."""
        step = record.get("every")
        if record.get("and") == "back":
            if step is None:
                self._say("missing-property", "`and back` belongs to a chase", record.span_of("and"),
                          "Say its step: `every 150 ms and back`.")
            stops = stops + stops[-2::-1]
        return (0.0 if step is None else step), stops

    def _count_said(self, record: Record) -> bool:
        count = record.get("count", 1)
        if count > 1 and "in" not in record.values:
            self._say("missing-property", f"how the {count} at one place are wired is not said", record.span_of("count"),
                      f"Write `count {count} in series` or `count {count} in parallel`.")
            return False
        return True

    def _say(self, rule: str, headline: str, span: Span, hint: str) -> None:
        self.book.findings.append(Finding(rule, headline, span, hint=hint))

    # --- naming ---

    def _names(self) -> None:
        """PLACE-EFFECT-N, N counted by firing time, unless the line says `as`."""
        counts: dict[str, int] = {}
        order = sorted(self.pending, key=lambda p: (p.fired_s, natural(p.line.number), p.shot.step, p.line.span))
        for pending in order:
            said: tuple[Name, ...] | None = pending.line.record.get("as")
            if said:
                pending.name = said[0].text
                continue
            stem = f"{pending.shot.place.name}-{pending.shot.effect.name}"
            counts[stem] = counts.get(stem, 0) + 1
            pending.name = f"{stem}-{counts[stem]}"

    # --- making ---

    def devices(self) -> list[tuple[Device, tuple[MatchUse, ...], Circuit, Pending]]:
        """A device, its matches and its circuit for every shot, in order of names."""
        return [self._device(pending) for pending in sorted(self.pending, key=lambda p: natural(p.name))]

    def _device(self, pending: Pending) -> tuple[Device, tuple[MatchUse, ...], Circuit, Pending]:
        record, shot, name = pending.line.record, pending.shot, pending.name
        count = record.get("count", 1)
        names = (name,) if count == 1 else tuple(f"{name}.{index}" for index in range(1, count + 1))
        place = shot.place
        uses = tuple(
            MatchUse(one, name, shot.effect.match, place.x_m, place.y_m, place.z_m) for one in names
        )
        device = Device(name, shot.effect.name, place.name, names, shot.tilt_deg, count)
        lead = run_of(record.get("lead"), self.parts, self.book)
        how = "single" if count == 1 else record.get("in")
        on: tuple[str, int] | None = record.get("on")
        rail, channel = on or (None, None)
        return device, uses, Circuit(name, Group(how, names, lead=lead), rail, channel, place.name, None), pending

    def cues(self, fired_by: dict[str, tuple[str, ...]]) -> list[tuple[Cue, Span]]:
        """All cues. `fired_by`: device or circuit name to the circuits that it stands for."""
        cues: list[tuple[Cue, Span]] = []
        for line, known in self.existing:
            cues.extend(self._cue_parts(line, known, fired_by))
        return cues

    def _cue_parts(
        self, line: Line, known: tuple[Name, ...], fired_by: dict[str, tuple[str, ...]]
    ) -> list[tuple[Cue, Span]]:
        moments: dict[_Moment, list[str]] = {}
        prefires: dict[_Moment, list[Given]] = {}

        def add(seen: float | None, lit: float | None, prefire: Given, circuit: str) -> None:
            key = _Moment(seen, lit, prefire.nominal if lit is None else 0.0)
            moments.setdefault(key, []).append(circuit)
            prefires.setdefault(key, []).append(prefire)

        for pending in self.named[id(line)]:
            add(pending.seen_s, pending.lit_s, pending.shot.effect.prefire_s, pending.name)
        for name in known:
            for circuit in fired_by.get(name.text, (name.text,)):
                add(line.seen_s, line.lit_s, self.prefires.get(circuit, ZERO), circuit)
        order = sorted(moments, key=_Moment.fired_s)
        text, step = line.record.get("text", ""), line.record.get("every")
        return [
            (
                Cue(
                    line.number if len(order) == 1 else f"{line.number}.{index + 1}", text, "clock",
                    moment.seen_s, moment.lit_s, _hull(prefires[moment]),
                    tuple(sorted(moments[moment], key=natural)), step if index == 0 else None,
                ),
                line.span,
            )
            for index, moment in enumerate(order)
        ]  # fmt: skip


def _moved(line: Line, by_s: float) -> tuple[float | None, float | None]:
    seen = None if line.seen_s is None else round(line.seen_s + by_s, 6)
    lit = None if line.lit_s is None else round(line.lit_s + by_s, 6)
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



