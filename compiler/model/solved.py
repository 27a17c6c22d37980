"""Solved values, keyed by entity name: what the computing rooms found. Frozen, in SI.

`None` means *not computed*; whoever leaves a `None` also reports a finding.
"""

# Annotations are evaluated here: as texts, a named tuple would compile each of them at every start.
from dataclasses import dataclass, field
from typing import NamedTuple

from compiler.model.quantities import Given, Range
from compiler.model.types import Model


class Element(NamedTuple):
    """One resistance of a circuit, both conductors counted.

    `what`      lead | segment | splice | leg | bridge
    `length_m`  run of the pair (what the crew cuts); None for splices and bridges
    `match`     the MatchUse it belongs to (legs and bridges), else None
    `ohm_20`    at 20 degC with material tolerance; `ohm` over the ambient range
    (low: coldest, high: hottest plus the sun's heating), `ohm.nominal == ohm_20.nominal`.
    """

    id: str
    what: str
    part: str
    metal: str | None
    length_m: float | None
    match: str | None
    alpha_per_k: float
    ohm_20: Given
    ohm: Given


@dataclass(frozen=True, slots=True)
class Series:
    """Branches one after another."""

    parts: "tuple[Series | Parallel | str, ...]"


@dataclass(frozen=True, slots=True)
class Parallel:
    """Branches side by side."""

    parts: "tuple[Series | Parallel | str, ...]"


Branch = Series | Parallel | str  # str: an element's id


@dataclass(frozen=True, slots=True)
class Wiring:
    """A circuit's elements and the series-parallel tree over their ids, seen from the channel."""

    elements: dict[str, Element]
    tree: Branch
    topology: str  # single | series | parallel | mixed


class Address(NamedTuple):
    """Where a circuit is connected. `bound`: the show says so itself."""

    rail: str
    channel: int
    bound: bool


class Reading(NamedTuple):
    """What a meter should show at the channel with the cable at `at_c`."""

    at_c: float
    low: float
    nominal: float
    high: float
    meter_low: float
    meter_high: float


class MatchResult(NamedTuple):
    """What one match gets, over all instants its circuit is alive.

    `least` of `current_a`: every circuit of the instant alive, every match unfired.
    `least_sibling_shorted_a`: the same with the quickest other match shorted
    (of the circuit, or of the instant if that is worse). `least_at`: instant index and corner in words.
    """

    name: str
    use: str  # alone | series | parallel | mixed
    current_a: Range | None
    least_sibling_shorted_a: float | None
    required_a: float | None
    required_from: str
    impulse_a2s: Range | None
    required_a2s: float | None
    least_instant: int | None
    least_corner: str


class CircuitResult(NamedTuple):
    """What was computed for one circuit. `current_a`: at the channel, over its instants, unfired.

    `alone_current_a`: no other circuit alive. `shorted_current_a`: greatest supply, least
    resistances, a short at the match end of the lead (no leg wire credited), alone on the supply.
    """

    name: str
    resistance_ohm: Given
    readings: tuple[Reading, ...]
    current_a: Range | None
    alone_current_a: Range | None
    shorted_current_a: float | None
    test_a: float | None
    test_limit_a: float | None
    test_limit_id: str
    matches: dict[str, MatchResult]


class FiredCue(NamedTuple):
    """A cue with its firing time. Times in seconds of show time.

    `seen_s` is what the audience sees; `wanted_fired_s = seen_s - prefire.nominal`;
    `fired_s` is rounded to the tick of its rails, half away from zero;
    `rounding_s = fired_s - wanted_fired_s`.
    """

    number: str
    text: str
    by: str
    seen_s: float | None
    prefire_s: Given
    wanted_fired_s: float
    fired_s: float
    rounding_s: float
    circuits: tuple[str, ...]
    press: str | None = None  # cue number of the press that its times count from


class Alive(NamedTuple):
    """When a circuit may carry current: closed interval in whole microseconds."""

    circuit: str
    cue: str
    fired_us: int
    from_us: int
    to_us: int
    press: str | None = None  # its times count from this press; None: show time


@dataclass(frozen=True, slots=True)
class Schedule:
    """Cues in firing order and the closed intervals in which circuits are alive."""

    cues: tuple[FiredCue, ...]
    alive: tuple[Alive, ...]


@dataclass(frozen=True, slots=True)
class RailLoad:
    """A rail's load at an instant. `count`: circuits alive."""

    rail: str
    amps: Range
    count: int


class Instant(NamedTuple):
    """A stretch of time with one set of circuits alive on one supply.

    `greatest` of every load is with each alive circuit shorted at its match end and
    the others possibly absent; `least` and `nominal` with all unfired and alive.
    `feeds` maps a feed's name to its load.
    """

    supply: str
    from_us: int
    to_us: int
    circuits: tuple[str, ...]
    supply_a: Range | None
    rails: tuple[RailLoad, ...]
    feeds: dict[str, Range]
    press: str | None = None  # its times count from this press; None: show time


@dataclass(frozen=True, slots=True)
class Solved:
    """Everything the checks, the plan and nothing else look at."""

    model: Model
    addresses: dict[str, Address] = field(default_factory=dict)
    distances_m: dict[str, float] = field(default_factory=dict)  # circuit: straight, rail to place
    wirings: dict[str, Wiring] = field(default_factory=dict)
    schedule: Schedule = Schedule((), ())
    instants: tuple[Instant, ...] = ()
    circuits: dict[str, CircuitResult] = field(default_factory=dict)
    feeds_ohm: dict[str, Given] = field(default_factory=dict)
