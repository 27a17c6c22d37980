"""No control line runs in a ring.

Protects from
    Rails that are joined to each other and to no firing point: none of them would fire.

How it is computed
    Each rail's control line is followed back to a firing point; one that comes back to itself is told
    once for the ring.

Limit and source
    Never waived: the line has no beginning.

Breaks it
    rail A of dc-16 at Q1 { feed Pack-1; control B through 15 m of zip-18 }
    rail B of dc-16 at Q2 { feed Pack-1; control A through 15 m of zip-18 }

Keeps it
    firing-point Hut at -60 m, -60 m
    rail A of dc-16 at Q1 { feed Pack-1; control Hut through 80 m of zip-18 }
    rail B of dc-16 at Q2 { feed Pack-1; control A through 15 m of zip-18 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import ring
from compiler.checks.rule import rule
from compiler.checks.words import in_order
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    told: set[str] = set()
    for name in in_order(solved.model.rails):
        found = () if name in told else ring(solved.model.rails, name, lambda rail: rail.control)
        if not found:
            continue
        told.update(found)
        yield Finding(
            "control-cycle",
            f"the control line of rail {name} leads back to it: {' from '.join((*found, name))}",
            at=f"rail:{name}",
            role="control",
            subject=f"rail {name}",
            values={"rails": list(found)},
            detail="No firing point is on this line, so nothing on it would fire.",
            hint=f"Begin it at a firing point, as in `control Hut through 80 m of zip-18` in {name}.",
            related=tuple(Related(f"rail:{other}", "in the ring") for other in found[1:]),
        )


RULE = rule("control-cycle", "error", __doc__, _check)
