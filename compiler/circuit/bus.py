"""All circuits alive on one supply at one moment: one tree of supply, feeds, rails and channels.

A channel with a constant drop d and resistance r in all draws `i = G V - J` from its rail, with
`G = 1/r` and `J = d/r`; a feed f in front of such a load makes it `G/(1 + f G)`, `J/(1 + f G)`.
So one walk up gives what every rail draws and one walk down the Thévenin source that every
channel sees, its own path at one corner and everything beside it at the other.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from compiler.circuit.walks import others

if TYPE_CHECKING:
    from collections.abc import Sequence

    from compiler.circuit.lines import Line

Load = tuple[float, float]
"""(G, J): siemens and ampere."""

Source = tuple[float, float]
"""(E, R): volt and ohm."""

DRY: Load = (0.0, 0.0)

LEAST_OHM = 1e-12
"""What a channel without any resistance counts as, so that its conductance stays finite."""


class Net(NamedTuple):
    """The shape of one moment. Node 0 is the supply; the rails follow, feeders first.

    `parent[n]` feeds node n; `hands_on[n]` are the rails that it feeds;
    `channels[n]` are the circuits on it, as indices into the moment's circuits.
    """

    lines: tuple[Line | None, ...]
    parent: tuple[int, ...]
    hands_on: tuple[tuple[int, ...], ...]
    channels: tuple[tuple[int, ...], ...]


def net(lines: Sequence[Line], known: dict[str, Line]) -> Net:
    """The shape for the lines of the circuits alive; `known` finds the rails in between."""
    needed: dict[str, Line] = {}
    for line in lines:
        here: Line | None = line
        while here is not None and here.rail not in needed:
            needed[here.rail] = here
            here = known[here.parent] if here.parent is not None else None
    ordered = sorted(needed.values(), key=lambda line: (line.depth, line.rail))
    index = {line.rail: n for n, line in enumerate(ordered, 1)}
    channels: list[list[int]] = [[] for _ in range(len(ordered) + 1)]
    hands_on: list[list[int]] = [[] for _ in range(len(ordered) + 1)]
    for k, line in enumerate(lines):
        channels[index[line.rail]].append(k)
    parent = [0]
    for n, line in enumerate(ordered, 1):
        parent.append(0 if line.parent is None else index[line.parent])
        hands_on[parent[n]].append(n)
    return Net(
        (None, *ordered),
        tuple(parent),
        tuple(map(tuple, hands_on)),
        tuple(map(tuple, channels)),
    )


def load(ohm: float, drop_v: float) -> Load:
    """A channel as its rail sees it."""
    g = 1.0 / max(ohm, LEAST_OHM)
    return g, g * drop_v


def through(feed_ohm: float, drawn: Load) -> Load:
    """A load seen through a feed."""
    g, j = drawn
    scale = 1.0 + feed_ohm * g
    return g / scale, j / scale


def beside(source: Source, siblings: Load) -> Source:
    """A source with a load hung beside what is looked at."""
    e, r = source
    g, j = siblings
    scale = 1.0 + r * g
    return (e + r * j) / scale, r / scale


def drawn_a(source: Source, drawn: Load) -> float:
    """The current that a load takes from a source."""
    e, r = source
    g, j = drawn
    return (g * e - j) / (1.0 + g * r)


def total(loads: Sequence[Load]) -> Load:
    """Loads side by side."""
    return sum([g for g, _ in loads]), sum([j for _, j in loads])


def rail_loads(shape: Net, feeds: Sequence[float], loads: Sequence[Load]) -> list[Load]:
    """What every node draws in all: its channels and the rails it feeds. `feeds` by node in ohm."""
    drawn = [DRY] * len(shape.parent)
    for node in range(len(shape.parent) - 1, -1, -1):
        here = [loads[k] for k in shape.channels[node]]
        here += [through(feeds[child], drawn[child]) for child in shape.hands_on[node]]
        drawn[node] = total(here)
    return drawn


class Seen(NamedTuple):
    """The sources found by the walk down.

    `channels[k]`  the source that circuit k's driver sees, everything beside it included;
    `nodes[n]`     the source that node n sees through its own feed, before anything it carries;
    `least_v[n]`   the voltage at node n with everything on it drawing.
    """

    channels: list[Source]
    nodes: list[Source]
    least_v: list[float]


def walk(
    shape: Net,
    source: Source,
    path: Sequence[float],
    siblings: Sequence[float],
    loads: Sequence[Load],
) -> Seen:
    """Sources for every channel and rail.

    `source` is the supply; `path` the feeds in ohm by node where they lie before what is looked
    at, `siblings` where they lie beside it; `loads` the channels as siblings.
    """
    drawn = rail_loads(shape, siblings, loads)
    nodes = [source] * len(shape.parent)
    channels = [source] * len(loads)
    least_v = [0.0] * len(shape.parent)
    for node in range(len(shape.parent)):
        here = nodes[node]
        e, r = here
        least_v[node] = (e + r * drawn[node][1]) / (1.0 + r * drawn[node][0])
        mine, fed = shape.channels[node], shape.hands_on[node]
        side = [loads[k] for k in mine]
        side += [through(siblings[child], drawn[child]) for child in fed]
        rest = [
            beside(here, other)
            for other in zip(others([g for g, _ in side]), others([j for _, j in side]), strict=True)
        ]
        for k, seen in zip(mine, rest, strict=False):
            channels[k] = seen
        for child, (e_child, r_child) in zip(fed, rest[len(mine) :], strict=True):
            nodes[child] = (e_child, r_child + path[child])
    return Seen(channels, nodes, least_v)
