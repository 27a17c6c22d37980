"""One walk up and one walk down a flat tree.

Up: the resistance of every branch. Down: the source that every match sees, as a function of the
source (E, R) at the channel. A match's current is `E / (a + b R)`: every step down either puts
a resistance s in series with the source,

    E' = E / (p + q R),  R' = (u + v R) / (p + q R);   u += s p,  v += s q,

or a conductance G across it: `p += u G, q += v G`. A bridge r at the end gets
`a = u + r p, b = v + r q`. Only sums of positive numbers occur, so nothing cancels, and the pair
(a, b) of a match serves for every supply and every instant. Beside a dead short p and q are
infinite and a match gets nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from compiler.circuit.flat import BRIDGE, PARALLEL, SERIES

if TYPE_CHECKING:
    from collections.abc import Sequence

    from compiler.circuit.flat import Flat

INFINITE = float("inf")

Pair = tuple[float, float]


def walk_up(flat: Flat, leaves: Sequence[float]) -> list[float]:
    """The resistance of every branch in ohm, from those of the leaves (same index)."""
    ohm = list(leaves)
    for index, kind in enumerate(flat.kinds):
        if kind == SERIES:
            ohm[index] = sum([ohm[kid] for kid in flat.kids[index]])
        elif kind == PARALLEL:
            side = [ohm[kid] for kid in flat.kids[index]]
            ohm[index] = 1.0 / sum([1.0 / each for each in side]) if min(side) > 0.0 else 0.0
    return ohm


def others(values: Sequence[float]) -> list[float]:
    """For each value the sum of all others, by prefix and suffix: subtracting would lose digits."""
    after = [0.0] * len(values)
    total = 0.0
    for index in range(len(values) - 1, -1, -1):
        after[index] = total
        total += values[index]
    before = 0.0
    for index, value in enumerate(values):
        after[index] += before
        before += value
    return after


def walk_down(flat: Flat, in_series: Sequence[float], beside: Sequence[float], own: Sequence[float]) -> list[Pair]:
    """(a, b) of every match, in the order of the bridges.

    `in_series`  resistance of each branch where it lies in series with the match;
    `beside`     resistance of each branch where it lies in parallel;
    `own`        resistance of each bridge for its own current.
    """
    kinds, kids = flat.kinds, flat.kids
    size = len(kinds)
    state: list[tuple[float, float, float, float]] = [(1.0, 0.0, 0.0, 1.0)] * size
    for index in range(size - 1, -1, -1):
        children = kids[index]
        if not children:
            continue
        p, q, u, v = state[index]
        if kinds[index] == SERIES:
            for kid, s in zip(children, others([in_series[k] for k in children]), strict=True):
                state[kid] = (p, q, u + s * p, v + s * q) if p < INFINITE else state[index]
        else:
            siemens = [1.0 / beside[k] if beside[k] > 0.0 else INFINITE for k in children]
            for kid, g in zip(children, others(siemens), strict=True):
                dead = INFINITE in (g, p)
                state[kid] = (INFINITE, INFINITE, u, v) if dead else (p + u * g, q + v * g, u, v)
    pairs: list[Pair] = []
    for index, kind in enumerate(kinds):
        if kind == BRIDGE:
            p, q, u, v = state[index]
            dead = p == INFINITE
            pairs.append((INFINITE, 0.0) if dead else (u + own[index] * p, v + own[index] * q))
    return pairs


def path_ohms(flat: Flat, in_series: Sequence[float], own: Sequence[float]) -> list[float]:
    """Resistance in series with every match, itself included, with all parallel siblings open."""
    kinds, kids = flat.kinds, flat.kids
    path = [0.0] * len(kinds)
    for index in range(len(kinds) - 1, -1, -1):
        children = kids[index]
        if kinds[index] == SERIES:
            for kid, s in zip(children, others([in_series[k] for k in children]), strict=True):
                path[kid] = path[index] + s
        else:
            for kid in children:
                path[kid] = path[index]
    return [path[i] + own[i] for i, kind in enumerate(kinds) if kind == BRIDGE]
