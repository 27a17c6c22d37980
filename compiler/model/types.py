"""The model: frozen values in SI, with the unit in the name.

Nothing here knows about text, spans or units. Entities are keyed by name; the
places they came from live beside the model (`compiler.places`).
A value that the show does not state is `None`: no value, no number.
"""

# Annotations are evaluated here: as texts, a named tuple would compile each of them at every start.
from dataclasses import dataclass, field
from typing import NamedTuple

from compiler.model.quantities import Given
from compiler.vocabulary.music import Music


class Origin(NamedTuple):
    """Where a part's numbers come from: printed beside them, never invented."""

    source: str = ""
    confidence: str = ""


class Match(NamedTuple):
    """An electric match type. Currents are per match; `None` where the show states nothing."""

    name: str
    bridge_ohm: Given | None
    leg_length_m: float
    leg_cable: str | None
    no_fire_a: float | None
    fires_alone_a: float | None
    fires_series_a: float | None
    fires_parallel_a: float | None
    impulse_a2s: Given | None  # low: the most sensitive fires; high: the least sensitive fires
    function_s: float | None  # the class's function time; None: the limit `function-time` is used
    generic: bool  # True: not a maker's data sheet; `maker's data missing` prints
    group: str  # make and resistance group; types or groups never mix in one circuit
    origin: Origin


class Cable(NamedTuple):
    """A cable type. `ohm_per_m` is for ONE conductor at 20 degC, allowances in the bounds."""

    name: str
    metal: str  # copper | copper-clad-steel | copper-clad-aluminium
    ohm_per_m: Given
    alpha_per_k: float
    limit_a: float | None
    origin: Origin


class Battery(NamedTuple):
    """A battery type. The voltage range is low for firing, high for test and drivers."""

    name: str
    emf_v: Given | None
    inner_ohm: Given | None
    limit_a: float | None
    fuse_a: float | None
    origin: Origin


class Module(NamedTuple):
    """A firing module type: what one rail is made of."""

    name: str
    channels: int
    driver_ohm: Given | None
    driver_drop_v: Given
    channel_limit_a: float | None
    rail_limit_a: float | None
    most_at_once: int | None
    pulse_s: Given | None
    recovery_s: float | None
    tick_s: float
    jitter_s: float
    circuit_ohm_range: tuple[float, float] | None
    test_current_a: float | None  # greatest into a short, as the maker states it
    test_resistor_ohm: Given | None  # or: the resistor that limits it from the supply
    test_fault_a: float | None  # greatest after one protective part fails
    reach_m: float | None
    origin: Origin


class Effect(NamedTuple):
    """A type of effect: shell, comet, mine, gerb, fan, … with the delay from current to sight."""

    name: str
    kind: str
    match: str | None
    prefire_s: Given
    burn_s: float | None
    calibre_m: float | None
    origin: Origin
    shells: int = 1  # of a chain: how many burst, one after another
    shell: str | None = None  # of a chain: the effect that each of them is
    delay_s: float = 0.0  # of a chain: from one burst to the next


class Position(NamedTuple):
    """A named place on the site, metres in the site's grid: x east, y north, z up."""

    name: str
    x_m: float
    y_m: float
    z_m: float


class Supply(NamedTuple):
    """A firing supply in the field."""

    name: str
    battery: str
    position: str


class Feed(NamedTuple):
    """The cable that feeds a rail from a supply or, daisy-chained, from another rail."""

    name: str  # "Pack-1>A"
    source: str  # supply or rail
    rail: str
    length_m: float  # run; both conductors count
    cable: str | None  # None only where length is 0


class Rail(NamedTuple):
    """A module in the field with its channels `NAME.1` … `NAME.n`."""

    name: str
    module: str
    position: str
    feed: Feed | None
    serves: tuple[str, ...]  # positions; empty: all
    spare: int | None  # channels kept free; None: the limits decide
    prefers: tuple[str, ...] = ()  # positions whose circuits come here first
    control: Feed | None = None  # the control cable, from a firing point or another rail


class MatchUse(NamedTuple):
    """One match in the field: `Curtain.3`, or `Q5-shell-75-1` for a device with one."""

    name: str
    device: str
    igniter: str | None  # match type
    x_m: float
    y_m: float
    z_m: float


@dataclass(frozen=True, slots=True)
class Device:
    """One thing that burns: a shell in its mortar, a comet, or a whole row of falls."""

    name: str
    effect: str
    position: str
    matches: tuple[str, ...]  # names of MatchUse
    tilt_deg: float | None = None
    count: int = 1  # gerbs of a falls
    spacing_m: float | None = None
    fuse: str | None = None
    key: bool = False
    heading_deg: float | None = None
    tubes: tuple[str, ...] = ()  # of racks: `R3.4`


# --- wiring as the show says it, from the rail outward ----------------------------------------


class Run(NamedTuple):
    """A length of two-conductor cable: `52 m of zip-14`. `length_m` is the run of the pair.

    `length_m` None: to be laid out from the site (`compiler.layout`).
    """

    length_m: float | None
    cable: str | None


class Group(NamedTuple):
    """Matches or nested groups, in series or in parallel, in wiring order.

    `spacing`   the run between neighbours, or None: all joined at one point.
    `feed_at`   the member (match name) at which the lead comes in, or None: the first.
    `lead`      a run in front of the whole group, or None.
    """

    how: str  # "series" | "parallel" | "single"
    members: "tuple[str | Group, ...]"  # MatchUse names or groups
    spacing: Run | None = None
    feed_at: str | None = None
    lead: Run | None = None


class Circuit(NamedTuple):
    """One circuit: what hangs on one channel."""

    name: str
    wiring: Group
    rail: str | None  # as the show says; None: `compiler.address` finds one
    channel: int | None
    place: str  # the position it serves, for reach and addresses
    key_effect: str | None
    label: str = ""
    apart_from: str | None = None  # the other line of an effect that is fired twice


class Cue(NamedTuple):
    """What happens at one moment, as written. Exactly one of `seen_s`, `lit_s` is given."""

    number: str  # "12", "102.3"
    text: str
    by: str  # "clock" | "hand"
    seen_s: float | None
    lit_s: float | None
    prefire_s: Given
    circuits: tuple[str, ...]
    chase_step_s: float | None = None  # on the first part of a chase
    press: str | None = None  # cue number of the press that its times count from; None: show time


class Note(NamedTuple):
    """A note that prints on the sheets of the thing it is for."""

    text: str
    about: str  # entity name, or "" for all sheets


class Place(NamedTuple):
    """A point that people stand at, or a structure that positions stand on: metres, site grid."""

    name: str
    x_m: float
    y_m: float
    z_m: float
    height_m: float | None = None


class CrowdLine(NamedTuple):
    """The line that the crowd stands behind, metres, site grid."""

    name: str
    points_m: tuple[tuple[float, float, float], ...]


class Rack(NamedTuple):
    """A rack of tubes `NAME.1` … of one calibre."""

    name: str
    tubes: int
    calibre_m: float
    position: str
    tilt_deg: tuple[float, float] | None
    heading_deg: float | None


class Zone(NamedTuple):
    """Rails that are armed as one. `armed_s`: seconds of show time, None where not said."""

    name: str
    rails: tuple[str, ...]
    role: str | None
    armed_s: float | None


class Hold(NamedTuple):
    """A time in which nothing is fired and nothing burns, in seconds of show time."""

    name: str
    from_s: float
    to_s: float
    because: str


class Wind(NamedTuple):
    """The wind at which firing stops, for all or for a calibre and above."""

    speed_m_s: float
    from_calibre_m: float | None


class OutOrder(NamedTuple):
    """What the show takes out: a position, rail, device, circuit or cue."""

    kind: str
    name: str
    because: str
    by: str


class Out(NamedTuple):
    """A circuit taken out: it keeps its channel, and nothing fires it."""

    circuit: str
    rail: str | None
    channel: int | None
    place: str
    what: str  # "place Q4", "rail C", "device Maroon-1", "cue 12"
    because: str
    by: str


class Limit(NamedTuple):
    """One limit of the rule set in force. `set_by`: rule set's name, or who changed it."""

    id: str
    value: float
    unit: str  # SI unit, "1" for ratios and counts
    source: str
    confidence: str
    waivable: bool
    set_by: str


@dataclass(frozen=True, slots=True)
class RuleSet:
    """A named, dated set of limits."""

    name: str
    dated: str
    limits: dict[str, Limit]


class SeveritySaid(NamedTuple):
    """A severity that the show or its rule set gives to a rule."""

    rule: str
    severity: str
    because: str
    by: str


class Waiver(NamedTuple):
    """A loosened limit or a waived rule: who, why. Prints on the sheets it touches."""

    rule: str
    subject: str
    because: str
    by: str


class ShowFacts(NamedTuple):
    """The head of the show."""

    title: str
    revision: int
    zero: str  # ISO date and time, or ""
    ambient_c: tuple[float, float]
    meter_ohm: float  # absolute part of the meter's error
    meter_ratio: float  # relative part
    slack_m: float
    slack_ratio: float
    route: str  # "along-axes" | "straight"
    lead_cable: str | None
    joint_ohm: Given  # one conductor-to-conductor joint
    label: str = "{rail}.{channel} {place}"


@dataclass(frozen=True, slots=True)
class Model:
    """The whole show in SI, keyed by name. Only entities that are whole enough to compute on."""

    show: ShowFacts
    rules: RuleSet
    matches: dict[str, Match] = field(default_factory=dict)
    cables: dict[str, Cable] = field(default_factory=dict)
    batteries: dict[str, Battery] = field(default_factory=dict)
    modules: dict[str, Module] = field(default_factory=dict)
    effects: dict[str, Effect] = field(default_factory=dict)
    positions: dict[str, Position] = field(default_factory=dict)
    supplies: dict[str, Supply] = field(default_factory=dict)
    rails: dict[str, Rail] = field(default_factory=dict)
    devices: dict[str, Device] = field(default_factory=dict)
    match_uses: dict[str, MatchUse] = field(default_factory=dict)
    circuits: dict[str, Circuit] = field(default_factory=dict)
    cues: tuple[Cue, ...] = ()
    notes: tuple[Note, ...] = ()
    waivers: tuple[Waiver, ...] = ()
    structures: dict[str, Place] = field(default_factory=dict)
    firing_points: dict[str, Place] = field(default_factory=dict)
    crowds: dict[str, CrowdLine] = field(default_factory=dict)
    racks: dict[str, Rack] = field(default_factory=dict)
    zones: dict[str, Zone] = field(default_factory=dict)
    holds: tuple[Hold, ...] = ()
    winds: tuple[Wind, ...] = ()
    music: dict[str, Music] = field(default_factory=dict)
    roles: tuple[str, ...] = ()
    out_orders: tuple[OutOrder, ...] = ()
    outs: dict[str, Out] = field(default_factory=dict)  # by circuit, once channels are known
    cues_out: tuple[Cue, ...] = ()
    severities: tuple[SeveritySaid, ...] = ()
    waived: tuple[Waiver, ...] = ()  # rules waived for one thing
