"""No supply is shared by what may fire together at times that nobody knows.

Protects from
    A press that comes just as the clock fires, or two presses in quick succession: the supply then
    carries both, and no number on the sheets has them added.

How it is computed
    Loads are added within show time and within what counts from one press, never across. So a supply
    is told, once, if a press and show time fire from it, or if several presses do and circuits of one
    of them are still alive, or their rail has not recovered, more than 1 s after that press.

Limit and source
    1 s between presses: as quick as a hand that waits for the effect (common practice).

Breaks it
    cue 1 at 0:10.0 comet-gold at Q1
    cue 2 by hand comet-gold at Q2          # from the same supply

Keeps it
    cue 1 by hand comet-gold at Q1
    cue 2 by hand comet-gold at Q2
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from compiler.checks.lookups import feed_path, module_of, rail_of
from compiler.checks.rule import rule
from compiler.checks.words import in_order, many, names, quantity
from compiler.model.solved import Solved
from grammar.findings import Finding, Related

_APART_US = 1_000_000


def _until_us(solved: Solved) -> dict[str, dict[str | None, int]]:
    """By supply and press (None: show time), how long after it a circuit is alive or its rail recovers."""

    @cache
    def supply_of(rail: str) -> str | None:
        return feed_path(solved, rail)[1]

    found: dict[str, dict[str | None, int]] = {}
    for alive in solved.schedule.alive:
        rail, module = rail_of(solved, alive.circuit), module_of(solved, alive.circuit)
        supply = supply_of(rail.name) if rail is not None else None
        if supply is not None:
            recovery_s = (module.recovery_s or 0.0) if module is not None else 0.0
            until_us = alive.to_us + round(recovery_s * 1e6)
            presses = found.setdefault(supply, {})
            presses[alive.press] = max(until_us, presses.get(alive.press, until_us))
    return found


def _why(until_us: dict[str | None, int]) -> str:
    """What may fall together on a supply; empty where nothing may."""
    presses = {press: to_us for press, to_us in until_us.items() if press is not None}
    if not presses:
        return ""
    if None in until_us:
        several = "a press" if len(presses) == 1 else many(len(presses), "press")
        return f"{several} and cues of show time"
    longest = max(presses, key=lambda press: presses[press])
    if len(presses) == 1 or presses[longest] <= _APART_US:
        return ""
    return f"{many(len(presses), 'press')}, of which cue {longest} goes on for {quantity(presses[longest] / 1e6, 's')},"


def _check(solved: Solved) -> Iterable[Finding]:
    if all(cue.press is None for cue in solved.schedule.cues):
        return
    found = _until_us(solved)
    for supply in in_order(found):
        why = _why(found[supply])
        if not why:
            continue
        presses = in_order(press for press in found[supply] if press is not None)
        yield Finding(
            "hand-overlap",
            f"{why} fire from supply {supply}, and their loads are not added",
            at=f"supply:{supply}",
            subject=f"supply {supply}",
            values={"supply": supply, "presses": presses, "show_time": None in found[supply]},
            detail=f"Presses: {names(presses)}. When a press comes is not known, so what falls together with it is not.",
            hint="Give each press a supply that nothing else may use while it goes on, or let somebody answer for it: "
            f'`waive hand-overlap on {supply} because "…" by "…"`.',
            related=tuple(Related(f"cue:{press}", "a press") for press in presses[:3]),
        )


RULE = rule("hand-overlap", "warning", __doc__, _check, waivable=True)
