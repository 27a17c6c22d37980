"""What stands before a channel: supply, feeds (daisy-chained or not), rail, driver.

Only rails that carry a circuit are looked at; what such a rail lacks is one finding per culprit.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from compiler.circuit.temperature import factors
from compiler.model.quantities import ZERO, Given
from grammar.findings import Finding

if TYPE_CHECKING:
    from collections.abc import Iterable

    from compiler.model.types import Feed, Model, Rail


class Line(NamedTuple):
    """A rail with everything before it, at the bounds over the ambient range.

    `whole` is False where a value is missing: then no number may be built on it.
    `supply` is None where the feeds lead to no supply. `depth` 1 hangs on the supply itself.
    `feeds` names the feeds from the supply to this rail, the rail's own last.
    `path_ohm` is the supply's inner resistance and all those feeds in series.
    """

    rail: str
    supply: str | None
    parent: str | None
    depth: int
    whole: bool
    emf_v: Given
    inner_ohm: Given
    feed_ohm: Given
    feeds: tuple[str, ...]
    path_ohm: Given
    driver_ohm: Given
    drop_v: Given


def feed_ohm(feed: Feed, model: Model) -> Given | None:
    """Both conductors of a feed over the ambient range in ohm; None where its cable is not known."""
    if feed.length_m == 0.0:
        return ZERO
    cable = model.cables.get(feed.cable or "")
    if cable is None:
        return None
    cold, hot = factors(model, cable.alpha_per_k)
    loop = cable.ohm_per_m.times(2.0 * feed.length_m)
    return Given(loop.low * cold, loop.nominal, loop.high * hot)


def feeds_ohm(model: Model) -> dict[str, Given]:
    """Every feed's resistance by name, as far as it is known."""
    known = {}
    for rail in model.rails.values():
        ohm = None if rail.feed is None else feed_ohm(rail.feed, model)
        if rail.feed is not None and ohm is not None:
            known[rail.feed.name] = ohm
    return known


class Lines:
    """The lines of the rails in use, and one finding per thing that is missing."""

    def __init__(self, model: Model, rails: Iterable[str]) -> None:
        self._model = model
        self._lines: dict[str, Line] = {}
        self._culprits: dict[str, Finding] = {}
        for rail in rails:
            if rail in model.rails:
                self._resolve(rail)
            else:
                self._missing(
                    f"rail:{rail}",
                    "",
                    f"rail {rail}",
                    f"rail {rail} carries circuits but is not known",
                    f"Declare it, as in `rail {rail} of dc-16 at Q1`.",
                )

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What is missing, in the order in which it was met."""
        return tuple(self._culprits.values())

    @property
    def known(self) -> dict[str, Line]:
        """All lines by rail."""
        return self._lines

    def get(self, rail: str) -> Line | None:
        """The line of a rail in use; None for a rail that the show does not have."""
        return self._lines.get(rail)

    def _resolve(self, name: str) -> None:
        """Build the line of a rail and of all rails before it."""
        chain: list[Rail] = []
        seen: set[str] = set()
        while name not in self._lines and name in self._model.rails:
            if name in seen:
                names = [rail.name for rail in chain]
                self._cycle(names, names[names.index(name) :])
                return
            rail = self._model.rails[name]
            seen.add(name)
            chain.append(rail)
            source = rail.feed.source if rail.feed is not None else ""
            if source in self._model.supplies:
                break
            name = source
        for rail in reversed(chain):
            self._lines[rail.name] = self._line(rail)

    def _line(self, rail: Rail) -> Line:
        """The line of one rail whose predecessor is known."""
        feed = rail.feed
        source = "" if feed is None else feed.source
        before = self._lines.get(source)
        if source in self._model.supplies:
            before = self._supply(source)
        ohm = None if feed is None else feed_ohm(feed, self._model)
        driver = self._driver(rail)
        if before is None:
            self._no_source(rail)
        elif ohm is None:
            self._no_cable(rail)
        module = self._model.modules.get(rail.module)
        return Line(
            rail=rail.name,
            supply=None if before is None else before.supply,
            parent=None if before is None or before.depth == 0 else before.rail,
            depth=1 if before is None else before.depth + 1,
            whole=before is not None and before.whole and ohm is not None and driver is not None,
            emf_v=ZERO if before is None else before.emf_v,
            inner_ohm=ZERO if before is None else before.inner_ohm,
            feed_ohm=ohm or ZERO,
            feeds=(*(before.feeds if before else ()), *((feed.name,) if feed else ())),
            path_ohm=(before.path_ohm if before else ZERO).plus(ohm or ZERO),
            driver_ohm=driver or ZERO,
            drop_v=ZERO if module is None else module.driver_drop_v,
        )

    def _supply(self, name: str) -> Line:
        """A supply as the head of a line."""
        kind = self._model.supplies[name].battery
        battery = self._model.batteries.get(kind)
        emf = None if battery is None else battery.emf_v
        inner = None if battery is None else battery.inner_ohm
        for value, role, example in (
            (emf, "voltage", "voltage 21 .. 29.4 V nominal 25.2 V"),
            (inner, "inner", "inner 0.05 .. 0.25 ohm"),
        ):
            if value is None:
                self._missing(
                    f"battery:{kind}",
                    role,
                    f"battery {kind}",
                    f"battery {kind} states no {role}{' resistance' if role == 'inner' else ''}",
                    f"State it as the maker does, as in `{example}`.",
                )
        whole = emf is not None and inner is not None
        inner = inner or ZERO
        return Line("", name, None, 0, whole, emf or ZERO, inner, ZERO, (), inner, ZERO, ZERO)

    def _driver(self, rail: Rail) -> Given | None:
        """The resistance of a rail's drivers."""
        module = self._model.modules.get(rail.module)
        if module is None or module.driver_ohm is None:
            self._missing(
                f"module:{rail.module}",
                "driver",
                f"module {rail.module}",
                f"module {rail.module} states no driver resistance",
                "State it as the maker does, as in `driver 0.1 ohm +- 20 %`.",
            )
            return None
        return module.driver_ohm

    def _no_source(self, rail: Rail) -> None:
        """A rail that hangs on nothing."""
        name = rail.name
        what = "has no feed" if rail.feed is None else f"is fed from {rail.feed.source}, which is not known"
        self._missing(
            f"rail:{name}",
            "feed",
            f"rail {name}",
            f"rail {name} {what}",
            "Say where it is fed from, as in `feed Pack-1 through 3 m of trunk-2.5`.",
        )

    def _no_cable(self, rail: Rail) -> None:
        """A feed of unknown cable."""
        name = rail.name
        cable = rail.feed.cable if rail.feed is not None else None
        told = f"cable {cable}, which is" if cable else "a cable that is"
        self._missing(
            f"rail:{name}",
            "feed",
            f"rail {name}",
            f"rail {name} is fed through {told} not known",
            "Name a cable that the show or the catalogue declares, as in `through 3 m of trunk-2.5`.",
        )

    def _cycle(self, names: list[str], ring: list[str]) -> None:
        """Rails that feed each other in a ring, and those behind them: none has a supply."""
        told = " from ".join([*ring, ring[0]])
        for name in names:
            self._lines[name] = Line(name, None, None, 1, False, ZERO, ZERO, ZERO, (), ZERO, ZERO, ZERO)
        self._missing(
            f"rail:{ring[0]}",
            "feed",
            f"rail {ring[0]}",
            f"the feeds lead round in a ring and to no supply: {told}",
            "Feed one of these rails from a supply, as in `feed Pack-1 through 3 m of trunk-2.5`.",
        )

    def _missing(self, key: str, role: str, subject: str, headline: str, hint: str) -> None:
        """One finding per culprit and role."""
        self._culprits.setdefault(
            f"{key}/{role}",
            Finding(
                "not-computed",
                headline,
                at=key,
                role=role,
                subject=subject,
                detail=(
                    "No current of any circuit behind it can be computed, nor of what fires at the "
                    "same moment from the same supply."
                ),
                hint=hint,
            ),
        )
