"""Devices with a name, falls, and circuits as they are wired."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from compiler.expand.book import Book, Decl
from compiler.model.lines import run_of
from compiler.model.parts import Parts
from compiler.model.site import Site
from compiler.model.types import Circuit, Device, Group, MatchUse, Position, Run
from compiler.vocabulary.forms import Record
from compiler.vocabulary.names import Name, closest
from grammar.findings import Finding, Span

MOST_HUNG = 10_000
"""More than any show hangs; beyond it a slip is likelier."""


class Wired:
    """Declared devices and circuits by name; only those that are whole."""

    def __init__(self, book: Book, parts: Parts, site: Site) -> None:
        self.book, self.parts, self.site = book, parts, site
        self.devices: dict[str, Device] = {}
        self.uses: dict[str, MatchUse] = {}
        self.circuits: dict[str, Circuit] = {}
        for decl in book.decls.get("device", {}).values():
            device = self._falls(decl) if decl.kind == "falls" else self._device(decl)
            if device is not None:
                self.devices[decl.name] = device
            else:
                book.touch(decl.statement)
                book.touched.add(decl.name)
        for decl in book.decls.get("circuit", {}).values():
            circuit = self._circuit(decl)
            if circuit is not None:
                self.circuits[decl.name] = circuit
            else:
                book.touch(decl.statement)
        self._own_circuits()

    # --- devices ---

    def _device(self, decl: Decl) -> Device | None:
        record = decl.record
        effect_name, place_names = record.get("effect"), record.get("places")
        if not effect_name or not place_names:
            return None
        if len(place_names) not in (1, decl.of):
            if decl.index == 0:
                self._say(
                    "list-mismatch",
                    f"{decl.of} devices stand at {len(place_names)} places",
                    record.span_of("places"),
                    "Name as many places as devices, or one for all.",
                )
            return None
        effect = self.parts.effect(effect_name[0])
        position = self.site.position(place_names[decl.index if len(place_names) > 1 else 0])
        if effect is None or position is None:
            return None
        tilt: tuple[float, float] | None = record.get("tilt")
        share = decl.index / (decl.of - 1) if decl.of > 1 else 0.0
        self._use(decl.name, decl.name, effect.match, (position.x_m, position.y_m, position.z_m))
        return Device(
            decl.name, effect.name, position.name, (decl.name,),
            None if tilt is None else round(tilt[0] + (tilt[1] - tilt[0]) * share, 6), key=bool(record.get("key")),
        )  # fmt: skip

    def _use(self, name: str, device: str, match: str | None, at: tuple[float, float, float]) -> None:
        self.uses[name] = MatchUse(name, device, match, *at)

    def _falls(self, decl: Decl) -> Device | None:
        record = decl.record
        effect_name: tuple[Name, ...] | None = record.get("effect")
        count: Record | None = record.get("count")
        matches: int | None = record.get("matches")
        ends = self._ends(decl)
        if not effect_name or count is None or matches is None or ends is None or count.get("number") is None:
            return None
        effect = self.parts.effect(effect_name[0])
        gerbs = count.get("number")
        if effect is None or not self._enough(decl, gerbs, matches):
            return None
        spacing = count.get("every")
        if spacing is None:
            self._say(
                "missing-property",
                f"how far apart the gerbs of `{decl.name}` hang is not said",
                record.span_of("count"),
                f"Write `count {gerbs} every 1.1 m`.",
            )
            return None
        if len(self.uses) + matches > MOST_HUNG:
            self._say(
                "too-many",
                f"the falls of this show have more than {MOST_HUNG} matches",
                record.span,
                "Split it into several shows.",
            )
            return None
        names = tuple(f"{decl.name}.{index}" for index in range(1, matches + 1))
        for index, name in enumerate(names):
            first, last = index * gerbs // matches, (index + 1) * gerbs // matches - 1
            offset = ((first + last) // 2 - (gerbs - 1) / 2) * spacing
            self._use(name, decl.name, effect.match, _along(ends, offset))
        return Device(
            decl.name,
            effect.name,
            ends[0].name,
            names,
            None,
            gerbs,
            spacing,
            _text(record, "fuse"),
            bool(record.get("key")),
        )

    def _enough(self, decl: Decl, gerbs: int, matches: int) -> bool:
        if matches <= gerbs:
            return True
        self._say(
            "out-of-range",
            f"`{decl.name}` has {matches} matches for {gerbs} gerbs",
            decl.record.span_of("matches"),
            "A match lights at least one gerb: fewer matches, or more gerbs.",
        )
        return False

    def _ends(self, decl: Decl) -> tuple[Position, Position | None] | None:
        """Where it hangs: from one position to another, or with its middle at one."""
        record = decl.record
        at, start, end = record.get("places"), record.get("from"), record.get("to")
        if record.broken & {"places", "from", "to"}:
            return None
        if at:
            place = self.site.position(at[0])
            return None if place is None else (place, None)
        if not start or not end:
            self._say(
                "missing-property",
                f"where `{decl.name}` hangs is not said",
                record.span,
                "Write `at Q5` for its middle, or `from Pylon-W to Pylon-E`.",
            )
            return None
        first, last = self.site.position(start[0]), self.site.position(end[0])
        return None if first is None or last is None else (first, last)

    # --- circuits ---

    def _circuit(self, decl: Decl) -> Circuit | None:
        record = decl.record
        lead: Record | None = record.get("lead")
        if "lead" in record.broken or (lead is not None and lead.broken):
            return None
        groups = [(key, value.data) for key, value in record.order if key in ("series", "parallel")]
        if not groups:
            if not record.broken:
                self._say(
                    "missing-property",
                    f"nothing is wired to circuit `{decl.name}`",
                    record.span,
                    "Add `series …` or `parallel …` with the devices in wiring order.",
                )
            return None
        built = [self._group(decl, key, group) for key, group in groups]
        if any(group is None for group in built):
            return None
        whole = [group for group in built if group is not None]
        group = whole[0] if len(whole) == 1 else Group("series", tuple(whole))
        group = self._led(group, lead)
        place = self._place_of(group)
        on: tuple[str, int] | None = record.get("on")
        if on is not None and not self._rail_known(decl, on[0]):
            return None
        keys = sorted({self.uses[name].device for name in members_of(group) if self._is_key(name)})
        rail, channel = on or (None, None)
        return Circuit(decl.name, group, rail, channel, place, keys[0] if keys else None)

    def _rail_known(self, decl: Decl, rail: str) -> bool:
        span = decl.record.span_of("on")
        return self.book.find(("rail",), Name(rail, span)) is not None and rail in self.site.rails

    def _is_key(self, use: str) -> bool:
        return self.devices[self.uses[use].device].key

    def _led(self, group: Group, lead: Record | None) -> Group:
        run = run_of(lead, self.parts, self.book)
        to: tuple[Name, ...] | None = lead.get("to") if lead is not None else None
        feed_at = None
        if to:
            if group.how != "parallel" and to[0].text != group.members[0]:
                self._say(
                    "unexpected-value",
                    "only a parallel line can be fed in its middle",
                    to[0].span,
                    "Take `to` out: the lead comes in at the first member.",
                )
            elif to[0].text in group.members:
                feed_at = to[0].text
            else:
                self._say(
                    "unknown-name",
                    f"the lead joins at `{to[0].text}`, which is not on this line",
                    to[0].span,
                    f"Name one of its members: {', '.join(f'`{m}`' for m in group.members if isinstance(m, str))}.",
                )
        if group.lead is not None:
            return Group("series", (group,), lead=run)
        return Group(group.how, group.members, group.spacing, feed_at, run)

    def _group(self, decl: Decl, how: str, record: Record) -> Group | None:
        members: list[str | Group] = []
        whole = True
        for key, value in record.order:
            if key == "members":
                found = self._members(value.data)
                whole = whole and found is not None
                members.extend(found or ())
            elif key in ("series", "parallel"):
                inner = self._group(decl, key, value.data)
                whole = whole and inner is not None
                members.extend([inner] if inner is not None else [])
        cut = any(finding.rule == "nested-too-deep" for finding in self.book.findings)
        if not members and whole and not record.broken and not cut:
            self._say(
                "missing-value",
                f"`{how}` of circuit `{decl.name}` wires nothing",
                record.span,
                "Name devices or matches after it, in wiring order.",
            )
        runs = [record.get(key) for key in ("spaced", "lead") if key in record.values]
        if record.broken & {"spaced", "lead"} or any(run.broken for run in runs):
            whole = False
        if not members or not whole:
            return None
        spacing = (
            run_of(record.get("spaced"), self.parts, self.book) if "spaced" in record.values else self._hung(members)
        )
        lead = run_of(record.get("lead"), self.parts, self.book) if "lead" in record.values else None
        return Group(
            how if len(members) > 1 or isinstance(members[0], Group) else "single", tuple(members), spacing, None, lead
        )

    def _members(self, names: tuple[Name, ...]) -> list[str] | None:
        """Match names from `Maroon-1`, `Curtain`, `Curtain.3`, `Curtain.odd`, `Curtain.even`."""
        found: list[str] = []
        whole = True
        for name in names:
            one = self._match_names(name)
            whole = whole and one is not None
            found.extend(one or ())
        return found if whole else None

    def _match_names(self, name: Name) -> list[str] | None:
        device = self.devices.get(name.text)
        if device is not None:
            return list(device.matches)
        if name.text in self.uses:
            return [name.text]
        stem, dot, part = name.text.rpartition(".")
        device = self.devices.get(stem) if dot else None
        if device is None:
            if not self.book.has(("device",), stem if dot else name.text) and name.text not in self.book.touched:
                self.book.find(("device",), name)
            return None
        if part in ("odd", "even"):
            some = list(device.matches[0 if part == "odd" else 1 :: 2])
            if not some:
                self._say(
                    "empty-range",
                    f"`{name.text}` names nothing: `{stem}` has {len(device.matches)} match",
                    name.span,
                    f"Name `{stem}.1`.",
                )
            return some or None
        near = closest(part, ("odd", "even"))
        self._say(
            "unknown-name",
            f"`{stem}` has {len(device.matches)} matches, and none is called `{name.text}`",
            name.span,
            f"Did you mean `{stem}.{near[0]}`?" if near else f"They are `{stem}.1` to `{stem}.{len(device.matches)}`.",
        )
        return None

    def _hung(self, members: list[str | Group]) -> Run | None:
        """Members of one falls are spaced as they hang; everything else is joined at one point."""
        uses = [self.uses[member] for member in members if isinstance(member, str)]
        if len(uses) < 2 or len(uses) < len(members) or len({use.device for use in uses}) > 1:
            return None
        if len({(use.x_m, use.y_m, use.z_m) for use in uses}) == 1:
            return None
        gaps = [_apart(a, b) for a, b in pairwise(uses)]
        return Run(round(max(gaps), 9), None)

    def _place_of(self, group: Group) -> str:
        first = next(members_of(group))
        return self.devices[self.uses[first].device].position

    def _own_circuits(self) -> None:
        """A device that no circuit wires gets one of its own name."""
        wired = {name for circuit in self.circuits.values() for name in members_of(circuit.wiring)}
        for device in self.devices.values():
            if len(device.matches) > 1 or device.matches[0] in wired or device.name in self.book.touched:
                continue
            if self.book.has(("circuit",), device.name):
                continue
            span = self.book.place(f"device:{device.name}")
            if span is not None:
                self.book.put(f"circuit:{device.name}", "", span)
            group = Group("single", device.matches, lead=Run(None, None))
            self.circuits[device.name] = Circuit(
                device.name, group, None, None, device.position, device.name if device.key else None
            )

    def _say(self, rule: str, headline: str, span: Span, hint: str) -> None:
        self.book.findings.append(Finding(rule, headline, span, hint=hint))


def members_of(group: Group) -> Iterator[str]:
    """All matches of a group, nested ones too, in wiring order."""
    for member in group.members:
        if isinstance(member, Group):
            yield from members_of(member)
        else:
            yield member


def _along(ends: tuple[Position, Position | None], offset_m: float) -> tuple[float, float, float]:
    """A point on the line of a falls, `offset_m` from its middle; along x where it has one place."""
    first, last = ends
    if last is None:
        return first.x_m + offset_m, first.y_m, first.z_m
    delta = (last.x_m - first.x_m, last.y_m - first.y_m, last.z_m - first.z_m)
    length = sum(d * d for d in delta) ** 0.5 or 1.0
    middle = ((first.x_m + last.x_m) / 2, (first.y_m + last.y_m) / 2, (first.z_m + last.z_m) / 2)
    x, y, z = (m + d / length * offset_m for m, d in zip(middle, delta, strict=True))
    return x, y, z


def _apart(a: MatchUse, b: MatchUse) -> float:
    return float(((a.x_m - b.x_m) ** 2 + (a.y_m - b.y_m) ** 2 + (a.z_m - b.z_m) ** 2) ** 0.5)


def _text(record: Record, key: str) -> str | None:
    names: tuple[Name, ...] | None = record.get(key)
    return names[0].text if names else None
