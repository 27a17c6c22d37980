"""Small models for the tests of the electrical engine. All values are invented unless named."""

from __future__ import annotations

from dataclasses import dataclass, field

from compiler.circuit import Solution, build_wiring, solve_show
from compiler.model.quantities import ZERO, Given
from compiler.model.solved import Address, Alive, Schedule, Wiring
from compiler.model.types import (
    Battery,
    Cable,
    Circuit,
    Feed,
    Group,
    Limit,
    Match,
    MatchUse,
    Model,
    Module,
    Origin,
    Rail,
    RuleSet,
    Run,
    ShowFacts,
    Supply,
)
from compiler.model.values import replace

ORIGIN = Origin("invented", "invented")

LIMITS = {
    "test-current": 0.025,
    "test-fraction": 0.2,
    "function-time": 0.010,
    "sun-heating": 25.0,
    "copper-low": 0.01,
    "copper-high": 0.03,
    "stranding-high": 0.02,
}


def rules(**changed: float) -> RuleSet:
    """The limits that the engine reads; keyword `test_current=…` changes `test-current`."""
    values = {**LIMITS, **{key.replace("_", "-"): value for key, value in changed.items()}}
    limits = {key: Limit(key, value, "1", "invented", "invented", True, "strict") for key, value in values.items()}
    return RuleSet("strict", "2027-01-01", limits)


FACTS = ShowFacts(
    title="Test",
    revision=1,
    zero="",
    ambient_c=(5.0, 30.0),
    meter_ohm=0.1,
    meter_ratio=0.015,
    slack_m=0.0,
    slack_ratio=0.0,
    route="straight",
    lead_cable="wire",
    joint_ohm=ZERO,
)

COLD_FACTS = replace(FACTS, ambient_c=(20.0, 20.0))

MATCH = Match(
    name="match",
    bridge_ohm=Given(1.4, 1.6, 1.8),
    leg_length_m=0.0,
    leg_cable=None,
    no_fire_a=0.18,
    fires_alone_a=0.6,
    fires_series_a=1.0,
    fires_parallel_a=0.9,
    impulse_a2s=Given(0.0008, 0.002, 0.003),
    function_s=None,
    generic=False,
    group="a",
    origin=ORIGIN,
)

MODULE = Module(
    name="module",
    channels=32,
    driver_ohm=Given(0.08, 0.1, 0.12),
    driver_drop_v=ZERO,
    channel_limit_a=15.0,
    rail_limit_a=40.0,
    most_at_once=6,
    pulse_s=Given(0.095, 0.100, 0.105),
    recovery_s=0.2,
    tick_s=0.01,
    jitter_s=0.002,
    circuit_ohm_range=None,
    test_current_a=0.008,
    test_resistor_ohm=None,
    test_fault_a=None,
    reach_m=None,
    origin=ORIGIN,
)


def cable(name: str, ohm_per_m: Given | float, *, alpha_per_k: float = 0.00393) -> Cable:
    """A cable of that resistance per metre of one conductor."""
    ohm = ohm_per_m if isinstance(ohm_per_m, Given) else Given.exact(ohm_per_m)
    return Cable(name, "copper", ohm, alpha_per_k, None, ORIGIN)


def battery(name: str, emf_v: Given | float, inner_ohm: Given | float) -> Battery:
    """A battery."""
    emf = emf_v if isinstance(emf_v, Given) else Given.exact(emf_v)
    inner = inner_ohm if isinstance(inner_ohm, Given) else Given.exact(inner_ohm)
    return Battery(name, emf, inner, 60.0, None, ORIGIN)


def single(name: str, lead_m: float, lead: str = "wire") -> Group:
    """One match behind a lead."""
    return Group("single", (name,), lead=Run(lead_m, lead))


@dataclass
class Bench:
    """A show in the making: add supplies, rails, circuits and alive times, then `solve`."""

    facts: ShowFacts = FACTS
    rules: RuleSet = field(default_factory=rules)
    matches: dict[str, Match] = field(default_factory=lambda: {"match": MATCH})
    cables: dict[str, Cable] = field(default_factory=lambda: {"wire": cable("wire", 0.03)})
    batteries: dict[str, Battery] = field(default_factory=dict)
    modules: dict[str, Module] = field(default_factory=lambda: {"module": MODULE})
    supplies: dict[str, Supply] = field(default_factory=dict)
    rails: dict[str, Rail] = field(default_factory=dict)
    uses: dict[str, MatchUse] = field(default_factory=dict)
    circuits: dict[str, Circuit] = field(default_factory=dict)
    addresses: dict[str, Address] = field(default_factory=dict)
    alive: list[Alive] = field(default_factory=list)

    def supply(self, name: str, emf_v: Given | float, inner_ohm: Given | float) -> None:
        """A supply with a battery of its own."""
        self.batteries[f"of-{name}"] = battery(f"of-{name}", emf_v, inner_ohm)
        self.supplies[name] = Supply(name, f"of-{name}", "Q1")

    def rail(
        self,
        name: str,
        source: str,
        feed_m: float = 0.0,
        cable: str = "wire",
        module: str = "module",
    ) -> None:
        """A rail fed from a supply or another rail."""
        feed = Feed(f"{source}>{name}", source, name, feed_m, cable if feed_m else None)
        self.rails[name] = Rail(name, module, "Q1", feed, (), None)

    def circuit(
        self,
        name: str,
        wiring: Group,
        rail: str | None = None,
        *alive_us: tuple[int, int],
        igniter: str = "match",
    ) -> None:
        """A circuit with its matches, perhaps on a rail and alive in some closed intervals."""
        self.circuits[name] = Circuit(name, wiring, rail, None, "Q1", None)
        for match in names_of(wiring):
            self.uses[match] = MatchUse(match, name, igniter, 0.0, 0.0, 0.0)
        if rail is not None:
            self.addresses[name] = Address(rail, len(self.addresses) + 1, True)
        for start, end in alive_us:
            self.alive.append(Alive(name, "1", start, start, end))

    def model(self) -> Model:
        """The model as it stands."""
        return Model(
            show=self.facts,
            rules=self.rules,
            matches=self.matches,
            cables=self.cables,
            batteries=self.batteries,
            modules=self.modules,
            supplies=self.supplies,
            rails=self.rails,
            match_uses=self.uses,
            circuits=self.circuits,
        )

    def wirings(self) -> dict[str, Wiring]:
        """The wirings of all circuits; every one must come out whole."""
        built = {}
        for name, circuit in self.circuits.items():
            wiring, findings = build_wiring(circuit, self.model())
            assert wiring is not None, findings
            built[name] = wiring
        return built

    def solve(self) -> Solution:
        """Everything computed."""
        schedule = Schedule((), tuple(self.alive))
        return solve_show(self.model(), self.wirings(), self.addresses, schedule)


def names_of(group: Group) -> list[str]:
    """The matches of a group in wiring order."""
    found: list[str] = []
    stack: list[str | Group] = [group]
    while stack:
        here = stack.pop()
        if isinstance(here, Group):
            stack += reversed(here.members)
        else:
            found.append(here)
    return found
