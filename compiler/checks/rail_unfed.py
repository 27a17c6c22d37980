"""Every rail is fed from a supply.

Protects from
    A rail that is placed, wired and dead.

How it is computed
    Feeds are followed back from each rail; the way must end at a supply. A rail behind an unfed rail
    is not said again, and rails that feed each other are `feed-cycle`.

Limit and source
    None may be left over.

Breaks it
    rail A of dc-16 at Q1

Keeps it
    supply Pack-1 of lead-acid-24 at Q1
    rail A of dc-16 at Q1 { feed Pack-1 through 3 m of trunk-2.5 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import in_order
from compiler.model.solved import Solved
from grammar.findings import Finding


def _check(solved: Solved) -> Iterable[Finding]:
    for rail in solved.model.rails.values():
        if rail.feed is not None:
            continue
        supplies = in_order(solved.model.supplies)
        supply = supplies[0] if supplies else "Pack-1"
        made = "" if supplies else f"`supply {supply} of lead-acid-24 at {rail.position}` and "
        yield Finding(
            "rail-unfed",
            f"rail {rail.name} has no feed",
            at=f"rail:{rail.name}",
            subject=f"rail {rail.name}",
            detail="Nothing on it can be computed, and nothing on it would fire.",
            hint=f"Write {made}`feed {supply} through 3 m of trunk-2.5` in rail {rail.name}.",
        )


RULE = rule("rail-unfed", "error", __doc__, _check)
