"""Every rail belongs to one zone.

Protects from
    Two people who answer for one rail: each takes it for safe because the other has not armed.

How it is computed
    Rails that stand in two zones, told at the later zone in order of name.

Limit and source
    One zone for each rail. Never waived.

Breaks it
    zone West { rails A }
    zone East { rails A, B }

Keeps it
    zone West { rails A }
    zone East { rails B }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import in_order, names
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    first: dict[str, str] = {}
    for name in in_order(solved.model.zones):
        shared: dict[str, list[str]] = {}
        for rail in in_order(set(solved.model.zones[name].rails)):
            other = first.setdefault(rail, name)
            if other != name:
                shared.setdefault(other, []).append(rail)
        for other, rails in shared.items():
            what = "rail" if len(rails) == 1 else "rails"
            yield Finding(
                "zone-twice",
                f"{what} {names(rails)} {'is' if len(rails) == 1 else 'are'} in zone {other} and in zone {name}",
                at=f"zone:{name}",
                role="rails",
                subject=f"zone {name}",
                values={"rails": rails, "zones": [other, name]},
                detail="A rail is armed by one person, at one time.",
                hint=f"Take {names(rails)} out of one of the two.",
                related=(Related(f"zone:{other}", "the other zone"),),
            )


RULE = rule("zone-twice", "error", __doc__, _check)
