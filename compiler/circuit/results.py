"""From gathered currents to the results of a circuit and its matches."""

from __future__ import annotations

from typing import TYPE_CHECKING

from compiler.circuit.needs import battery_emf_v, current_of_test, impulse, limit_of_test, need
from compiler.model.quantities import Given, Range
from compiler.model.solved import CircuitResult, MatchResult, Reading
from grammar.findings import Finding

if TYPE_CHECKING:
    from compiler.circuit.gather import Gathered
    from compiler.circuit.moment import Sources
    from compiler.circuit.needs import Need
    from compiler.circuit.table import Table
    from compiler.model.solved import Address
    from compiler.model.types import Match, Model

ALONE = "supply lowest, own path highest, alone on its supply"
BESIDE = "supply lowest, own path highest, all beside it lowest"


class Results:
    """Assembles results; keeps what several circuits share and what could not be computed."""

    def __init__(self, model: Model) -> None:
        self._model = model
        self._needs: dict[tuple[str, str], Need] = {}
        self._tests: dict[tuple[str, str | None], float | None] = {}
        self._limits: dict[frozenset[str], tuple[float | None, str]] = {}
        self._readings: dict[int, tuple[Reading, ...]] = {}
        self._culprits: dict[str, Finding] = {}

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What could not be computed, once per culprit."""
        return tuple(self._culprits.values())

    def circuit(
        self,
        name: str,
        topology: str,
        matches: tuple[str, ...],
        table: Table,
        address: Address | None,
        own: Sources | None,
        gathered: Gathered | None,
        supply: str | None,
    ) -> CircuitResult:
        """The result of one circuit.

        `own` is None where nothing about its currents is known, `gathered` likewise or broken
        where not all that is alive with it is known.
        """
        alive = gathered if gathered is not None and not gathered.broken else None
        alone = None if own is None else _alone(own, table)
        if alone is not None and alone.least <= 0.0:
            alone = alive = None
        kinds = [self._kind(match) for match in matches]
        limit_a, limit_id = self._test_limit(kinds)
        return CircuitResult(
            name=name,
            resistance_ohm=Given(table.low_ohm, table.nominal_ohm, table.high_ohm),
            readings=self._of_meter(table),
            current_a=None
            if alive is None or alone is None
            else Range(alive.channel_a, alive.channel_nominal_a, alone.greatest),
            alone_current_a=alone,
            shorted_current_a=None
            if own is None or alone is None
            else own.greatest[0] / (own.greatest[1] + table.front_low_ohm),
            test_a=self._test(address, supply),
            test_limit_a=limit_a,
            test_limit_id=limit_id,
            matches=self._matches(topology, matches, kinds, address, own, alive),
        )

    def _kind(self, match: str) -> Match:
        """The type of a match that is wired."""
        return self._model.matches[self._model.match_uses[match].igniter or ""]

    def _matches(
        self,
        topology: str,
        names: tuple[str, ...],
        kinds: list[Match],
        address: Address | None,
        own: Sources | None,
        alive: Gathered | None,
    ) -> dict[str, MatchResult]:
        """The results of a circuit's matches, in wiring order.

        A match that is wired twice (an error of its own) keeps the worse of its results.
        """
        use = "alone" if topology == "single" else topology
        found: dict[str, MatchResult] = {}
        for m, (name, kind) in enumerate(zip(names, kinds, strict=True)):
            if own is None or alive is None:
                needed = self._need(kind, use)
                result = MatchResult(
                    name,
                    use,
                    None,
                    None,
                    needed.required_a,
                    needed.required_from,
                    None,
                    needed.required_a2s,
                    None,
                    "",
                )
            else:
                result = self._match(name, kind, use, m, address, own, alive)
            before = found.get(name)
            if before is None or _least(result) < _least(before):
                found[name] = result
        return found

    def _match(
        self,
        name: str,
        kind: Match,
        use: str,
        m: int,
        address: Address | None,
        own: Sources,
        alive: Gathered,
    ) -> MatchResult:
        """The result of match number `m` of a circuit whose currents are known."""
        needed = self._need(kind, use)
        e, r = own.greatest
        greatest = e / (r + alive.table.greatest_ohm[m])
        current = Range(alive.least_a[m], alive.nominal_a[m], greatest)
        return MatchResult(
            name=name,
            use=use,
            current_a=current,
            least_sibling_shorted_a=alive.sibling_a[m],
            required_a=needed.required_a,
            required_from=needed.required_from,
            impulse_a2s=impulse(current, needed, self._pulse(address)),
            required_a2s=needed.required_a2s,
            least_instant=alive.instant[m],
            least_corner=BESIDE if alive.shared[m] else ALONE,
        )

    def _need(self, kind: Match, use: str) -> Need:
        """What a type needs in its use, worked out once."""
        found = self._needs.get((kind.name, use))
        if found is None:
            found = need(kind, use, self._model.rules.limits)
            self._needs[kind.name, use] = found
        return found

    def _pulse(self, address: Address | None) -> Given | None:
        """The pulse of the module that a circuit is on; its absence is told once."""
        rail = None if address is None else self._model.rails.get(address.rail)
        module = None if rail is None else self._model.modules.get(rail.module)
        if module is None:
            return None
        if module.pulse_s is None and module.name not in self._culprits:
            self._culprits[module.name] = Finding(
                "not-computed",
                f"module {module.name} states no pulse length",
                at=f"module:{module.name}",
                role="pulse",
                subject=f"module {module.name}",
                detail="No firing impulse of any match on it can be computed.",
                hint="State it as the maker does, as in `pulse 100 ms +- 5 ms`.",
            )
        return module.pulse_s

    def _test(self, address: Address | None, supply: str | None) -> float | None:
        """The greatest test current at a circuit's channel."""
        if address is None:
            return None
        key = address.rail, supply
        if key not in self._tests:
            rail = self._model.rails.get(address.rail)
            module = None if rail is None else self._model.modules.get(rail.module)
            emf_v = battery_emf_v(self._model, supply)
            self._tests[key] = None if module is None else current_of_test(module, emf_v)
        return self._tests[key]

    def _test_limit(self, kinds: list[Match]) -> tuple[float | None, str]:
        """The most that a test may put through these matches, worked out once per set of types."""
        key = frozenset([kind.name for kind in kinds])
        if key not in self._limits:
            self._limits[key] = limit_of_test(kinds, self._model.rules.limits)
        return self._limits[key]

    def _of_meter(self, table: Table) -> tuple[Reading, ...]:
        """Readings with the meter's error; circuits of equal content share them."""
        found = self._readings.get(id(table))
        if found is None:
            ohm, ratio = self._model.show.meter_ohm, self._model.show.meter_ratio
            found = tuple(
                Reading(
                    at_c,
                    low,
                    nominal,
                    high,
                    max(low * (1.0 - ratio) - ohm, 0.0),
                    high * (1.0 + ratio) + ohm,
                )
                for at_c, low, nominal, high in table.readings
            )
            self._readings[id(table)] = found
        return found


def _least(result: MatchResult) -> float:
    """For comparing two results of one match."""
    return 0.0 if result.current_a is None else result.current_a.least


def _alone(own: Sources, table: Table) -> Range:
    """The channel's current with no other circuit alive, all matches unfired."""
    (e_least, r_least), (e, r), (e_most, r_most) = own
    return Range(
        e_least / (r_least + table.high_ohm),
        e / (r + table.nominal_ohm),
        e_most / (r_most + table.low_ohm),
    )
