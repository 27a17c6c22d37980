"""Every crowd line has a side that is the crew's.

Protects from
    A check that was never made: without a firing point nobody can tell on which side of the line the
    crowd stands.

How it is computed
    Crowd lines in a show without any `firing-point`; with firing points on both sides, or on the line
    itself; and lines whose points are all one.

Limit and source
    No value, no check. Never waived.

Breaks it
    crowd Quayside along (-90 m, -110 m), (90 m, -110 m)

Keeps it
    crowd Quayside along (-90 m, -110 m), (90 m, -110 m)
    firing-point Hut at -60 m, -60 m
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.sides import our_side, side_of
from compiler.checks.words import in_order, names
from compiler.model.solved import Solved
from compiler.model.types import CrowdLine, Model
from grammar.findings import Finding, Related


def _why(line: CrowdLine, model: Model) -> tuple[str, str]:
    """What is wrong, and the remedy."""
    if side_of(line, (0.0, 0.0)) is None:
        return "has no direction: its points are one", "Give two points, as in `along (-90 m, -110 m), (90 m, -110 m)`."
    points = in_order(model.firing_points)
    if not points:
        return "has no firing point beside it", "Add where the operator stands: `firing-point Hut at -60 m, -60 m`."
    on_line = [
        name
        for name in points
        if (side := side_of(line, (model.firing_points[name].x_m, model.firing_points[name].y_m))) and side.on_line
    ]
    if on_line:
        return f"runs through the firing point {names(on_line)}", "Correct the coordinates of one of the two."
    return f"has firing points on both sides: {names(points)}", "Correct the one on the crowd's side, or the line."


def _check(solved: Solved) -> Iterable[Finding]:
    model = solved.model
    for line in model.crowds.values():
        if our_side(line, list(model.firing_points.values())) is not None:
            continue
        why, mend = _why(line, model)
        yield Finding(
            "crowd-side-unknown",
            f"the crowd line `{line.name}` {why}",
            at=f"crowd:{line.name}",
            subject=f"crowd {line.name}",
            values={"crowd": line.name, "firing_points": in_order(model.firing_points)},
            detail="The firing point shows which side is the crew's. Nothing was checked against this line.",
            hint=mend,
            related=tuple(Related(f"firing-point:{name}", "a firing point") for name in in_order(model.firing_points)),
        )


RULE = rule("crowd-side-unknown", "error", __doc__, _check)
