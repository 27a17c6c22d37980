"""Moments: per supply, the stretches of time with one set of circuits alive.

Alive intervals are closed, so where one circuit ends as another begins both are alive at that
instant; it becomes a stretch of no length between its neighbours.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable


class Moment(NamedTuple):
    """From and to in whole microseconds of show time, and the circuits alive, sorted by name."""

    from_us: int
    to_us: int
    circuits: tuple[str, ...]


def moments(alive: Iterable[tuple[int, int, str]]) -> list[Moment]:
    """The moments of one supply from its closed (from, to, circuit) intervals, in order of time."""
    starts: dict[int, list[str]] = {}
    ends: dict[int, list[str]] = {}
    for from_us, to_us, circuit in alive:
        starts.setdefault(from_us, []).append(circuit)
        ends.setdefault(to_us, []).append(circuit)
    found: list[Moment] = []
    count: dict[str, int] = {}
    last = 0
    for now in sorted(starts.keys() | ends.keys()):
        begins, stops = starts.get(now, ()), ends.get(now, ())
        if count and last < now:
            _note(found, last, now, count)
        for circuit in begins:
            count[circuit] = count.get(circuit, 0) + 1
        if begins and stops:
            _note(found, now, now, count)
        for circuit in stops:
            count[circuit] -= 1
            if not count[circuit]:
                del count[circuit]
        last = now
    return found


def _note(found: list[Moment], from_us: int, to_us: int, count: dict[str, int]) -> None:
    """Append a moment, or lengthen the last one where its set goes on."""
    circuits = tuple(sorted(count))
    if found and found[-1].circuits == circuits and found[-1].to_us == from_us:
        found[-1] = Moment(found[-1].from_us, to_us, circuits)
    else:
        found.append(Moment(from_us, to_us, circuits))
