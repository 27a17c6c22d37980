"""No rail feeds itself.

Protects from
    Rails daisy-chained in a ring: none of them has a supply, whatever the drawing looks like.

How it is computed
    Feeds are followed back from each rail; a rail that comes up again is a ring. Reported once per
    ring, at its first rail in natural order.

Limit and source
    None is allowed. A ring that is fed by a supply as well is not computed in this version.

Breaks it
    rail A of dc-16 at Q1 { feed B through 3 m of trunk-2.5 }
    rail B of dc-16 at Q2 { feed A through 3 m of trunk-2.5 }

Keeps it
    rail A of dc-16 at Q1 { feed Pack-1 through 3 m of trunk-2.5 }
    rail B of dc-16 at Q2 { feed A through 3 m of trunk-2.5 }
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
        found = () if name in told else ring(solved.model.rails, name, lambda rail: rail.feed)
        if not found:
            continue
        told.update(found)
        way = " from ".join((*found, name))
        yield Finding(
            "feed-cycle",
            f"rail {name} feeds itself: {way}",
            at=f"rail:{name}",
            role="feed",
            subject=f"rail {name}",
            values={"rails": list(found)},
            detail="No supply is on this way, so nothing on it would fire.",
            hint=f"Feed one of them from a supply, as in `feed Pack-1 through 3 m of trunk-2.5` in {name}.",
            related=tuple(Related(f"rail:{other}", "in the ring") for other in found[1:]),
        )


RULE = rule("feed-cycle", "error", __doc__, _check)
