"""The site: positions, supplies and rails from their declarations."""

from __future__ import annotations

import re

from compiler.expand.book import Book, Decl
from compiler.model.parts import Parts
from compiler.model.safety import place_of
from compiler.model.types import Feed, Place, Position, Rack, Rail, Supply
from compiler.vocabulary.forms import Record
from compiler.vocabulary.names import Name, several
from grammar.findings import Finding, Span


class Site:
    """Positions, supplies and rails by name; only those that are whole."""

    def __init__(self, book: Book, parts: Parts) -> None:
        self.book = book
        self.parts = parts
        self.positions: dict[str, Position] = {}
        self.supplies: dict[str, Supply] = {}
        self.rails: dict[str, Rail] = {}
        self.structures: dict[str, Place] = {}
        self.racks: dict[str, Rack] = {}
        for decl in book.decls.get("structure", {}).values():
            structure = place_of(decl)
            if structure is not None:
                self.structures[decl.name] = structure
        for decl in book.decls.get("position", {}).values():
            self._position(decl)
        for decl in book.decls.get("supply", {}).values():
            self._supply(decl)
        for decl in book.decls.get("rail", {}).values():
            self._rail(decl)
        for decl in book.decls.get("rack", {}).values():
            self._rack(decl)
        self._unfed()
        for name, decl in book.decls.get("rail", {}).items():
            if name not in self.rails:
                served = decl.record.get("serves", ())
                book.unserved.update(place.text for place in served)
                book.unserved_all |= not served
        self._positions_like_channels()
        self._same_places()

    def position(self, name: Name) -> Position | None:
        """A position; one that is not declared is a finding."""
        known = self.positions.get(name.text)
        if known is None:
            self.book.find(("position",), name)
        return known

    def _position(self, decl: Decl) -> None:
        record = decl.record
        at, start, step = record.get("at"), record.get("from"), record.get("every")
        if record.broken:
            return
        if at is None and start is None:
            self._missing_place(decl)
            return
        first = at if at is not None else start
        if decl.of > 1 and step is None:
            if decl.index == 0:
                self.book.findings.append(
                    Finding(
                        "missing-property",
                        f"{decl.of} positions share one place",
                        record.span,
                        hint="Say the step to the next: `from -40 m, 0 m every 10 m`.",
                    )
                )
            return
        if decl.of == 1 and step is not None:
            self._one_with_step(decl)
        foot = self._foot(decl)
        if foot is None:
            return
        x, y, z = (f + a + decl.index * b for f, a, b in zip(foot, first, step or (0.0, 0.0, 0.0), strict=True))
        self.positions[decl.name] = Position(decl.name, x, y, z)

    def _one_with_step(self, decl: Decl) -> None:
        first, dash, last = decl.name.rpartition("-")
        meant = f"{first}..{last}" if dash else f"{decl.name}1..{decl.name}9"
        self.book.findings.append(
            Finding(
                "unexpected-value",
                f"`{decl.name}` is one position, so a step says nothing",
                decl.record.span_of("every"),
                hint=f"Name several: `{meant}`.",
            )
        )

    def _foot(self, decl: Decl) -> tuple[float, float, float] | None:
        """Where a position's coordinates count from: the site's origin, or the foot of its structure."""
        names: tuple[Name, ...] | None = decl.record.get("on")
        if not names:
            return (0.0, 0.0, 0.0)
        structure = self.structures.get(names[0].text)
        if structure is None:
            if decl.index == 0:
                self.book.find(("structure",), names[0])
            return None
        return (structure.x_m, structure.y_m, structure.z_m)

    def _rack(self, decl: Decl) -> None:
        of: Record | None = decl.record.get("tubes")
        place = self._name(decl, "position")
        if of is None or place is None or of.get("tubes") is None or of.get("calibre") is None:
            return
        position = self.position(place)
        if position is not None:
            self.racks[decl.name] = Rack(
                decl.name,
                of.get("tubes"),
                of.get("calibre"),
                position.name,
                decl.record.get("tilt"),
                decl.record.get("heading"),
            )

    def _missing_place(self, decl: Decl) -> None:
        if decl.index == 0:
            self.book.findings.append(
                Finding(
                    "missing-property",
                    f"the position `{decl.name}` has no place",
                    decl.record.span,
                    hint=f"Write `position {decl.name} at 0 m, 0 m`: east, north and perhaps up.",
                )
            )

    def _supply(self, decl: Decl) -> None:
        battery, place = self._name(decl, "battery"), self._name(decl, "position")
        if battery is None or place is None:
            return
        part, position = self.parts.battery(battery), self.position(place)
        if part is not None and position is not None:
            self.supplies[decl.name] = Supply(decl.name, part.name, position.name)

    def _rail(self, decl: Decl) -> None:
        module, place = self._name(decl, "module"), self._name(decl, "position")
        if module is None or place is None:
            return
        part, position = self.parts.module(module), self.position(place)
        serves, prefers = self._places(decl, "serves"), self._places(decl, "prefers")
        feed, fed = self._cable_from(decl, "feed", ("supply", "rail"))
        control, controlled = self._cable_from(decl, "control", ("firing-point", "rail"))
        whole = fed and controlled and not decl.record.broken
        if part is None or position is None or serves is None or prefers is None or not whole:
            return
        self.rails[decl.name] = Rail(
            decl.name, part.name, position.name, feed, serves, decl.record.get("spare"), prefers, control
        )

    def _unfed(self) -> None:
        """Rails behind a supply or rail that is declared but broken are broken too, and so on."""
        while True:
            lost = [
                rail.name for rail in self.rails.values()
                if rail.feed is not None and rail.feed.source not in self.supplies and rail.feed.source not in self.rails
            ]  # fmt: skip
            if not lost:
                return
            for name in lost:
                del self.rails[name]

    def _places(self, decl: Decl, key: str) -> tuple[str, ...] | None:
        names: tuple[Name, ...] = decl.record.get(key, ())
        found = (
            [self.position(name) for name in names]
            if decl.index == 0
            else [self.positions.get(name.text) for name in names]
        )
        if any(position is None for position in found):
            return None
        return tuple(position.name for position in found if position is not None)

    def _cable_from(self, decl: Decl, key: str, kinds: tuple[str, ...]) -> tuple[Feed | None, bool]:
        """A feed or control cable, and whether what is said about it is whole."""
        said: Record | None = decl.record.get(key)
        if said is None:
            return None, key not in decl.record.broken
        source = self._pick(said, "source", decl)
        if source is None or self.book.find(kinds, source) is None:
            return None, False
        if "bare" in said.values:
            self._say_first(
                decl,
                f"the cable of `{key}` stands without a word before it",
                said.span_of("bare"),
                f"Write `{key} {source.text} through` before it.",
            )
            return None, False
        return self._through(decl, key, said, source)

    def _through(self, decl: Decl, key: str, said: Record, source: Name) -> tuple[Feed | None, bool]:
        """The cable behind `through`; none where the rail sits on its source."""
        run: Record | None = said.get("through")
        if run is None:
            return Feed(f"{source.text}>{decl.name}", source.text, decl.name, 0.0, None), not said.broken
        cable_name = self._pick(run, "cable", decl)
        if cable_name is None:
            self._say_first(
                decl, f"the {key} of `{decl.name}` names no cable", said.span, "Write `through 3 m of trunk-2.5`."
            )
            return None, False
        cable = self.parts.cable(cable_name)
        if cable is None or run.get("length") is None:
            return None, False
        return Feed(f"{source.text}>{decl.name}", source.text, decl.name, run.get("length"), cable.name), True

    def _say_first(self, decl: Decl, headline: str, span: Span, hint: str) -> None:
        """A finding about what is missing, once for all names of a statement."""
        if decl.index == 0:
            self.book.findings.append(Finding("missing-property", headline, span, hint=hint))

    def _name(self, decl: Decl, key: str) -> Name | None:
        return self._pick(decl.record, key, decl)

    def _pick(self, record: Record, key: str, decl: Decl) -> Name | None:
        """The one name of a clause; of a list, the one in step with the declared names."""
        names: tuple[Name, ...] | None = record.get(key)
        if not names:
            return None
        if len(names) in (1, decl.of):
            return names[decl.index if len(names) == decl.of else 0]
        if decl.index == 0:
            self.book.findings.append(
                Finding(
                    "list-mismatch",
                    f"{several(decl.of, decl.kind)} are in step with {several(len(names), 'name')}",
                    record.span_of(key),
                    hint=f"Give one name for all, or {decl.of}.",
                )
            )
        return None

    def _same_places(self) -> None:
        seen: dict[tuple[float, float, float], str] = {}
        for position in self.positions.values():
            spot = (round(position.x_m, 3), round(position.y_m, 3), round(position.z_m, 3))
            other = seen.setdefault(spot, position.name)
            if other != position.name:
                self.book.findings.append(
                    Finding(
                        "same-place",
                        f"the positions `{other}` and `{position.name}` are the same place",
                        f"position:{position.name}",
                        subject=f"position {position.name}",
                        hint="Correct the coordinates, or use one name for it.",
                    )
                )

    def _positions_like_channels(self) -> None:
        rails = self.book.decls.get("rail", {})
        like: dict[str, list[str]] = {}
        for name in self.positions:
            found = re.fullmatch(r"(.*\D)(\d+)", name)
            if found and found[1] in rails:
                like.setdefault(found[1], []).append(name)
        for rail, names in like.items():
            first = names[0]
            more = f" and {len(names) - 1} more" if len(names) > 1 else ""
            reads = "read" if more else "reads"
            self.book.findings.append(
                Finding(
                    "look-alike-name",
                    f"position `{first}`{more} {reads} like a channel of rail `{rail}`",
                    f"position:{first}",
                    subject=f"position {first}",
                    hint=f"Rename the positions or the rail: `{first}` and `{rail}.{first.removeprefix(rail)}` are one on a label.",
                )
            )
