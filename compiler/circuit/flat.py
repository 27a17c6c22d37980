"""A wiring tree as flat arrays in post-order: children before parents, no recursion anywhere.

The cable, legs and joints that lie in one series are merged into one leaf: only their sum
matters to any current. What is left of a circuit with one match is a wire and a bridge.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from compiler.model.solved import Parallel, Series

if TYPE_CHECKING:
    from compiler.model.solved import Branch, Element, Wiring

WIRE, BRIDGE, SERIES, PARALLEL = 0, 1, 2, 3

Ohms = tuple[float, float, float, float, float, float]
"""low, its rise per kelvin, nominal, its rise, high, its rise; ohm at 20 degC and ohm per kelvin."""

NOTHING: Ohms = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


class Flat(NamedTuple):
    """Node `i` is `kinds[i]` with children `kids[i]`; leaves have `ohms[i]`; the last is the root.

    `front` is the lead in front of everything: what a short at its far end still has in series.
    The names of the matches are not part of it: equal circuits have equal `Flat`s.
    """

    kinds: tuple[int, ...]
    kids: tuple[tuple[int, ...], ...]
    ohms: tuple[Ohms, ...]
    front: Ohms


class _Open:
    """A branch whose parts are being flattened."""

    __slots__ = ("kids", "next", "parts", "series", "wire")

    def __init__(self, branch: Branch) -> None:
        self.series = not isinstance(branch, Parallel)
        self.parts = (branch,) if isinstance(branch, str) else branch.parts
        self.next = 0
        self.kids: list[int] = []
        self.wire: Ohms | None = None


def flatten(wiring: Wiring) -> tuple[Flat, tuple[str, ...]]:
    """The flat tree and the names of its matches in the order of its bridge leaves."""
    kinds: list[int] = []
    kids: list[tuple[int, ...]] = []
    ohms: list[Ohms] = []
    names: list[str] = []

    def node(kind: int, children: tuple[int, ...], values: Ohms) -> int:
        kinds.append(kind)
        kids.append(children)
        ohms.append(values)
        return len(kinds) - 1

    stack = [_Open(wiring.tree)]
    while True:
        top = stack[-1]
        if top.next < len(top.parts):
            part = top.parts[top.next]
            top.next += 1
            if isinstance(part, (Series, Parallel)):
                stack.append(_Open(part))
                continue
            element = wiring.elements[part]
            values = _ohms(element)
            if element.what == "bridge":
                names.append(element.match or "")
                top.kids.append(node(BRIDGE, (), values))
            elif top.series:
                top.wire = values if top.wire is None else _add(top.wire, values)
            else:
                top.kids.append(node(WIRE, (), values))
            continue
        if top.wire is not None:
            top.kids.append(node(WIRE, (), top.wire))
        kind = SERIES if top.series else PARALLEL
        done = top.kids[0] if len(top.kids) == 1 else node(kind, tuple(top.kids), NOTHING)
        stack.pop()
        if not stack:
            return Flat(tuple(kinds), tuple(kids), tuple(ohms), _front(wiring)), tuple(names)
        stack[-1].kids.append(done)


def _ohms(element: Element) -> Ohms:
    """The resistance of one element with its rise per kelvin."""
    low, nominal, high = element.ohm_20
    alpha = element.alpha_per_k
    return low, low * alpha, nominal, nominal * alpha, high, high * alpha


def _add(a: Ohms, b: Ohms) -> Ohms:
    """Two resistances in series."""
    return a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3], a[4] + b[4], a[5] + b[5]


def _front(wiring: Wiring) -> Ohms:
    """The leads that lie in front of the whole circuit."""
    tree = wiring.tree
    front = NOTHING
    for part in tree.parts if isinstance(tree, Series) else ():
        if not isinstance(part, str) or wiring.elements[part].what != "lead":
            break
        front = _add(front, _ohms(wiring.elements[part]))
    return front
