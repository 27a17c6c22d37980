"""No rail fires more channels at once than it is made for.

Protects from
    A module that queues, drops or weakens channels beyond the number it can fire together.

How it is computed
    Circuits of a rail that are alive at one instant, from firing − jitter to the end of the longest
    pulse + jitter; touching counts. Reported once per rail, at its fullest instant.

Limit and source
    `at-once` of the module, as its maker states it. A module that states none has none; its
    `rail-limit` still holds.

Breaks it
    module narrow-8 { channels 8; at-once 2 }
    cue 1 at 0:10.0 First, Second, Third "three at once on narrow-8"

Keeps it
    cue 1 at 0:10.0 First, Second "two at once"
    cue 2 at 0:11.0 Third "a second later"
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.loads import alive_here, on_rail, when
from compiler.checks.lookups import module_on, part_words
from compiler.checks.rule import rule
from compiler.checks.words import many, names
from compiler.model.solved import Instant, Solved
from grammar.findings import Finding


def _finding(solved: Solved, rail: str, count: int, instant: Instant, more: int) -> Finding:
    module = solved.model.modules[solved.model.rails[rail].module]
    alive = on_rail(solved, instant, rail)
    plenty = f" {many(more, 'other instant')} too." if more else ""
    return Finding(
        "too-many-at-once",
        f"rail {rail} fires {many(count, 'circuit')} together {when(instant)}, it may fire {module.most_at_once}",
        at=f"rail:{rail}",
        subject=f"rail {rail}",
        values={
            "count": count,
            "limit": module.most_at_once,
            "at_s": instant.from_us / 1e6,
            "circuits": list(alive),
            "other_instants": more,
        },
        working=f"{count} alive, limit {module.most_at_once}",
        detail=f"Alive then: {names(alive)}.{plenty} " + part_words("module", module.name, module.origin),
        hint="Fire some of them at another moment, on another rail, or in one circuit.",
        related=alive_here(alive),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    full: dict[str, list[tuple[int, Instant]]] = {}
    for instant in solved.instants:
        for load in instant.rails:
            module = module_on(solved, load.rail)
            most = None if module is None else module.most_at_once
            if most is not None and load.count > most:
                full.setdefault(load.rail, []).append((load.count, instant))
    for rail, found in full.items():
        count, instant = max(found, key=lambda item: item[0])
        yield _finding(solved, rail, count, instant, len(found) - 1)


RULE = rule("too-many-at-once", "error", __doc__, _check, waivable=True)
