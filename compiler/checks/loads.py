"""The worst instant of each rail, feed and supply, for the overload rules."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from compiler.checks.lookups import rail_of
from compiler.checks.words import many, moment, names, quantity
from compiler.model.solved import Instant, Solved
from grammar.findings import Related


class Worst(NamedTuple):
    """The greatest load of one thing, amperes; `more` other instants are above the limit too."""

    name: str
    amps: float
    limit_a: float
    instant: Instant
    more: int


Load = tuple[str, float, float, Instant]  # name, greatest amperes, limit in amperes, instant


def worst(loads: Iterable[Load]) -> Iterator[Worst]:
    """Per name the greatest of the loads above their limit; the earlier instant where equal."""
    found: dict[str, Worst] = {}
    for name, amps, limit_a, instant in loads:
        if amps <= limit_a:
            continue
        old = found.get(name)
        if old is None:
            found[name] = Worst(name, amps, limit_a, instant, 0)
        elif amps > old.amps:
            found[name] = Worst(name, amps, limit_a, instant, old.more + 1)
        else:
            found[name] = old._replace(more=old.more + 1)
    yield from found.values()


def on_rail(solved: Solved, instant: Instant, rail: str) -> tuple[str, ...]:
    """The circuits of an instant that are on one rail."""
    return tuple(
        name for name in instant.circuits if (found := rail_of(solved, name)) is not None and found.name == rail
    )


def heaviest(solved: Solved, circuits: tuple[str, ...]) -> tuple[str, float] | None:
    """The circuit that can draw most into a short at its match end, with its amperes."""
    known = [
        (result.shorted_current_a, name)
        for name in circuits
        if (result := solved.circuits.get(name)) is not None and result.shorted_current_a is not None
    ]
    if not known:
        return None
    most = max(amps for amps, _ in known)
    return next(name for amps, name in known if amps == most), most


def alive_here(circuits: tuple[str, ...]) -> tuple[Related, ...]:
    """The places of the first few circuits that are alive."""
    return tuple(Related(f"circuit:{name}", "alive then") for name in circuits[:6])


def when(instant: Instant) -> str:
    """``at 3:05.0``, or so long after a press: when the stretch begins."""
    return moment(instant.from_us / 1e6, instant.press)


def alive_words(solved: Solved, circuits: tuple[str, ...]) -> str:
    """Who is alive and who draws most, in a sentence."""
    text = f"Alive then: {names(circuits)}, each taken as shorted at its match end or absent."
    most = heaviest(solved, circuits)
    if most is not None and len(circuits) > 1:
        text += f" {most[0]} can draw most: {quantity(most[1], 'A')} by itself."
    return text


def more_words(worst_one: Worst) -> str:
    """How many other instants are too high; empty for none."""
    if not worst_one.more:
        return ""
    verb = "is" if worst_one.more == 1 else "are"
    return f" {many(worst_one.more, 'other instant')} {verb} above the limit too."
