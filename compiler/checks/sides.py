"""Which side of a crowd line a point is on, shared by the rules of crowds.

The line's ends are drawn on straight for ever; a line that ends where it begins is closed. The side of
a point is its side of the nearest stretch; at a corner, of the bisector: the sign is then right for
every line that does not cross itself.
"""

from __future__ import annotations

from itertools import pairwise
from math import hypot
from typing import NamedTuple

from compiler.model.types import CrowdLine, Place

Point = tuple[float, float]

ON_LINE_M = 0.001
"""Coordinates are compared to the millimetre."""
_FAR = 1e5  # an end is drawn on by this many metres: beyond every site


class Side(NamedTuple):
    """How far a point is from the line, in metres: more than 0 on its left, less on its right."""

    m: float

    @property
    def on_line(self) -> bool:
        """True for a point on the line."""
        return abs(self.m) <= ON_LINE_M


def _course(line: CrowdLine) -> list[Point]:
    """The line's points, each once in a row, its ends drawn on unless it is closed."""
    points: list[Point] = []
    for x, y, _ in line.points_m:
        if not points or points[-1] != (x, y):
            points.append((x, y))
    if len(points) > 1 and points[0] != points[-1]:
        points = [_beyond(points[1], points[0]), *points[1:-1], _beyond(points[-2], points[-1])]
    return points


def _beyond(before: Point, end: Point) -> Point:
    """A point far beyond the end of a stretch, on its line."""
    dx, dy = end[0] - before[0], end[1] - before[1]
    length = hypot(dx, dy)
    return end[0] + dx / length * _FAR, end[1] + dy / length * _FAR


def _left(a: Point, b: Point, p: Point) -> float:
    """How far `p` is left of the line through `a` and `b`."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    return (dx * (p[1] - a[1]) - dy * (p[0] - a[0])) / hypot(dx, dy)


def _distance(a: Point, b: Point, p: Point) -> float:
    """The distance of `p` from a stretch."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    along = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)
    along = min(1.0, max(0.0, along))
    return hypot(p[0] - a[0] - along * dx, p[1] - a[1] - along * dy)


def side_of(line: CrowdLine, point: Point) -> Side | None:
    """The side of a point; None for a line that has no direction, all of its points being one."""
    stretches = list(pairwise(_course(line)))
    if not stretches:
        return None
    distances = [_distance(a, b, point) for a, b in stretches]
    nearest = min(distances)
    # At a corner two stretches are equally near; the sum of their normals tells the side.
    left = sum(_left(a, b, point) for (a, b), d in zip(stretches, distances, strict=True) if d <= nearest + 1e-9)
    return Side(nearest if left >= 0.0 else -nearest)


def our_side(line: CrowdLine, firing_points: list[Place]) -> float | None:
    """1 or -1, the sign of the side that the firing points are on; None where they do not show it."""
    sides = [side_of(line, (place.x_m, place.y_m)) for place in firing_points]
    known = [side for side in sides if side is not None and not side.on_line]
    signs = {1.0 if side.m > 0 else -1.0 for side in known}
    return signs.pop() if len(known) == len(sides) and len(signs) == 1 else None
