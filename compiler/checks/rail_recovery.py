"""No rail is asked again before it has recovered.

Protects from
    A rail that is still charging, resetting or busy with its last pulse when the next cue comes: it
    fires late, weakly or not at all.

How it is computed
    For each rail, from the end of one pulse (firing time + longest pulse + jitter) to the next firing
    on it (firing time − jitter). Circuits fired at the same moment count as one firing. What counts
    from a press is compared with what counts from the same press; `hand-overlap` sees to the rest.
    Reported once per rail, at its shortest rest.

Limit and source
    `recovery` of the module, as its maker states it. A rest equal to it passes.

Breaks it
    module lazy-8 { channels 8; pulse 100 ms; recovery 500 ms }
    cue 1 at 0:10.0 First "one"
    cue 2 at 0:10.4 Second "too soon on the same rail"

Keeps it
    cue 1 at 0:10.0 First "one"
    cue 2 at 0:10.7 Second "rested"
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from compiler.checks.lookups import module_on, part_words
from compiler.checks.rule import rule
from compiler.checks.words import against, clock, clock_us, figure, moment
from compiler.model.solved import Alive, Solved
from compiler.model.types import Module
from grammar.findings import Finding, Related


def _by_rail(solved: Solved) -> dict[tuple[str, str | None], list[Alive]]:
    """By rail and press (None: show time): how far apart two presses come is not known."""
    rails: dict[tuple[str, str | None], list[Alive]] = {}
    for alive in solved.schedule.alive:
        address = solved.addresses.get(alive.circuit)
        if address is not None:
            rails.setdefault((address.rail, alive.press), []).append(alive)
    return rails


def _rests(firings: list[Alive]) -> Iterator[tuple[int, Alive, Alive]]:
    """Rest in microseconds between neighbours in time; negative where pulses overlap."""
    ordered = sorted(firings, key=lambda alive: (alive.fired_us, alive.to_us))
    busy = ordered[0]
    for before, after in pairwise(ordered):
        busy = max(busy, before, key=lambda alive: alive.to_us)
        if after.fired_us != before.fired_us and after.circuit != busy.circuit:
            yield after.from_us - busy.to_us, busy, after


def _finding(module: Module, rail: str, rest_s: float, pair: tuple[Alive, Alive], more: int) -> Finding:
    before, after = pair
    needed_s = module.recovery_s or 0.0
    shown, needed = against(rest_s, needed_s, "s")
    late_s = after.fired_us / 1e6 + needed_s - rest_s
    late = f"at {clock(late_s)}" if after.press is None else f"{figure(late_s, 9)} s after {after.press}"
    rest = f"{shown} after the end of" if rest_s >= 0 else "during"
    plenty = "" if not more else f" {more} more on this rail come too soon."
    return Finding(
        "rail-recovery",
        f"rail {rail} is asked for {after.circuit} {rest} {before.circuit}, it needs {needed} to recover",
        at=f"cue:{after.cue}",
        subject=f"rail {rail}",
        values={
            "rest_s": rest_s,
            "recovery_s": needed_s,
            "before": before.circuit,
            "after": after.circuit,
            "others": more,
        },
        working=f"{clock_us(after.from_us)} − {clock_us(before.to_us)} = {shown}, recovery {needed}",
        detail=f"{before.circuit} fires {moment(before.fired_us / 1e6, before.press)}, {after.circuit} "
        f"{moment(after.fired_us / 1e6, after.press)}.{plenty} {part_words('module', module.name, module.origin)}",
        hint=f"Fire {after.circuit} {late} or later, at the same moment as {before.circuit}, or from another rail.",
        related=(Related(f"cue:{before.cue}", "fired before it"), Related(f"rail:{rail}", "the rail")),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    for (rail, _), firings in _by_rail(solved).items():
        module = module_on(solved, rail)
        if module is None or module.recovery_s is None:
            continue
        needed_us = round(module.recovery_s * 1e6)
        short = [found for found in _rests(firings) if found[0] < needed_us]
        if short:
            rest_us, before, after = min(short, key=lambda found: found[0])
            yield _finding(module, rail, rest_us / 1e6, (before, after), len(short) - 1)


RULE = rule("rail-recovery", "error", __doc__, _check, waivable=True)
