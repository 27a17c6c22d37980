"""What a circuit is to any source: its resistances and the pair (a, b) of every match per corner.

Computed once for circuits of equal content, whatever their names, rails and instants.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from compiler.circuit.flat import BRIDGE, PARALLEL
from compiler.circuit.temperature import REFERENCE_C
from compiler.circuit.walks import path_ohms, walk_down, walk_up

if TYPE_CHECKING:
    from collections.abc import Sequence

    from compiler.circuit.flat import Flat
    from compiler.circuit.walks import Pair

TIE = 1e-9
"""Currents that differ by less than this share count as equal: both matches are the quickest."""


class Table(NamedTuple):
    """Per circuit; lists are in the order of its matches.

    `low_ohm`, `nominal_ohm`, `high_ohm`  of the circuit over the ambient range, 20 degC nominal;
    `front_low_ohm`   of the lead alone, coldest;
    `least`           own path high, siblings low: i = E / (a + b R);
    `nominal`         everything nominal;
    `greatest_ohm`    in series with the match, parallel siblings open, series siblings shorted;
    `sibling`         as `least`, with the quickest other match shorted; several where several
                      are equally quick, none where there is no other;
    `quickest_b`      b of the quickest match: its share of the channel's current is 1 / b;
    `shorted_ohm`     the circuit at its low end with its quickest match shorted;
    `readings`        (degC, low, nominal, high) without meter error.
    """

    low_ohm: float
    nominal_ohm: float
    high_ohm: float
    front_low_ohm: float
    least: tuple[Pair, ...]
    nominal: tuple[Pair, ...]
    greatest_ohm: tuple[float, ...]
    sibling: tuple[tuple[Pair, ...], ...]
    quickest_b: float
    shorted_ohm: float
    readings: tuple[tuple[float, float, float, float], ...]


class _Corners(NamedTuple):
    """Resistance of every branch with all leaves low, nominal or high."""

    low: list[float]
    nominal: list[float]
    high: list[float]


def table(flat: Flat, span_c: tuple[float, float], at_c: Sequence[float]) -> Table:
    """The table of one circuit over an ambient span, with readings at some temperatures in degC."""
    cold, hot = span_c[0] - REFERENCE_C, span_c[1] - REFERENCE_C
    ohms = flat.ohms
    corners = _Corners(
        walk_up(flat, [o[0] + cold * o[1] for o in ohms]),
        walk_up(flat, [o[2] for o in ohms]),
        walk_up(flat, [o[4] + hot * o[5] for o in ohms]),
    )
    cheapest = walk_up(
        flat,
        [0.0 if k == BRIDGE else low for k, low in zip(flat.kinds, corners.low, strict=True)],
    )
    nominal = walk_down(flat, corners.nominal, corners.nominal, corners.nominal)
    quick, sibling = _siblings(flat, corners, nominal)
    return Table(
        low_ohm=corners.low[-1],
        nominal_ohm=corners.nominal[-1],
        high_ohm=corners.high[-1],
        front_low_ohm=flat.front[0] + cold * flat.front[1],
        least=tuple(walk_down(flat, corners.high, corners.low, corners.high)),
        nominal=tuple(nominal),
        greatest_ohm=tuple(path_ohms(flat, cheapest, corners.low)),
        sibling=sibling,
        quickest_b=nominal[quick][1],
        shorted_ohm=walk_up(flat, _shorted(flat, corners.low, quick))[-1],
        readings=tuple(_reading(flat, t) for t in at_c),
    )


def _reading(flat: Flat, at_c: float) -> tuple[float, float, float, float]:
    """(degC, low, nominal, high) of the circuit with its cable at one temperature."""
    rise = at_c - REFERENCE_C
    nominal = walk_up(flat, [o[2] + rise * o[3] for o in flat.ohms])[-1]
    low = walk_up(flat, [o[0] + rise * o[1] for o in flat.ohms])[-1]
    high = walk_up(flat, [o[4] + rise * o[5] for o in flat.ohms])[-1]
    return at_c, low, nominal, high


def _shorted(flat: Flat, branches: Sequence[float], match: int) -> list[float]:
    """Leaf resistances with one match, counted among the bridges, as a short."""
    leaves = list(branches)
    leaves[_bridges(flat)[match]] = 0.0
    return leaves


def _bridges(flat: Flat) -> list[int]:
    """The nodes that are bridges, in order."""
    return [index for index, kind in enumerate(flat.kinds) if kind == BRIDGE]


def _siblings(flat: Flat, corners: _Corners, nominal: Sequence[Pair]) -> tuple[int, tuple[tuple[Pair, ...], ...]]:
    """The quickest match and, per match, its pairs with the quickest other one shorted."""
    count = len(nominal)
    if count == 1:
        return 0, ((),)
    rank = sorted(range(count), key=lambda m: nominal[m][1])
    ties = [m for m in rank if nominal[m][1] <= nominal[rank[0]][1] * (1.0 + TIE)]
    ties.sort()
    quick = ties[0]
    if len(ties) == 1:
        chosen = [quick, rank[1]]
    else:
        beside = _first_beside(flat, quick, ties)
        chosen = [quick, ties[1]] if beside in (None, ties[1]) else [quick, ties[1], beside]
    pairs = {}
    for short in chosen:
        high = walk_up(flat, _shorted(flat, corners.high, short))
        low = walk_up(flat, _shorted(flat, corners.low, short))
        pairs[short] = walk_down(flat, high, low, high)
    if len(ties) == 1:
        use = [[rank[1]] if m == quick else [quick] for m in range(count)]
    else:
        use = [[short for short in chosen if short != m] for m in range(count)]
    return quick, tuple(tuple(pairs[short][m] for short in use[m]) for m in range(count))


def _first_beside(flat: Flat, quick: int, ties: Sequence[int]) -> int | None:
    """The first equally quick match that lies in parallel with `quick`, not in series with it."""
    parent = [-1] * len(flat.kinds)
    for index, kids in enumerate(flat.kids):
        for kid in kids:
            parent[kid] = index
    bridges = _bridges(flat)
    above = set()
    node = bridges[quick]
    while node >= 0:
        above.add(node)
        node = parent[node]
    for match in ties:
        node = bridges[match]
        while node not in above:
            node = parent[node]
        if flat.kinds[node] == PARALLEL:
            return match
    return None
