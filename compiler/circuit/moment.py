"""One moment on one supply: the source that each circuit sees, and what everything carries."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from compiler.circuit.bus import (
    LEAST_OHM,
    beside,
    drawn_a,
    load,
    net,
    rail_loads,
    through,
    total,
    walk,
)
from compiler.circuit.table import TIE
from compiler.model.quantities import Range
from compiler.model.solved import RailLoad

if TYPE_CHECKING:
    from collections.abc import Sequence

    from compiler.circuit.bus import Load, Net, Seen, Source
    from compiler.circuit.lines import Line
    from compiler.circuit.table import Table


class Sources(NamedTuple):
    """A line's own corners with nothing else on the supply: (E, R) behind driver and drop."""

    least: Source
    nominal: Source
    greatest: Source


class Drive(NamedTuple):
    """What one circuit sees at its terminals at one moment.

    `least`    supply low, own path high, everything beside it low and drawing;
    `shorted`  the same with the quickest match of the other circuits shorted; None where alone.
    """

    least: Source
    nominal: Source
    shorted: Source | None


class Loads(NamedTuple):
    """What the supply, its rails and its feeds carry at one moment, in ampere.

    `greatest` has every circuit alive shorted at its match end. A rail's own figure counts its
    own channels with all other rails absent; a feed's all that is behind it with the rest absent.
    So each is the most that it can carry, and they need not add up.
    """

    supply_a: Range
    rails: tuple[RailLoad, ...]
    feeds: dict[str, Range]


def sources(line: Line) -> Sources:
    """The corners of a line alone on its supply."""
    emf, path, driver, drop = line.emf_v, line.path_ohm, line.driver_ohm, line.drop_v
    return Sources(
        (emf.low - drop.high, path.high + driver.high),
        (emf.nominal - drop.nominal, path.nominal + driver.nominal),
        (emf.high - drop.low, path.low + driver.low),
    )


def alone(line: Line, table: Table) -> Loads:
    """The loads of a moment with one circuit."""
    (e_least, r_least), (e, r), (e_most, r_most) = sources(line)
    amps = Range(
        e_least / (r_least + table.high_ohm),
        e / (r + table.nominal_ohm),
        e_most / (r_most + table.front_low_ohm),
    )
    return Loads(amps, (RailLoad(line.rail, amps, 1),), dict.fromkeys(line.feeds, amps))


class Together:
    """Several circuits alive on one supply: `lines[k]` and `tables[k]` are circuit k's."""

    def __init__(self, lines: Sequence[Line], tables: Sequence[Table], known: dict[str, Line]) -> None:
        self._lines = lines
        self._tables = tables
        self._net: Net = net(lines, known)
        rails = self._net.lines[1:]
        self._feeds = [[0.0, *(line.feed_ohm[corner] for line in rails if line is not None)] for corner in range(3)]
        pairs = list(zip(lines, tables, strict=True))
        self._low = [load(n.driver_ohm.low + t.low_ohm, n.drop_v.low) for n, t in pairs]
        self._nominal = [load(n.driver_ohm.nominal + t.nominal_ohm, n.drop_v.nominal) for n, t in pairs]
        self._high = [load(n.driver_ohm.high + t.high_ohm, n.drop_v.high) for n, t in pairs]
        self._short = [load(n.driver_ohm.low + t.front_low_ohm, n.drop_v.low) for n, t in pairs]
        self._seen_least = self._least(self._low)
        emf, inner = lines[0].emf_v, lines[0].inner_ohm
        feeds = self._feeds[1]
        self._seen_nominal = walk(self._net, (emf.nominal, inner.nominal), feeds, feeds, self._nominal)

    def drives(self) -> list[Drive]:
        """What each circuit sees, in the order given."""
        nominal = [
            (e - line.drop_v.nominal, r + line.driver_ohm.nominal)
            for (e, r), line in zip(self._seen_nominal.channels, self._lines, strict=True)
        ]
        least = self._behind_driver(self._seen_least)
        shorted = self._shorted(nominal)
        return [Drive(*each) for each in zip(least, nominal, shorted, strict=True)]

    def loads(self) -> Loads:
        """What supply, rails and feeds carry."""
        shape, seen, nominal = self._net, self._seen_least, self._seen_nominal
        low, middle, high = self._feeds
        line = self._lines[0]
        drawn_low = rail_loads(shape, low, self._low)
        drawn_nominal = rail_loads(shape, middle, self._nominal)
        drawn_high = rail_loads(shape, high, self._high)
        drawn_short = rail_loads(shape, low, self._short)
        rails, feeds = [], {}
        for node, here in enumerate(shape.lines):
            if here is None:
                continue
            strong = (here.emf_v.high, here.path_ohm.low)
            feeds[here.feeds[-1]] = Range(
                drawn_a(seen.nodes[node], drawn_high[node]),
                drawn_a(nominal.nodes[node], drawn_nominal[node]),
                drawn_a(strong, drawn_short[node]),
            )
            mine = shape.channels[node]
            if mine:
                own = self._own(node, seen, drawn_low, self._high, 0)
                usual = self._own(node, nominal, drawn_nominal, self._nominal, 1)
                most = drawn_a(strong, total([self._short[k] for k in mine]))
                rails.append(RailLoad(here.rail, Range(own, usual, most), len(mine)))
        emf, inner = line.emf_v, line.inner_ohm
        supply = Range(
            drawn_a((emf.low, inner.high), drawn_high[0]),
            drawn_a((emf.nominal, inner.nominal), drawn_nominal[0]),
            drawn_a((emf.high, inner.low), drawn_short[0]),
        )
        rails.sort(key=lambda each: each.rail)
        return Loads(supply, tuple(rails), dict(sorted(feeds.items())))

    def _own(self, node: int, seen: Seen, drawn: Sequence[Load], own: Sequence[Load], corner: int) -> float:
        """The current of a rail's own channels, with the rails it feeds beside them."""
        feeds = self._feeds[corner]
        fed = [through(feeds[child], drawn[child]) for child in self._net.hands_on[node]]
        source = beside(seen.nodes[node], total(fed))
        return drawn_a(source, total([own[k] for k in self._net.channels[node]]))

    def _least(self, loads: Sequence[Load]) -> Seen:
        """Sources with the supply low, own path high and `loads` beside it.

        A sibling whose rail may sag below its driver's drop carries nothing, never a current
        backwards. Where that can happen the siblings are taken without their drop: they then draw
        more than they can, and what is left is a bound on the safe side.
        """
        emf, inner = self._lines[0].emf_v, self._lines[0].inner_ohm
        low, _, high = self._feeds
        source = (emf.low, inner.high)
        seen = walk(self._net, source, high, low, loads)
        if all(
            line is None or not line.drop_v.high or seen.least_v[node] > line.drop_v.high
            for node, line in enumerate(self._net.lines)
        ):
            return seen
        return walk(self._net, source, high, low, [(g, 0.0) for g, _ in loads])

    def _behind_driver(self, seen: Seen) -> list[Source]:
        """The least sources at the terminals: drop and driver high."""
        return [
            (e - line.drop_v.high, r + line.driver_ohm.high)
            for (e, r), line in zip(seen.channels, self._lines, strict=True)
        ]

    def _shorted(self, nominal: Sequence[Source]) -> list[Source]:
        """Per circuit the least source with the quickest match of all other circuits shorted."""
        quick_a = [
            e / (b * max(r + table.nominal_ohm, LEAST_OHM))
            for (e, r), table in zip(nominal, self._tables, strict=True)
            for b in (table.quickest_b,)
        ]
        order = sorted(range(len(quick_a)), key=lambda other: -quick_a[other])
        found: dict[int, list[Source]] = {}
        result = []
        for k in range(len(order)):
            other = self._quickest_other(k, quick_a, order)
            if other not in found:
                line, table = self._lines[other], self._tables[other]
                loads = list(self._low)
                loads[other] = load(line.driver_ohm.low + table.shorted_ohm, line.drop_v.low)
                found[other] = self._behind_driver(self._least(loads))
            result.append(found[other][k])
        return result

    def _quickest_other(self, k: int, quick_a: Sequence[float], order: Sequence[int]) -> int:
        """The other circuit with the quickest match; among equals one on the same rail."""
        first = order[1] if order[0] == k else order[0]
        least = quick_a[first] - abs(quick_a[first]) * TIE
        rail = self._lines[k].rail
        for other in order:
            if quick_a[other] < least:
                break
            if other != k and self._lines[other].rail == rail:
                return other
        return first
