"""Everything stands on the crew's side of the crowd line.

Protects from
    A mortar among the audience: a minus sign left out of a coordinate, a place of last year's site.

How it is computed
    Places of devices, rails, supplies and racks, and the matches and ends of falls, against every crowd
    line. The firing point is on the crew's side. The ends of the line are drawn on straight, so that
    what stands beyond an end is told too; a line that ends where it begins is closed. On the line, to
    the millimetre, is not on the crew's side. A falls of one match counts by its middle.

Limit and source
    The line itself. Never waived. Distances to the crowd are another matter: this is the sign alone.

Breaks it
    crowd Quayside along (-90 m, -110 m), (90 m, -110 m)
    firing-point Hut at -60 m, -60 m
    position Q1 at 0 m, -120 m
    device Gold-1 of comet-gold at Q1

Keeps it
    crowd Quayside along (-90 m, -110 m), (90 m, -110 m)
    firing-point Hut at -60 m, -60 m
    position Q1 at 0 m, 0 m
    device Gold-1 of comet-gold at Q1
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import hypot

from compiler.checks.rule import rule
from compiler.checks.sides import Point, our_side, side_of
from compiler.checks.words import in_order, names, quantity
from compiler.model.solved import Solved
from compiler.model.types import CrowdLine, Device, Model
from grammar.findings import Finding, Related


def _used(model: Model) -> dict[str, list[str]]:
    """Positions in use, each with what stands there."""
    found: dict[str, list[str]] = {}
    for table in (model.devices, model.rails, model.supplies, model.racks):
        for name, thing in table.items():
            found.setdefault(thing.position, []).append(name)
    return found


def _hung(model: Model, device: Device) -> Iterator[Point]:
    """The matches of a falls and, where several show its direction, its ends."""
    uses = [model.match_uses[name] for name in device.matches if name in model.match_uses]
    points = [(use.x_m, use.y_m) for use in uses]
    yield from points
    if len(points) < 2 or len(points) < len(device.matches):
        return
    (ax, ay), (bx, by) = points[0], points[-1]
    length = hypot(bx - ax, by - ay)
    if not length:
        return
    count, groups = device.count, len(points)
    before = (count // groups - 1) // 2  # gerbs before the first match, and after the last
    after = count - 1 - ((groups - 1) * count // groups + count - 1) // 2
    step = (device.spacing_m or 0.0) / length
    dx, dy = (bx - ax) * step, (by - ay) * step
    yield ax - dx * before, ay - dy * before
    yield bx + dx * after, by + dy * after


def _told(line: CrowdLine, key: str, what: list[str], inside_m: float) -> Finding:
    kind, _, name = key.partition(":")
    far = f"{quantity(inside_m, 'm')} on the crowd's side of" if inside_m > 0 else "on"
    return Finding(
        "crowd-side",
        f"{name} is {far} the crowd line `{line.name}`",
        at=key,
        subject=f"{kind} {name}",
        values={"crowd": line.name, "inside_m": inside_m, "things": what},
        detail=f"There: {names(what)}." if what else "",
        hint="Correct its coordinates or those of the line; the firing point shows which side is the crew's.",
        related=(Related(f"crowd:{line.name}", "the crowd line"),),
    )


def _inside_m(line: CrowdLine, ours: float, point: Point) -> float | None:
    """How far a point is on the crowd's side, 0 on the line; None on the crew's side."""
    side = side_of(line, point)
    if side is None or (not side.on_line and side.m * ours > 0):
        return None
    return 0.0 if side.on_line else abs(side.m)


def _places(model: Model, line: CrowdLine, ours: float) -> Iterator[Finding]:
    """Positions in use on the crowd's side, then falls that reach there from a place on the crew's."""
    told: set[str] = set()
    used = _used(model)
    for name in in_order(used.keys() & model.positions.keys()):
        place = model.positions[name]
        inside_m = _inside_m(line, ours, (place.x_m, place.y_m))
        if inside_m is not None:
            told.add(name)
            yield _told(line, f"position:{name}", in_order(used[name]), inside_m)
    for name in in_order(model.devices):
        device = model.devices[name]
        if device.spacing_m is None or device.position in told:
            continue
        reached = [inside for point in _hung(model, device) if (inside := _inside_m(line, ours, point)) is not None]
        if reached:
            yield _told(line, f"device:{name}", [], max(reached))


def _check(solved: Solved) -> Iterable[Finding]:
    model = solved.model
    firing_points = list(model.firing_points.values())
    for line in model.crowds.values():
        ours = our_side(line, firing_points)
        if ours is not None:
            yield from _places(model, line, ours)


RULE = rule("crowd-side", "error", __doc__, _check)
