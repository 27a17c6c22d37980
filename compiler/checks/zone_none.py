"""Where a show has zones, every rail that fires is in one.

Protects from
    A rail that nobody answers for and nobody arms.

How it is computed
    Rails with a circuit that a cue fires and that no zone names, in a show with zones.

Limit and source
    Common practice.

Breaks it
    rail A of dc-16 at Q1 { feed Pack-1 }
    rail B of dc-16 at Q2 { feed Pack-1 }
    zone West { rails A }
    cue 1 at 0:10.0 comet-gold at Q2        # from rail B, which is in no zone

Keeps it
    rail A of dc-16 at Q1 { feed Pack-1 }
    rail B of dc-16 at Q2 { feed Pack-1 }
    zone West { rails A, B }
    cue 1 at 0:10.0 comet-gold at Q2
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import fired_circuits
from compiler.checks.rule import rule
from compiler.checks.words import in_order, names
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    zones = solved.model.zones
    if not zones:
        return
    zoned = {rail for zone in zones.values() for rail in zone.rails}
    fired = {solved.addresses[name].rail for name in fired_circuits(solved) if name in solved.addresses}
    for rail in in_order(fired - zoned):
        yield Finding(
            "zone-none",
            f"rail {rail} fires and is in no zone",
            at=f"rail:{rail}",
            subject=f"rail {rail}",
            values={"rail": rail, "zones": in_order(zones)},
            detail=f"The zones are {names(in_order(zones))}: nobody answers for this rail, and nobody arms it.",
            hint=f"Add {rail} to the `rails` of a zone.",
            related=tuple(Related(f"zone:{name}", "a zone") for name in in_order(zones)[:3]),
        )


RULE = rule("zone-none", "warning", __doc__, _check, waivable=True)
