"""Solves a whole show: every circuit over every moment in which it is alive."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from compiler.circuit.flat import flatten
from compiler.circuit.gather import Gathered
from compiler.circuit.lines import Lines, feeds_ohm
from compiler.circuit.moment import Drive, Together, alone, sources
from compiler.circuit.moments import moments
from compiler.circuit.results import Results
from compiler.circuit.table import table
from compiler.circuit.temperature import reading_temperatures_c, span_c
from compiler.model.solved import Instant
from compiler.vocabulary.names import natural
from grammar.findings import Finding

if TYPE_CHECKING:
    from collections.abc import Mapping

    from compiler.circuit.flat import Flat
    from compiler.circuit.lines import Line
    from compiler.circuit.moment import Loads, Sources
    from compiler.circuit.moments import Moment
    from compiler.circuit.table import Table
    from compiler.model.quantities import Given
    from compiler.model.solved import Address, CircuitResult, Schedule, Wiring
    from compiler.model.types import Model

NEXT_TO_NOTHING_OHM = 1e-9
"""Below this nothing limits a current: no number is given for it."""


class Solution(NamedTuple):
    """What was computed: per circuit, per instant, per feed, and what could not be.

    `instants` are in order of time, then supply; `feeds_ohm` is over the ambient range.
    """

    circuits: dict[str, CircuitResult]
    instants: tuple[Instant, ...]
    feeds_ohm: dict[str, Given]
    findings: tuple[Finding, ...]


def solve_show(
    model: Model,
    wirings: Mapping[str, Wiring],
    addresses: Mapping[str, Address],
    schedule: Schedule,
) -> Solution:
    """Currents, loads and readings of every circuit that has a wiring.

    A circuit without an address keeps its resistance and readings; its currents are None.
    Findings (`not-computed`) name each culprit once.
    """
    return _Show(model, wirings, addresses, schedule).solve()


class _Show:
    """One run of the solver over a show."""

    def __init__(
        self,
        model: Model,
        wirings: Mapping[str, Wiring],
        addresses: Mapping[str, Address],
        schedule: Schedule,
    ) -> None:
        self._model = model
        self._wirings = wirings
        self._addresses = addresses
        self._schedule = schedule
        self._lines = Lines(model, dict.fromkeys(each.rail for each in addresses.values()))
        self._sources: dict[str, Sources] = {}
        self._tables: dict[str, Table] = {}
        self._names: dict[str, tuple[str, ...]] = {}
        self._gathered: dict[str, Gathered] = {}
        self._stuck: dict[str, Finding] = {}

    def solve(self) -> Solution:
        """Tables first, then the moments, then the results."""
        self._tabulate()
        instants = self._instants()
        results = Results(self._model)
        circuits = {}
        for name, wiring in self._wirings.items():
            line = self._line(name)
            gathered = self._gathered.get(name)
            if gathered is None and line is not None and line.whole:
                gathered = self._never_fired(name, line)
            whole = line is not None and line.whole and self._limited(name, line)
            circuits[name] = results.circuit(
                name,
                wiring.topology,
                self._names[name],
                self._tables[name],
                self._addresses.get(name),
                self._own_sources(line) if line is not None and whole else None,
                gathered if whole else None,
                line.supply if line is not None else None,
            )
        findings = (*self._lines.findings, *self._stuck.values(), *results.findings)
        return Solution(circuits, instants, feeds_ohm(self._model), findings)

    def _tabulate(self) -> None:
        """One table per circuit; circuits of equal content share it."""
        span, at_c = span_c(self._model), reading_temperatures_c(self._model)
        known: dict[Flat, Table] = {}
        for name, wiring in self._wirings.items():
            flat, names = flatten(wiring)
            found = known.get(flat)
            if found is None:
                found = known[flat] = table(flat, span, at_c)
            self._tables[name] = found
            self._names[name] = names

    def _line(self, circuit: str) -> Line | None:
        """The line of the rail that a circuit is on."""
        address = self._addresses.get(circuit)
        return None if address is None else self._lines.get(address.rail)

    def _own_sources(self, line: Line) -> Sources:
        """The line's corners, once per rail."""
        found = self._sources.get(line.rail)
        if found is None:
            found = self._sources[line.rail] = sources(line)
        return found

    def _never_fired(self, name: str, line: Line) -> Gathered:
        """A circuit of no cue, solved as if it were alone."""
        gathered = Gathered(self._tables[name])
        own = self._own_sources(line)
        if not gathered.take(Drive(own.least, own.nominal, None), None):
            self._no_voltage(line)
        return gathered

    def _instants(self) -> tuple[Instant, ...]:
        """Every moment of every supply, in order of time, then supply."""
        stretches: dict[tuple[str, str], list[tuple[int, int, str]]] = {}  # by press ("": show time) and supply
        for alive in self._schedule.alive:
            line = self._line(alive.circuit)
            if line is not None and line.supply is not None:
                key = (alive.press or "", line.supply)
                stretches.setdefault(key, []).append((alive.from_us, alive.to_us, alive.circuit))
        found = [
            (press, moment.from_us, moment.to_us, supply, moment)
            for (press, supply), some in stretches.items()
            for moment in moments(some)
        ]
        found.sort(key=lambda each: (natural(each[0]), *each[1:4]))
        return tuple(
            self._instant(index, supply, moment, press or None)
            for index, (press, _, _, supply, moment) in enumerate(found)
        )

    def _instant(self, index: int, supply: str, moment: Moment, press: str | None) -> Instant:
        """One moment: counted for its circuits, and its loads."""
        names = moment.circuits
        known = [(name, self._of(name)) for name in names if name in self._tables]
        lines = [self._line(name) for name, _ in known]
        good = [
            line
            for (name, _), line in zip(known, lines, strict=True)
            if line is not None and line.whole and self._limited(name, line)
        ]
        loads = None
        if len(good) == len(names):
            loads = self._count(index, good, [each for _, each in known])
        if loads is None:
            for _, each in known:
                each.broken = True
            return Instant(supply, moment.from_us, moment.to_us, names, None, (), {}, press)
        return Instant(supply, moment.from_us, moment.to_us, names, loads.supply_a, loads.rails, loads.feeds, press)

    def _of(self, name: str) -> Gathered:
        """What is gathered for a circuit that has a wiring."""
        found = self._gathered.get(name)
        if found is None:
            found = self._gathered[name] = Gathered(self._tables[name])
        return found

    def _count(self, index: int, lines: list[Line], gathered: list[Gathered]) -> Loads | None:
        """Count a moment for its circuits; None where a driver's drop leaves nothing."""
        if len(lines) == 1:
            own = self._own_sources(lines[0])
            drives = [Drive(own.least, own.nominal, None)]
            together = None
        else:
            together = Together(lines, [each.table for each in gathered], self._lines.known)
            drives = together.drives()
        whole = True
        for one, line, drive in zip(gathered, lines, drives, strict=True):
            if not one.take(drive, index):
                self._no_voltage(line)
                whole = False
        if not whole:
            return None
        return alone(lines[0], gathered[0].table) if together is None else together.loads()

    def _no_voltage(self, line: Line) -> None:
        """Say once per rail that its drop can leave no current."""
        self._tell(
            line,
            f"rail {line.rail}: the drop of its drivers can leave no voltage for a circuit",
            "Use a supply of more volts, or check `drop` in the module's data.",
        )

    def _limited(self, name: str, line: Line) -> bool:
        """Whether anything limits a short at the match end of a circuit."""
        ohm = line.path_ohm.low + line.driver_ohm.low + self._tables[name].front_low_ohm
        if ohm > NEXT_TO_NOTHING_OHM:
            return True
        self._tell(
            line,
            f"rail {line.rail}: nothing limits the current of a short on it",
            "State the resistance of its drivers, feed or supply, as in `driver 0.1 ohm +- 20 %`.",
        )
        return False

    def _tell(self, line: Line, headline: str, hint: str) -> None:
        """One finding per rail and matter."""
        self._stuck.setdefault(
            headline,
            Finding(
                "not-computed",
                headline,
                at=f"rail:{line.rail}",
                subject=f"rail {line.rail}",
                detail=(
                    "No current of its circuits can be computed, nor of what fires at the same "
                    "moment from the same supply."
                ),
                hint=hint,
            ),
        )
