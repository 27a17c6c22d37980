"""Every cable that feeds a rail states what it may carry.

Protects from
    A trunk whose load was never checked, because nobody said what it stands.

How it is computed
    Cables of feeds that state no `limit`. Reported once per cable, at the first rail fed through it.
    Leads need none: their channel's limit is the lower one, and they carry a pulse only.

Limit and source
    No value, no number. Never waived.

Breaks it
    cable odd-2 { area 2.5 mm2 }
    rail A of dc-16 at Q1 { feed Pack-1 through 3 m of odd-2 }

Keeps it
    cable odd-2 { area 2.5 mm2; limit 100 A }
    rail A of dc-16 at Q1 { feed Pack-1 through 3 m of odd-2 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import names
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    fed: dict[str, list[str]] = {}
    for rail in solved.model.rails.values():
        if rail.feed is not None and rail.feed.cable in solved.model.cables and rail.feed.length_m:
            fed.setdefault(rail.feed.cable or "", []).append(rail.name)
    for name, rails in fed.items():
        if solved.model.cables[name].limit_a is not None:
            continue
        yield Finding(
            "missing-cable-data",
            f"cable {name} states no limit, so the feed of {names(rails)} can't be checked",
            at=f"rail:{rails[0]}",
            role="feed",
            subject=f"cable {name}",
            values={"cable": name, "rails": rails},
            hint=f"Write `limit 100 A` in cable {name} with what it stands for the length of a firing, "
            "or use a cable that states one.",
            related=(Related(f"cable:{name}", "the cable"),),
        )


RULE = rule("missing-cable-data", "error", __doc__, _check)
