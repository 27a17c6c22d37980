"""No supply gives more than it may at any instant.

Protects from
    A battery that sags, opens a cell link or vents when many circuits fire together: all rails on it
    go weak at the busiest moment of the show.

How it is computed
    At every instant: the supply's greatest current with each alive circuit shorted at its match end,
    and the others possibly absent. Reported once per supply, at its worst instant.

Limit and source
    `limit` of the battery. Equal to the limit passes.

Breaks it
    battery small-24 { voltage 21 .. 29.4 V nominal 25.2 V; inner 0.05 .. 0.25 ohm; limit 5 A; fuse 30 A }
    supply Pack-1 of small-24 at Q1

Keeps it
    supply Pack-1 of lead-acid-24 at Q1
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compiler.checks.loads import Load, Worst, alive_here, alive_words, more_words, when, worst
from compiler.checks.lookups import battery_of, part_words
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, against, many
from compiler.model.solved import Solved
from grammar.findings import Finding


def _loads(solved: Solved) -> Iterator[Load]:
    for instant in solved.instants:
        battery = battery_of(solved, instant.supply)
        if battery is not None and battery.limit_a is not None and instant.supply_a is not None:
            yield instant.supply, instant.supply_a.greatest, battery.limit_a, instant


def _finding(solved: Solved, found: Worst) -> Finding:
    shown, limit = against(found.amps, found.limit_a, "A")
    alive = found.instant.circuits
    battery = solved.model.batteries[solved.model.supplies[found.name].battery]
    return Finding(
        "supply-overload",
        f"supply {found.name} gives up to {shown} {when(found.instant)}, it stands {limit}",
        at=f"supply:{found.name}",
        subject=f"supply {found.name}",
        values={
            "current_a": found.amps,
            "limit_a": found.limit_a,
            "at_s": found.instant.from_us / 1e6,
            "circuits": list(alive),
            "other_instants": found.more,
        },
        working=f"{many(len(alive), 'circuit')} alive together: {shown}, limit {limit}",
        detail=f"{alive_words(solved, alive)}{more_words(found)} "
        + part_words("battery", battery.name, battery.origin),
        hint=f"Feed some of their rails from another supply, or fire some of them at another moment. {FIELD}",
        related=alive_here(alive),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    for found in worst(_loads(solved)):
        yield _finding(solved, found)


RULE = rule("supply-overload", "error", __doc__, _check, waivable=True)
