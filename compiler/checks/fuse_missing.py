"""Every supply in use has a fuse.

Protects from
    A shorted trunk that nothing breaks: a battery gives hundreds of amperes until the cable burns. And
    from a fuse that is there but was left out of the sum.

How it is computed
    Batteries that supplies are made of and that state no `fuse`. Reported once per battery.

Limit and source
    Common practice: a fuse close to the battery, smaller than what the cable stands and larger than
    what any instant asks for.

Breaks it
    battery open-24 { voltage 21 .. 29.4 V nominal 25.2 V; inner 0.05 .. 0.25 ohm; limit 60 A }
    supply Pack-1 of open-24 at Q1

Keeps it
    battery open-24 { voltage 21 .. 29.4 V nominal 25.2 V; inner 0.05 .. 0.25 ohm; limit 60 A; fuse 40 A }
    supply Pack-1 of open-24 at Q1
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.supply_missing_data import by_battery
from compiler.checks.words import names
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    for name, supplies in by_battery(solved).items():
        if solved.model.batteries[name].fuse_a is not None:
            continue
        yield Finding(
            "fuse-missing",
            f"battery {name} states no fuse",
            at=f"battery:{name}",
            subject=f"battery {name}",
            values={"battery": name, "supplies": supplies},
            detail=f"Used by {names(supplies)}. What an instant asks of the fuse was not checked.",
            hint=f"Write `fuse 40 A` in battery {name} with the rating that is fitted; fit one where there is none.",
            related=tuple(Related(f"supply:{supply}", "a supply made of it") for supply in supplies[:3]),
        )


RULE = rule("fuse-missing", "warning", __doc__, _check, waivable=True)
