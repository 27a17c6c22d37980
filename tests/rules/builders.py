"""A small solved show in which everything is well, and ways to spoil it. All values are invented.

Two rails A and B on two supplies; circuits First (A.1, device D1), Second (A.2, D2) and Third
(B.1, D3), each alone on its channel, fired by the cues 1, 2 and 3 at 10, 20 and 30 s.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from compiler.checks import RULES
from compiler.model.quantities import ZERO, Given, Range
from compiler.model.solved import (
    Address,
    Alive,
    CircuitResult,
    Element,
    FiredCue,
    Instant,
    MatchResult,
    RailLoad,
    Schedule,
    Series,
    Solved,
    Wiring,
)
from compiler.model.types import (
    Battery,
    Cable,
    Circuit,
    Cue,
    Device,
    Effect,
    Feed,
    Group,
    Limit,
    Match,
    MatchUse,
    Model,
    Module,
    Origin,
    Position,
    Rail,
    RuleSet,
    Run,
    ShowFacts,
    Supply,
)
from compiler.model.values import replace
from grammar.findings import Finding

ORIGIN = Origin("invented for this test", "invented")

LIMITS = {
    "margin": (1.5, "1"),
    "test-current": (0.025, "A"),
    "test-fraction": (0.2, "1"),
    "test-fault": (0.05, "A"),
    "function-time": (0.01, "s"),
    "chase-step": (2.0, "s"),
}

MATCH = Match(
    name="red-tag",
    bridge_ohm=Given(1.5, 1.6, 1.7),
    leg_length_m=0.0,
    leg_cable=None,
    no_fire_a=0.2,
    fires_alone_a=0.6,
    fires_series_a=1.0,
    fires_parallel_a=1.0,
    impulse_a2s=Given(0.001, 0.002, 0.003),
    function_s=0.01,
    generic=False,
    group="invented maker, group 1",
    origin=ORIGIN,
)
MODULE = Module(
    name="box-8",
    channels=8,
    driver_ohm=Given.exact(0.1),
    driver_drop_v=ZERO,
    channel_limit_a=15.0,
    rail_limit_a=40.0,
    most_at_once=4,
    pulse_s=Given.exact(0.1),
    recovery_s=0.2,
    tick_s=0.01,
    jitter_s=0.002,
    circuit_ohm_range=(0.5, 20.0),
    test_current_a=0.008,
    test_resistor_ohm=None,
    test_fault_a=0.02,
    reach_m=100.0,
    origin=ORIGIN,
)
BATTERY = Battery("pack-24", Given(21.0, 25.2, 29.4), Given(0.05, 0.1, 0.25), 60.0, 40.0, ORIGIN)
CABLE = Cable("zip-18", "copper", Given(0.021, 0.021, 0.022), 0.00393, 50.0, ORIGIN)
EFFECT = Effect("comet-x", "comet", "red-tag", ZERO, 2.0, None, ORIGIN)

NAMES = {"First": ("D1", "A", 1), "Second": ("D2", "A", 2), "Third": ("D3", "B", 1)}


def limit(name: str, value: float, unit: str) -> Limit:
    """A limit of the invented rule set."""
    return Limit(name, value, unit, "invented for this test", "invented", True, "house rules")


def circuit(name: str, *matches: str, how: str = "single", **changes: Any) -> Circuit:
    """A circuit with an eight-metre lead at Q1."""
    wiring = Group(how, matches, lead=Run(8.0, "zip-18"))
    return Circuit(name, wiring, **{"rail": None, "channel": None, "place": "Q1", "key_effect": None, **changes})


def wiring(*matches: str, lead_m: float = 8.0, topology: str = "single") -> Wiring:
    """A lead and bridges one after another."""
    ohm = Given(0.3, 0.35, 0.4)
    lead = Element("lead", "lead", "zip-18", "copper", lead_m, None, 0.00393, ohm, ohm)
    bridge = Given(1.5, 1.6, 1.7)
    bridges = [Element(f"{name}.bridge", "bridge", "red-tag", None, None, name, 0.0, bridge, bridge) for name in matches]
    elements = {element.id: element for element in (lead, *bridges)}
    return Wiring(elements, Series(tuple(elements)), topology)


def match_result(name: str, **changes: Any) -> MatchResult:
    """A match that gets five amperes and needs 0.6 A alone."""
    well: dict[str, Any] = {
        "use": "alone",
        "current_a": Range(5.0, 6.0, 7.0),
        "least_sibling_shorted_a": 4.0,
        "required_a": 0.6,
        "required_from": "alone",
        "impulse_a2s": Range(0.25, 0.36, 0.49),
        "required_a2s": 0.003,
        "least_instant": 0,
        "least_corner": "supply lowest",
    }
    return MatchResult(name, **{**well, **changes})


def circuit_result(name: str, *matches: MatchResult, **changes: Any) -> CircuitResult:
    """A circuit well within all limits."""
    well: dict[str, Any] = {
        "resistance_ohm": Given(1.8, 2.0, 2.1),
        "readings": (),
        "current_a": Range(5.0, 6.0, 7.0),
        "alone_current_a": Range(5.0, 6.0, 7.0),
        "shorted_current_a": 12.0,
        "test_a": 0.008,
        "test_limit_a": 0.025,
        "test_limit_id": "test-current",
        "matches": {match.name: match for match in matches},
    }
    return CircuitResult(name, **{**well, **changes})


def instant(*circuits: str, at_s: float = 10.0, amps: float = 12.0, rail: str = "A", supply: str = "Pack-1") -> Instant:
    """A stretch of 0.1 s in which these circuits are alive on one rail."""
    load = Range(5.0, 6.0, amps)
    from_us = round(at_s * 1e6)
    rails = (RailLoad(rail, load, len(circuits)),)
    return Instant(supply, from_us, from_us + 104_000, circuits, load, rails, {f"{supply}>{rail}": load})


def alive(name: str, cue: str, at_s: float) -> Alive:
    """Alive for a pulse of 100 ms, with 2 ms of jitter on either side."""
    at_us = round(at_s * 1e6)
    return Alive(name, cue, at_us, at_us - 2_000, at_us + 102_000)


def fired(number: str, at_s: float, *circuits: str) -> FiredCue:
    """A cue seen as it is fired."""
    return FiredCue(number, "", "clock", at_s, ZERO, at_s, at_s, 0.0, circuits)


def cue(number: str, at_s: float, *circuits: str, **changes: Any) -> Cue:
    """A cue as written, without prefire."""
    return Cue(number, "", "clock", at_s, None, ZERO, circuits, **changes)


def rail(name: str, source: str | None, module: str = "box-8", length_m: float = 0.0) -> Rail:
    """A rail at Q1."""
    feed = None if source is None else Feed(f"{source}>{name}", source, name, length_m, "zip-18" if length_m else None)
    return Rail(name, module, "Q1", feed, (), None)


def _model() -> Model:
    limits = {name: limit(name, value, unit) for name, (value, unit) in LIMITS.items()}
    facts = ShowFacts("Test", 1, "", (5.0, 30.0), 0.1, 0.015, 2.0, 0.1, "straight", "zip-18", Given.exact(0.005))
    cues = tuple(cue(str(index), 10.0 * index, name) for index, name in enumerate(NAMES, 1))
    return Model(
        facts,
        RuleSet("house rules", "2027-01-01", limits),
        matches={"red-tag": MATCH},
        cables={"zip-18": CABLE},
        batteries={"pack-24": BATTERY},
        modules={"box-8": MODULE},
        effects={"comet-x": EFFECT},
        positions={"Q1": Position("Q1", 0.0, 0.0, 0.0), "Q2": Position("Q2", 10.0, 0.0, 0.0)},
        supplies={name: Supply(name, "pack-24", "Q1") for name in ("Pack-1", "Pack-2")},
        rails={"A": rail("A", "Pack-1", length_m=3.0), "B": rail("B", "Pack-2", length_m=3.0)},
        devices={name: Device(name, "comet-x", "Q1", (name,)) for name, *_ in NAMES.values()},
        match_uses={name: MatchUse(name, name, "red-tag", 0.0, 0.0, 0.0) for name, *_ in NAMES.values()},
        circuits={name: circuit(name, device) for name, (device, *_) in NAMES.items()},
        cues=cues,
    )


def well() -> Solved:
    """The show in which no rule finds anything."""
    times = {name: 10.0 * index for index, name in enumerate(NAMES, 1)}
    return Solved(
        _model(),
        addresses={name: Address(rail_name, channel, False) for name, (_, rail_name, channel) in NAMES.items()},
        distances_m=dict.fromkeys(NAMES, 5.0),
        wirings={name: wiring(device) for name, (device, *_) in NAMES.items()},
        schedule=Schedule(
            tuple(fired(str(index), times[name], name) for index, name in enumerate(NAMES, 1)),
            tuple(alive(name, str(index), times[name]) for index, name in enumerate(NAMES, 1)),
        ),
        instants=tuple(
            instant(name, at_s=times[name], rail=rail_name, supply="Pack-1" if rail_name == "A" else "Pack-2")
            for name, (_, rail_name, _) in NAMES.items()
        ),
        circuits={name: circuit_result(name, match_result(device)) for name, (device, *_) in NAMES.items()},
    )


def remodelled(solved: Solved, **changes: Any) -> Solved:
    """The same with fields of the model replaced."""
    return replace(solved, model=replace(solved.model, **changes))


def with_part(solved: Solved, table: str, name: str, **changes: Any) -> Solved:
    """The same with values of one entity of the model changed: ``"modules", "box-8", pulse_s=None``."""
    parts = getattr(solved.model, table)
    return remodelled(solved, **{table: {**parts, name: replace(parts[name], **changes)}})


def with_result(solved: Solved, name: str = "First", **changes: Any) -> Solved:
    """The same with values of one circuit's result changed."""
    return replace(solved, circuits={**solved.circuits, name: replace(solved.circuits[name], **changes)})


def with_match(solved: Solved, name: str = "First", match: str = "D1", **changes: Any) -> Solved:
    """The same with values of one match's result changed."""
    matches = solved.circuits[name].matches
    return with_result(solved, name, matches={**matches, match: replace(matches[match], **changes)})


def with_limit(solved: Solved, name: str, value: float) -> Solved:
    """The same under another limit."""
    rules = solved.model.rules
    changed = replace(rules.limits[name], value=value)
    return remodelled(solved, rules=replace(rules, limits={**rules.limits, name: changed}))


def with_circuits(solved: Solved, *circuits: Circuit) -> Solved:
    """The same with these circuits in place of all others, none of them addressed anew."""
    return remodelled(solved, circuits={made.name: made for made in circuits})


def check_of(slug: str) -> Callable[[Solved], list[Finding]]:
    """The check of one rule as a function to a list."""
    check = next(rule.check for rule in RULES if rule.slug == slug)
    assert check is not None, slug
    return lambda solved: list(check(solved))
