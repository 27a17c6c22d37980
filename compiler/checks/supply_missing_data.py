"""Every supply in use states its voltage, its inner resistance and its limit.

Protects from
    A check that was never made and reads as passed: without voltage and inner resistance no current
    is known, without a limit no load is.

How it is computed
    Batteries that supplies are made of and that lack `voltage`, `inner` or `limit`. Reported once per
    battery. A missing fuse is `fuse-missing`.

Limit and source
    No value, no number. Never waived.

Breaks it
    battery box-24 { voltage 21 .. 29.4 V nominal 25.2 V; fuse 40 A }
    supply Pack-1 of box-24 at Q1

Keeps it
    battery box-24 { voltage 21 .. 29.4 V nominal 25.2 V; inner 0.05 .. 0.25 ohm; limit 60 A; fuse 40 A }
    supply Pack-1 of box-24 at Q1
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import names
from compiler.model.solved import Solved
from compiler.model.types import Battery
from grammar.findings import Finding, Related


def _lacking(battery: Battery) -> dict[str, str]:
    """Missing properties, each with text to paste."""
    table = (
        ("voltage", battery.emf_v, "voltage 21.0 .. 29.4 V nominal 25.2 V"),
        ("inner", battery.inner_ohm, "inner 0.05 .. 0.25 ohm"),
        ("limit", battery.limit_a, "limit 60 A"),
    )
    return {name: text for name, value, text in table if value is None}


def by_battery(solved: Solved) -> dict[str, list[str]]:
    """Battery types in use, each with the supplies made of it."""
    found: dict[str, list[str]] = {}
    for supply in solved.model.supplies.values():
        if supply.battery in solved.model.batteries:
            found.setdefault(supply.battery, []).append(supply.name)
    return found


def _check(solved: Solved) -> Iterable[Finding]:
    for name, supplies in by_battery(solved).items():
        missing = _lacking(solved.model.batteries[name])
        if not missing:
            continue
        only_limit = list(missing) == ["limit"]
        lost = "Its load was not checked" if only_limit else "No current drawn from it was checked"
        yield Finding(
            "supply-missing-data",
            f"battery {name} states no {names(list(missing))}",
            at=f"battery:{name}",
            subject=f"battery {name}",
            values={"battery": name, "missing": list(missing), "supplies": supplies},
            detail=f"Used by {names(supplies)}. {lost}.",
            hint=f"Write the maker's values in battery {name}, as in `{'; '.join(missing.values())}`.",
            related=tuple(Related(f"supply:{supply}", "a supply made of it") for supply in supplies[:3]),
        )


RULE = rule("supply-missing-data", "error", __doc__, _check)
