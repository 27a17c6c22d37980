"""Nodal analysis of any network of resistors and voltage sources, dense, with numpy.

It knows nothing of trees, corners or circuits: a network is a list of edges between nodes.
Modified nodal analysis as in any textbook on circuits: one row per node (Kirchhoff's current
law), one row and one unknown current per voltage source; a resistor of no ohm makes its two
nodes one, and its own current is not told. Node 0 is ground.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True)
class Edge:
    """Between nodes `a` and `b`: a resistor of `share` times the ohms of `key`."""

    key: str
    a: int
    b: int
    share: float = 1.0


@dataclass(frozen=True)
class Volts:
    """A source that lifts node `a` above node `b` by the volts of `key`."""

    key: str
    a: int
    b: int


@dataclass
class Network:
    """Edges and sources; values are given when it is solved, by key."""

    edges: list[Edge] = field(default_factory=list)
    volts: list[Volts] = field(default_factory=list)
    nodes: int = 1

    def node(self) -> int:
        """A new node."""
        self.nodes += 1
        return self.nodes - 1


@dataclass(frozen=True)
class Answer:
    """Currents by key: from `a` to `b` through the first edge of a key, out of `a` of a source.

    `rises[key]` is the derivative of the watched current by the value of that key, where one
    was watched.
    """

    amps: dict[str, float]
    rises: list[dict[str, float]]


def solve(
    network: Network,
    values: dict[str, float],
    *,
    absent: frozenset[str] = frozenset(),
    watch: tuple[str, ...] = (),
) -> Answer:
    """Solve for all currents; `absent` edges are left out.

    For each key of `watch` (a resistor) also the sensitivities, by the adjoint network: the
    matrix is symmetric, so one more right-hand side gives all of them.
    """
    edges, volts = live(network, values, absent)
    nodes = {node for e in (*edges, *volts) for node in (e.a, e.b)}
    row = {node: k for k, node in enumerate(sorted(nodes - {0}))}
    size = len(row) + len(volts)
    matrix = np.zeros((size, size))
    for e in edges:
        _stamp(matrix, row, e.a, e.b, 1.0 / (values[e.key] * e.share))
    for k, v in enumerate(volts, len(row)):
        _tie(matrix, row, k, v.a, v.b)
    right = np.zeros((size, 1 + len(watch)))
    for k, v in enumerate(volts, len(row)):
        right[k, 0] = values[v.key]
    for column, key in enumerate(watch, 1):
        edge = next(e for e in edges if e.key == key)
        for node, sign in ((edge.a, 1.0), (edge.b, -1.0)):
            if node:
                right[row[node], column] += sign / (values[key] * edge.share)
    return _answer(edges, volts, values, row, np.linalg.solve(matrix, right), watch)


def live(network: Network, values: dict[str, float], absent: frozenset[str]) -> tuple[list[Edge], list[Volts]]:
    """What is left to solve: nodes joined by no ohm are one, and what hangs loose is left out."""
    same = list(range(network.nodes))

    def root(node: int) -> int:
        while same[node] != node:
            node = same[node]
        return node

    present = [e for e in network.edges if e.key not in absent]
    for e in present:
        if values[e.key] == 0.0:
            a, b = root(e.a), root(e.b)
            same[max(a, b)] = min(a, b)
    edges = [Edge(e.key, root(e.a), root(e.b), e.share) for e in present if values[e.key] != 0.0]
    volts = [Volts(v.key, root(v.a), root(v.b)) for v in network.volts]
    near: dict[int, list[int]] = {}
    for each in (*edges, *volts):
        near.setdefault(each.a, []).append(each.b)
        near.setdefault(each.b, []).append(each.a)
    reached, stack = {0}, [0]
    while stack:
        for node in near.get(stack.pop(), ()):
            if node not in reached:
                reached.add(node)
                stack.append(node)
    return (
        [e for e in edges if e.a in reached],
        [v for v in volts if v.a in reached],
    )


def _stamp(matrix: NDArray[np.float64], row: dict[int, int], a: int, b: int, siemens: float) -> None:
    """Put one conductance into the matrix."""
    for x, y in ((a, b), (b, a)):
        if x:
            matrix[row[x], row[x]] += siemens
            if y:
                matrix[row[x], row[y]] -= siemens


def _tie(matrix: NDArray[np.float64], row: dict[int, int], k: int, a: int, b: int) -> None:
    """Put one voltage source with its unknown current `k` into the matrix."""
    for node, sign in ((a, 1.0), (b, -1.0)):
        if node:
            matrix[row[node], k] += sign
            matrix[k, row[node]] += sign


def _answer(
    edges: list[Edge],
    volts: list[Volts],
    values: dict[str, float],
    row: dict[int, int],
    solved: NDArray[np.float64],
    watch: tuple[str, ...],
) -> Answer:
    """Currents and sensitivities from the solved columns; what is not live carries nothing."""
    amps = {key: 0.0 for key, value in values.items() if value != 0.0}

    def across(e: Edge, column: int) -> float:
        high = solved[row[e.a], column] if e.a else 0.0
        low = solved[row[e.b], column] if e.b else 0.0
        return float(high - low)

    for e in reversed(edges):
        amps[e.key] = across(e, 0) / (values[e.key] * e.share)
    for k, v in enumerate(volts, len(row)):
        amps[v.key] = -float(solved[k, 0])
    rises = []
    for column, key in enumerate(watch, 1):
        rise = dict.fromkeys(values, 0.0)
        for e in edges:
            ohm = values[e.key] * e.share
            change = across(e, 0) * across(e, column) / (ohm * ohm) * e.share
            if e.key == key:
                change -= amps[key] / values[key]
            rise[e.key] += change
        for k, v in enumerate(volts, len(row)):
            rise[v.key] += float(solved[k, column])
        rises.append(rise)
    return Answer(amps, rises)
