"""Every battery's voltage is one that a battery can have.

Protects from
    `2.1 .. 29.4 V` for `21 .. 29.4 V`, or `0 .. 24 V`: every current is then computed from a voltage that
    the battery never has, and the finding that follows points to the lead.

How it is computed
    The `voltage` of batteries that supplies are made of: highest over lowest.

Limit and source
    2 times, and a lowest voltage above 0. A lithium cell goes from 2.5 to 4.2 V, 1.7 times; a lead cell
    from 1.75 to 2.45 V, 1.4 times; an alkaline cell from 0.9 to 1.6 V, 1.8 times (common practice).

Breaks it
    battery box-24 { voltage 2.1 .. 29.4 V; inner 0.05 .. 0.25 ohm; limit 60 A; fuse 40 A }
    supply Pack-1 of box-24 at Q1

Keeps it
    battery box-24 { voltage 21 .. 29.4 V; inner 0.05 .. 0.25 ohm; limit 60 A; fuse 40 A }
    supply Pack-1 of box-24 at Q1
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.supply_missing_data import by_battery
from compiler.checks.words import figure, names
from compiler.model.solved import Solved
from grammar.findings import Finding, Related

MOST_RATIO = 2.0


def _check(solved: Solved) -> Iterable[Finding]:
    for name, supplies in by_battery(solved).items():
        volts = solved.model.batteries[name].emf_v
        if volts is None or (volts.low > 0.0 and volts.high <= MOST_RATIO * volts.low):
            continue
        low, high = figure(volts.low), figure(volts.high)
        ratio = f"{figure(volts.high / volts.low)} times" if volts.low > 0.0 else "without bound"
        yield Finding(
            "voltage-implausible",
            f"battery {name} has {low} .. {high} V: no battery goes that far down",
            at=f"battery:{name}",
            role="voltage",
            subject=f"battery {name}",
            values={"low_v": volts.low, "high_v": volts.high, "most_ratio": MOST_RATIO},
            working=f"{high} V / {low} V is {ratio}, limit {figure(MOST_RATIO)} times",
            detail=f"Used by {names(supplies)}. The lowest is the voltage without load, empty and cold; sag under load is computed.",
            hint=f"Compare the data sheet, and write it as in `voltage {figure(volts.high / 1.4)} .. {high} V`.",
            related=tuple(Related(f"supply:{supply}", "a supply made of it") for supply in supplies[:3]),
        )


RULE = rule("voltage-implausible", "warning", __doc__, _check, waivable=True)
