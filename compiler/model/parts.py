"""Parts: records of the vocabulary to frozen part types."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from compiler.expand.book import Book, Decl
from compiler.model.conductors import (
    COPPER_ALPHA_PER_K,
    area_ohm_per_m,
    conductor_given,
    gauge_ohm_per_m,
    iec60228_given,
)
from compiler.model.quantities import ZERO, Given
from compiler.model.types import Battery, Cable, Effect, Limit, Match, Module, Origin
from compiler.model.values import replace
from compiler.vocabulary.forms import Record
from compiler.vocabulary.names import Name
from grammar.findings import Finding

_CLAD_STEEL = 0.21  # the least conductivity of the standards' grades, where the part states none
_CLAD_ALUMINIUM = 0.61  # the safe side of the published 62 to 68 % IACS


class Parts:
    """Part types by name, built when they are first asked for."""

    def __init__(self, book: Book, limits: Mapping[str, Limit]) -> None:
        self.book = book
        self.limits = limits
        self.matches: dict[str, Match] = {}
        self.cables: dict[str, Cable] = {}
        self.batteries: dict[str, Battery] = {}
        self.modules: dict[str, Module] = {}
        self.effects: dict[str, Effect] = {}
        self._broken: set[tuple[str, str]] = set()

    def _get(self, kind: str, name: Name, store: dict[str, Any], build: Any) -> Any:
        known = store.get(name.text)
        if known is not None:
            return known
        decl = self.book.find((kind,), name)
        if decl is None or (kind, name.text) in self._broken:
            return None
        part = build(decl) if self._like(kind, decl) else None
        if part is None:
            self._broken.add((kind, name.text))
        else:
            store[name.text] = part
        return part

    def _like(self, kind: str, decl: Decl) -> bool:
        """Take what a part does not say itself from the part that it is like; False if that fails."""
        record = decl.record
        names: tuple[Name, ...] | None = record.get("like")
        if not names:
            return "like" not in record.broken
        chain = [decl.name]
        while names:
            if names[0].text in chain:
                self.book.findings.append(
                    Finding(
                        "use-cycle",
                        f"the {kind} `{decl.name}` is like itself",
                        record.span_of("like"),
                        hint="Start from another part.",
                    )
                )
                return False
            base = self.book.find((kind,), names[0])
            if base is None:
                return False
            chain.append(base.name)
            size = {"gauge", "area", "resistance"}
            for key, value in base.record.values.items():
                if key == "like" or (key in size and size & set(record.values)):
                    continue
                record.values.setdefault(key, value)
            names = base.record.get("like")
        return True

    def match(self, name: Name) -> Match | None:
        """A match type; None where there is none that can be used (a finding says so)."""
        found: Match | None = self._get("match", name, self.matches, self._match)
        return found

    def cable(self, name: Name) -> Cable | None:
        """A cable type."""
        found: Cable | None = self._get("cable", name, self.cables, self._cable)
        return found

    def battery(self, name: Name) -> Battery | None:
        """A battery type."""
        found: Battery | None = self._get("battery", name, self.batteries, self._battery)
        return found

    def module(self, name: Name) -> Module | None:
        """A module type."""
        found: Module | None = self._get("module", name, self.modules, self._module)
        return found

    def effect(self, name: Name) -> Effect | None:
        """An effect type."""
        found: Effect | None = self._get("effect", name, self.effects, self._effect)
        return found

    def declared(self) -> None:
        """Build every part that the show itself declares, used or not: its slips are told."""
        for kind, getter in (
            ("match", self.match), ("cable", self.cable), ("battery", self.battery),
            ("module", self.module), ("effect", self.effect),
        ):  # fmt: skip
            for decl in list(self.book.decls.get(kind, {}).values()):
                getter(Name(decl.name, decl.record.span))

    # --- one builder a kind ---

    def _match(self, decl: Decl) -> Match | None:
        record = decl.record
        legs: Record | None = record.get("legs")
        leg_cable, leg_length = None, 0.0
        if legs is not None and legs.get("length"):
            leg_length = float(legs.get("length"))
            name = _name(legs, "cable")
            if name is None:
                self.book.findings.append(
                    Finding(
                        "missing-value",
                        f"the legs of `{decl.name}` have no wire",
                        record.span_of("legs"),
                        hint="Write `legs 3 m of leg-24`.",
                    )
                )
                return None
            cable = self.cable(name)
            if cable is None:
                return None
            leg_cable = cable.name
        return Match(
            decl.name, record.get("bridge"), leg_length, leg_cable, record.get("no_fire"),
            record.get("alone"), record.get("series"), record.get("parallel"), record.get("impulse"),
            record.get("function"), bool(record.get("generic")), record.get("group", decl.name), _origin(record),
        )  # fmt: skip

    def _cable(self, decl: Decl) -> Cable | None:
        record = decl.record
        metal = record.get("metal", "copper")
        ohm = self._ohm_per_m(decl, metal)
        if ohm is None:
            return None
        return Cable(
            decl.name, metal, ohm, record.get("tempco", COPPER_ALPHA_PER_K), record.get("limit"), _origin(record)
        )

    def _ohm_per_m(self, decl: Decl, metal: str) -> Given | None:
        record = decl.record
        said: list[str] = [key for key in ("gauge", "area", "resistance") if key in record.values]
        if len(said) != 1:
            if not record.broken & {"gauge", "area", "resistance"}:
                self._size_finding(decl, said)
            return None
        if said[0] == "resistance":
            stated: Given = record.get("resistance")
            return stated
        conductivity = record.get("conductivity")
        if conductivity is None and metal != "copper":
            conductivity = _CLAD_STEEL if metal == "copper-clad-steel" else _CLAD_ALUMINIUM
        if said[0] == "gauge":
            solid = gauge_ohm_per_m(record.get("gauge"))
        else:
            area: Record = record.get("area")
            if area.get("area") is None:
                return None
            mm2 = area.get("area") * 1e6
            if area.get("class") is not None and metal == "copper":
                return self._classed(decl, round(mm2, 6), area)
            solid = area_ohm_per_m(mm2)
        return conductor_given(
            solid, stranded=bool(record.get("stranded")), metal=metal, conductivity=conductivity, limits=self.limits
        )

    def _classed(self, decl: Decl, mm2: float, area: Record) -> Given | None:
        given = iec60228_given(mm2, area.get("class"), limits=self.limits)
        if given is None:
            self.book.findings.append(
                Finding(
                    "unexpected-value",
                    f"IEC 60228 has no {mm2:g} mm2 in class {area.get('class')} here",
                    decl.record.span_of("area"),
                    hint="Give the maker's `resistance … ohm per km` instead.",
                )
            )
        return given

    def _size_finding(self, decl: Decl, said: list[str]) -> None:
        if said:
            headline = f"the cable `{decl.name}` says its size twice: {' and '.join(f'`{s}`' for s in said)}"
            rule, hint = "duplicate-property", "Keep one of them."
        else:
            headline = f"the cable `{decl.name}` says neither gauge nor area nor resistance"
            rule, hint = "missing-property", "Add `gauge 18 awg`, `area 0.75 mm2` or `resistance 26 ohm per km`."
        self.book.findings.append(Finding(rule, headline, decl.record.span, hint=hint))

    def _battery(self, decl: Decl) -> Battery | None:
        record = decl.record
        return Battery(
            decl.name,
            record.get("voltage"),
            record.get("inner"),
            record.get("limit"),
            record.get("fuse"),
            _origin(record),
        )

    def _module(self, decl: Decl) -> Module | None:
        record = decl.record
        if record.get("channels") is None:
            return None
        ohms: Given | None = record.get("circuit")
        return Module(
            decl.name, record.get("channels"), record.get("driver"), record.get("drop", ZERO),
            record.get("channel_limit"), record.get("rail_limit"), record.get("at_once"), record.get("pulse"),
            record.get("recovery"), record.get("tick", 0.01), record.get("jitter", 0.0),
            None if ohms is None else (ohms.low, ohms.high),
            record.get("test_current"), record.get("test_resistor"), record.get("test_fault"),
            record.get("reach"), _origin(record),
        )  # fmt: skip

    def _effect(self, decl: Decl) -> Effect | None:
        record = decl.record
        name = _name(record, "match") or Name("generic-match", record.span)
        match = self.match(name)
        if match is None:
            return None
        plain = Effect(
            decl.name, record.get("kind", "other"), match.name, record.get("prefire", ZERO),
            record.get("burn"), record.get("calibre"), _origin(record),
        )  # fmt: skip
        return self._chain(decl, plain)

    def _chain(self, decl: Decl, plain: Effect) -> Effect | None:
        """A chain takes prefire, calibre and last burn from its shell, unless it says them itself."""
        record = decl.record
        shells: Record | None = record.get("shells")
        if shells is None and plain.kind != "chain":
            return plain
        name = _name(shells, "shell") if shells is not None else None
        if shells is None or name is None or shells.get("count") is None or "delay" not in record.values:
            if not record.broken & {"shells", "delay"}:
                self.book.findings.append(
                    Finding(
                        "missing-property",
                        f"the chain `{decl.name}` does not say its shells and their delay",
                        record.span,
                        hint="Write `shells 5 of shell-75-red; delay 550 ms`.",
                    )
                )
            return None
        if name.text == decl.name:
            self.book.findings.append(
                Finding("use-cycle", f"the chain `{decl.name}` is made of itself", name.span, hint="Name a shell.")
            )
            return None
        shell = self.effect(name)
        if shell is None:
            return None
        count, delay = shells.get("count"), record.get("delay")
        burn = None if shell.burn_s is None else (count - 1) * delay + shell.burn_s
        return replace(
            plain, prefire_s=record.get("prefire", shell.prefire_s), burn_s=record.get("burn", burn),
            calibre_m=record.get("calibre", shell.calibre_m), shells=count, shell=shell.name, delay_s=delay,
        )  # fmt: skip


def _name(record: Record, key: str) -> Name | None:
    names: tuple[Name, ...] | None = record.get(key)
    return names[0] if names else None


def _origin(record: Record) -> Origin:
    return Origin(record.get("source", ""), record.get("confidence", ""))
