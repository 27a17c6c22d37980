"""No instant asks more of a supply than its fuse carries.

Protects from
    A fuse that blows at the busiest moment: everything on that supply stays dark from then on, live
    and unfired.

How it is computed
    At every instant: the supply's greatest current with each alive circuit shorted at its match end,
    and the others possibly absent, against the fuse's rated current. That a fuse stands more for a
    short time is not credited. Reported once per supply, at its worst instant.

Limit and source
    `fuse` of the battery. Equal to the limit passes.

Breaks it
    battery fused-24 { voltage 21 .. 29.4 V nominal 25.2 V; inner 0.05 .. 0.25 ohm; limit 60 A; fuse 3 A }
    supply Pack-1 of fused-24 at Q1

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
        if battery is not None and battery.fuse_a is not None and instant.supply_a is not None:
            yield instant.supply, instant.supply_a.greatest, battery.fuse_a, instant


def _finding(solved: Solved, found: Worst) -> Finding:
    shown, fuse = against(found.amps, found.limit_a, "A")
    alive = found.instant.circuits
    battery = solved.model.batteries[solved.model.supplies[found.name].battery]
    return Finding(
        "fuse-overload",
        f"supply {found.name} is asked for up to {shown} {when(found.instant)}, its fuse is {fuse}",
        at=f"supply:{found.name}",
        subject=f"supply {found.name}",
        values={
            "current_a": found.amps,
            "fuse_a": found.limit_a,
            "at_s": found.instant.from_us / 1e6,
            "circuits": list(alive),
            "other_instants": found.more,
        },
        working=f"{many(len(alive), 'circuit')} alive together: {shown}, fuse {fuse}",
        detail=f"{alive_words(solved, alive)}{more_words(found)} "
        + part_words("battery", battery.name, battery.origin),
        hint="Feed some of their rails from another supply, or fire some of them at another "
        f"moment; never fit a larger fuse than the cable behind it stands. {FIELD}",
        related=alive_here(alive),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    for found in worst(_loads(solved)):
        yield _finding(solved, found)


RULE = rule("fuse-overload", "error", __doc__, _check, waivable=True)
