"""An invented show, solved by a few plain lines: what the plan and the sheets are tried on.

The currents are honest for this small set-up (each circuit alone on its supply), but they
check nothing about the engine; they only have to look like a show.
`python tests/plan/sample_show.py` writes `tests/sheets/sample_plan.json` again.
"""

from __future__ import annotations

import json
from pathlib import Path

from compiler.model import solved as s
from compiler.model import types as t
from compiler.model.quantities import ZERO, Given, Range
from compiler.plan.build import build_plan
from compiler.vocabulary.music import Music
from grammar.findings import Finding

HANDBOOK = t.Origin("invented for the sample", "invented")
ALPHA = 0.00393
METER = (0.1, 0.015)
JOINT = Given(0.0, 0.005, 0.01)


def around(value: float, share: float = 0.05) -> Given:
    """A value with an even tolerance."""
    return Given(value * (1 - share), value, value * (1 + share))


# --- parts and site -----------------------------------------------------------------------------

MATCHES = {
    "generic-match": t.Match(
        "generic-match", Given(0.8, 1.6, 2.0), 3.0, "leg-24", 0.18, 0.6, 1.0, 1.0,
        Given(0.8e-3, 2e-3, 3e-3), None, True, "generic", HANDBOOK,
    ),
    "drum-match": t.Match(
        "drum-match", around(1.6, 0.1), 2.0, "leg-24", 0.2, 0.5, 0.75, 0.75,
        Given(1e-3, 2e-3, 3e-3), 0.008, False, "drum", HANDBOOK,
    ),
    "bare-match": t.Match(
        "bare-match", around(1.2, 0.1), 1.0, "leg-24", None, None, None, None,
        None, None, False, "bare", HANDBOOK,
    ),
}  # fmt: skip
CABLES = {
    name: t.Cable(name, metal, around(ohm, 0.03), ALPHA, limit, HANDBOOK)
    for name, metal, ohm, limit in (
        ("zip-18", "copper", 0.02095, 10.0),
        ("zip-16", "copper", 0.01317, 13.0),
        ("zip-14", "copper", 0.008286, 15.0),
        ("bell-24", "copper", 0.08422, 3.5),
        ("leg-24", "copper-clad-steel", 0.21, None),
        ("trunk-2.5", "copper", 0.00741, 25.0),
    )
}
BATTERIES = {
    "lead-acid-24": t.Battery("lead-acid-24", Given(21.0, 25.2, 29.4), Given(0.05, 0.1, 0.25), 80.0, 60.0, HANDBOOK)
}
MODULES = {
    name: t.Module(
        name, channels, around(1.0, 0.2), Given(0.2, 0.2, 0.2), 30.0, 60.0, 6,
        around(0.1), 0.2, 0.01, 0.002, (0.5, 60.0), 0.008, None, 0.02, 120.0, HANDBOOK,
    )
    for name, channels in (("dc-16", 16), ("dc-8", 8))
}  # fmt: skip
EFFECTS = {
    name: t.Effect(name, kind, match, around(prefire, 0.1), burn, calibre, HANDBOOK)
    for name, kind, match, prefire, burn, calibre in (
        ("shell-75", "shell", "generic-match", 2.7, 2.0, 0.075),
        ("comet-gold", "comet", "drum-match", 0.0, 3.0, 0.03),
        ("mine-red", "mine", "drum-match", 0.0, 2.0, 0.05),
        ("silver-gerb", "gerb", "drum-match", 0.2, 45.0, None),
        ("wheel-green", "wheel", "bare-match", 0.5, 30.0, None),
        ("fountain-white", "fountain", "drum-match", 0.1, 20.0, None),
    )
}
POSITIONS = {
    **{f"Q{n}": t.Position(f"Q{n}", -50.0 + 10 * n, 0.0, 0.0) for n in range(1, 10)},
    "Pylon-W": t.Position("Pylon-W", -18.0, 12.0, 14.0),
    "Pylon-E": t.Position("Pylon-E", 18.0, 12.0, 14.0),
}
RAILS = {
    "A": t.Rail("A", "dc-16", "Q2", t.Feed("Pack-1>A", "Pack-1", "A", 3.0, "trunk-2.5"),
                ("Q1", "Q2", "Q3", "Q4", "Q5"), None, ("Q1", "Q2"),
                t.Feed("Hut>A", "Hut", "A", 90.0, "trunk-2.5")),
    "B": t.Rail("B", "dc-16", "Q7", t.Feed("Pack-2>B", "Pack-2", "B", 3.0, "trunk-2.5"),
                ("Q6", "Q7", "Q8", "Q9"), 3),
    "C": t.Rail("C", "dc-8", "Q9", t.Feed("B>C", "B", "C", 22.0, "trunk-2.5"), (), None),
}  # fmt: skip
FEEDS = {"Pack-1>A": around(0.045), "Pack-2>B": around(0.045), "B>C": around(0.326)}
LIMITS = {
    limit.id: limit
    for limit in (
        t.Limit("margin", 1.5, "1", "29 CFR 1926.906, read as a floor", "invented", True, "strict"),
        t.Limit("test-current", 0.02, "A", "the show itself", "invented", False, "the show"),
        t.Limit("test-fraction", 0.2, "1", "invented for the sample", "invented", False, "strict"),
        t.Limit("chase-step", 2.5, "s", "invented for the sample", "invented", True, "the lead"),
        t.Limit("spare-share", 0.1, "1", "common practice", "from memory", True, "strict"),
        t.Limit("spare-least", 2.0, "1", "common practice", "from memory", True, "strict"),
    )
}

# --- devices, circuits, cues --------------------------------------------------------------------


class Field:
    """Collects what the show says, line by line."""

    def __init__(self) -> None:
        """Nothing yet."""
        self.devices: dict[str, t.Device] = {}
        self.uses: dict[str, t.MatchUse] = {}
        self.circuits: dict[str, t.Circuit] = {}
        self.addresses: dict[str, s.Address] = {}
        self.cues: list[t.Cue] = []

    def device(self, name: str, effect: str, place: str, count: int = 1) -> tuple[str, ...]:
        """A device with one match, or a falls with `count`."""
        at = POSITIONS[place]
        names = (name,) if count == 1 else tuple(f"{name}.{n}" for n in range(1, count + 1))
        for index, use in enumerate(names):
            igniter = EFFECTS[effect].match
            x_m = at.x_m + 3.3 * index
            self.uses[use] = t.MatchUse(use, name, igniter, x_m, at.y_m, at.z_m)
        self.devices[name] = t.Device(
            name, effect, place, names, count=3 * count if count > 1 else 1,
            spacing_m=1.1 if count > 1 else None, fuse="quickmatch" if count > 1 else None,
            key=count > 1,
        )  # fmt: skip
        return names

    def circuit(self, name: str, wiring: t.Group, on: str, place: str, label: str = "") -> None:
        """A circuit on a channel such as `A.1`."""
        rail, channel = on.split(".")
        key = "Curtain" if name.startswith("Curtain") else None
        apart = {"Curtain-A": "Curtain-B", "Curtain-B": "Curtain-A"}.get(name)
        self.circuits[name] = t.Circuit(name, wiring, rail, int(channel), place, key, label, apart)
        self.addresses[name] = s.Address(rail, int(channel), name.startswith("Curtain"))

    def line(self, number: str, seen_s: float, effect: str, place: str, on: str, **more: object):
        """A cue line: device, circuit and cue at once."""
        name = f"{place}-{effect}-{sum(d.startswith(f'{place}-{effect}-') for d in self.devices) + 1}"
        self.device(name, effect, place)
        lead = t.Run(abs(POSITIONS[place].x_m - POSITIONS[RAILS[on[0]].position].x_m) + 4, "zip-18")
        self.circuit(name, t.Group("single", (name,), lead=lead), on, place)
        self.cue(number, seen_s, effect, (name,), **more)

    def cue(self, number, seen_s, effect, circuits, text="", by="clock", step_s=None, press=None) -> None:
        """A cue over circuits that exist; a press is fired at once, and what follows counts from it."""
        prefire = EFFECTS[effect].prefire_s
        if by == "hand":
            self.cues.append(t.Cue(number, text, by, None, 0.0, prefire, circuits, None, number))
        else:
            self.cues.append(t.Cue(number, text, by, seen_s, None, prefire, circuits, step_s, press))


def field() -> Field:
    """The whole show as written."""
    f = Field()
    channels = iter([f"A.{n}" for n in range(1, 6)] + [f"B.{n}" for n in range(1, 5)])
    for n in range(1, 10):
        step = {"step_s": 0.15, "text": "Golden run"} if n == 1 else {}
        f.line(f"100.{n}", 10.0 + 0.15 * (n - 1), "comet-gold", f"Q{n}", next(channels), **step)
    for n in range(1, 7):
        f.line(str(n), 6.0 + 5 * n, "shell-75", "Q5", f"A.{5 + n}", text=f"Maroon {n}")
    for n, on in ((6, "B.5"), (7, "B.6"), (8, "B.7"), (9, "B.8")):
        f.line(f"110.{n - 5}", 40.0 + 0.3 * (n - 6), "mine-red", f"Q{n}", on, text="Red wall")
    for n, on in enumerate(("A.13", "A.14", "B.10", "B.11", "B.12"), 1):
        f.line(str(9 + n), 90.0 + 10 * n, "shell-75", f"Q{n + 3}", on, text=f"Colours {n}")
    f.line("20", 55.0, "wheel-green", "Q9", "C.2", text="Wheel")
    f.line("21", None, "fountain-white", "Q8", "C.3", text="Last fountain", by="hand")
    f.line("22", 8.005, "fountain-white", "Q7", "C.4", text="And its echo", press="21")
    f.device("Curtain", "silver-gerb", "Pylon-W", 10)
    odd = tuple(f"Curtain.{n}" for n in (1, 3, 5, 7, 9))
    even = tuple(f"Curtain.{n}" for n in (2, 4, 6, 8, 10))
    f.circuit("Curtain-A", t.Group("parallel", odd, t.Run(6.6, "zip-16"), "Curtain.5",
                                   t.Run(52.0, "zip-14")), "A.12", "Pylon-W")  # fmt: skip
    f.circuit("Curtain-B", t.Group("series", even, t.Run(6.6, "zip-18"), None,
                                   t.Run(58.0, "zip-16")), "B.9", "Pylon-W")  # fmt: skip
    f.cue("30", 185.0, "silver-gerb", ("Curtain-A", "Curtain-B"), "Curtain up")
    for n in range(1, 7):
        f.device(f"D{n}", "fountain-white", "Q6")
    pairs = (t.Group("series", ("D1", "D2", "D3")), t.Group("series", ("D4", "D5", "D6")))
    f.circuit("Mixed-1", t.Group("parallel", pairs, t.Run(2.0, "bell-24"), None,
                                 t.Run(20.0, "zip-18")), "C.1", "Q6", "C.1 Q6 fountains")  # fmt: skip
    f.cue("31", 200.0, "fountain-white", ("Mixed-1",), "Fountains")
    return f


# --- solving, as plainly as can be --------------------------------------------------------------


class Strip:
    """Elements of one circuit, numbered from the rail outward."""

    def __init__(self) -> None:
        """Nothing yet."""
        self.elements: dict[str, s.Element] = {}

    def add(self, what, part, metal, length_m, match, ohm: Given) -> str:
        """One element; its id."""
        name = f"{what}-{len(self.elements) + 1}"
        hot = Given(ohm.low * 0.94, ohm.nominal, ohm.high * (1.14 if metal else 1.0))
        self.elements[name] = s.Element(name, what, part, metal, length_m, match, ALPHA if metal else 0.0, ohm, hot)
        return name

    def run(self, what: str, run: t.Run) -> str:
        """A lead or a segment."""
        cable = CABLES[run.cable]
        ohm = cable.ohm_per_m.times(2 * run.length_m)
        return self.add(what, run.cable, cable.metal, run.length_m, None, ohm)

    def match(self, use: t.MatchUse) -> s.Series:
        """A match with its splice and legs."""
        kind = MATCHES[use.igniter]
        leg = CABLES[kind.leg_cable]
        return s.Series((
            self.add("splice", "joint", None, None, None, JOINT.times(2)),
            self.add("leg", leg.name, leg.metal, kind.leg_length_m, use.name,
                     leg.ohm_per_m.times(2 * kind.leg_length_m)),
            self.add("bridge", kind.name, None, None, use.name, kind.bridge_ohm),
        ))  # fmt: skip

    def group(self, group: t.Group, uses: dict[str, t.MatchUse]) -> s.Series:
        """A group as a tree; a parallel one as a ladder from its feed."""
        lead = (self.run("lead", group.lead),) if group.lead else ()
        members = [self.match(uses[m]) if isinstance(m, str) else self.group(m, uses) for m in group.members]
        if group.how != "parallel":
            gaps = [self.run("segment", group.spacing) for _ in members[1:]] if group.spacing else []
            return s.Series((*lead, *gaps, *members))
        feed = group.members.index(group.feed_at) if group.feed_at else 0
        sides = (members[:feed], members[feed + 1 :])
        arms = [self.arm(side, group.spacing) for side in (sides[0][::-1], sides[1]) if side]
        return s.Series((*lead, s.Parallel((*arms, members[feed]))))

    def arm(self, members: list[s.Branch], spacing: t.Run) -> s.Branch:
        """A ladder: segment, then the match beside the rest."""
        rest = members[-1]
        for member in reversed(members[:-1]):
            rest = s.Parallel((member, s.Series((self.run("segment", spacing), rest))))
        return s.Series((self.run("segment", spacing), rest))


def ohm(tree: s.Branch, values: dict[str, float]) -> float:
    """The resistance of a tree."""
    if isinstance(tree, str):
        return values[tree]
    parts = [ohm(part, values) for part in tree.parts]
    return sum(parts) if isinstance(tree, s.Series) else 1 / sum(1 / part for part in parts)


def share(tree: s.Branch, amps: float, values: dict[str, float]) -> dict[str, float]:
    """The current of each element."""
    if isinstance(tree, str):
        return {tree: amps}
    found: dict[str, float] = {}
    whole = ohm(tree, values)
    for part in tree.parts:
        mine = amps if isinstance(tree, s.Series) else amps * whole / ohm(part, values)
        found |= share(part, mine, values)
    return found


SOURCES = {"low": (20.8, 1.55), "nominal": (25.0, 1.15), "high": (29.2, 0.9)}


def carried(wiring: s.Wiring, corner: str) -> dict[str, float]:
    """Currents with a weak hot, a nominal or a strong cold set-up; `""` is the channel."""
    bound = {"low": "high", "nominal": "nominal", "high": "low"}[corner]
    values = {name: getattr(el.ohm, bound) for name, el in wiring.elements.items()}
    volts, source = SOURCES[corner]
    amps = volts / (source + ohm(wiring.tree, values))
    return {"": amps, **share(wiring.tree, amps, values)}


def solve(circuit: t.Circuit, wiring: s.Wiring, uses: dict[str, t.MatchUse], moment: int) -> s.CircuitResult:
    """One circuit alone on its supply; nothing where the match states no firing current."""
    bounds = [
        ohm(wiring.tree, {n: getattr(e.ohm, bound) for n, e in wiring.elements.items()}) for bound in Given._fields
    ]
    total = Given(*bounds)
    readings = tuple(
        s.Reading(at, total.low + 0.002 * at, total.nominal, total.high - 0.01 * (30 - at),
                  total.low * (1 - METER[1]) - METER[0], total.high * (1 + METER[1]) + METER[0])
        for at in (5.0, 30.0)
    )  # fmt: skip
    corners = [carried(wiring, corner) for corner in SOURCES]
    names = {el.match: el.id for el in wiring.elements.values() if el.what == "bridge"}
    known = all(MATCHES[uses[name].igniter].fires_alone_a for name in names)
    flow = Range(*(corner[""] for corner in corners)) if known else None
    lead = [e.ohm.low for e in wiring.elements.values() if e.what == "lead"]
    results = {
        name: result(uses[name], wiring.topology, [corner[el] for corner in corners], moment)
        for name, el in names.items()
    }
    return s.CircuitResult(
        circuit.name, total, readings, flow, flow, 29.2 / (0.9 + sum(lead)) if known else None,
        0.008, 0.02, "test-current", results,
    )  # fmt: skip


def result(use: t.MatchUse, topology: str, amps: list[float], moment: int) -> s.MatchResult:
    """One match's outcome; `moment` is the instant with the least current."""
    kind = MATCHES[use.igniter]
    way = "alone" if topology == "single" else topology
    required = kind.fires_alone_a if way == "alone" else kind.fires_series_a
    if required is None:
        return s.MatchResult(use.name, way, None, None, None, "", None, None, None, "")
    sibling = None if way == "alone" else amps[0] * (1.05 if way == "series" else 0.6)
    impulse = Range(*(value * value * 0.008 for value in amps))
    return s.MatchResult(
        use.name, way, Range(*amps), sibling, required, f"{kind.name}, {way}", impulse,
        kind.impulse_a2s.high, moment, "battery low and cold, cable hot, bridge high",
    )  # fmt: skip


def schedule(f: Field) -> tuple[s.Schedule, tuple[s.Instant, ...]]:
    """Fired times on whole ticks, and one instant for each moment and supply."""
    fired, alive, moments = [], [], {}
    for cue in f.cues:
        wanted = cue.lit_s if cue.seen_s is None else cue.seen_s - cue.prefire_s.nominal
        seen = wanted + cue.prefire_s.nominal if cue.seen_s is None else cue.seen_s
        at = round(wanted * 100 + 1e-6) / 100
        fired.append(s.FiredCue(cue.number, cue.text, cue.by, seen, cue.prefire_s, wanted,
                                at, at - wanted, cue.circuits, cue.press))  # fmt: skip
        for name in cue.circuits:
            at_us = round(at * 1e6)
            alive.append(s.Alive(name, cue.number, at_us, at_us - 2000, at_us + 107000, cue.press))
            supply = "Pack-1" if f.addresses[name].rail == "A" else "Pack-2"
            moments.setdefault((cue.press or "", at_us, supply), []).append(name)
    fired.sort(key=lambda cue: (cue.press or "", cue.fired_s))
    return s.Schedule(tuple(fired), tuple(alive)), tuple(
        instant(f, at, supply, names, press or None) for (press, at, supply), names in sorted(moments.items())
    )


def instant(f: Field, at_us: int, supply: str, names: list[str], press: str | None) -> s.Instant:
    """The load of one moment: twenty-five amperes for each circuit, shorted."""
    load = Range(3.0 * len(names), 4.0 * len(names), 25.0 * len(names))
    rails = sorted({f.addresses[name].rail for name in names})
    rows = tuple(s.RailLoad(rail, load, sum(f.addresses[n].rail == rail for n in names)) for rail in rails)
    feeds = {RAILS[rail].feed.name: load for rail in rails}
    return s.Instant(supply, at_us - 2000, at_us + 107000, tuple(names), load, rows, feeds, press)


TOPOLOGIES = {"Curtain-A": "parallel", "Curtain-B": "series", "Mixed-1": "mixed"}


def solved() -> s.Solved:
    """The whole show, solved."""
    f = field()
    times, instants = schedule(f)
    moments = {name: index for index, at in enumerate(instants) for name in at.circuits}
    wirings, results = {}, {}
    for name, circuit in f.circuits.items():
        strip = Strip()
        tree = strip.group(circuit.wiring, f.uses)
        wirings[name] = s.Wiring(strip.elements, tree, TOPOLOGIES.get(name, "single"))
        results[name] = solve(circuit, wirings[name], f.uses, moments[name])
    out = {name: s.Address(o.rail, o.channel, False) for name, o in AROUND["outs"].items()}
    return s.Solved(
        model(f), f.addresses | out, dict.fromkeys(f.circuits, 12.0), wirings, times, instants, results,
        FEEDS,
    )  # fmt: skip


def model(f: Field) -> t.Model:
    """The show as the plan's builder sees it."""
    head = t.ShowFacts("Sample evening", 4, "2027-06-19T22:15:00", (5.0, 30.0), *METER, 2.0, 0.1,
                       "along-axes", "zip-18", ZERO)  # fmt: skip
    supplies = {
        "Pack-1": t.Supply("Pack-1", "lead-acid-24", "Q2"),
        "Pack-2": t.Supply("Pack-2", "lead-acid-24", "Q7"),
    }
    notes = (
        t.Note("Plug from the wall side", "A"),
        t.Note("Tie off the centre gerb first", "Curtain-A"),
        t.Note("Nobody on the quay wall after 21:40", ""),
        t.Note("Sandbag both feet", "Q9"),
        t.Note("Check every sling before the lift", "Rigger"),
    )
    because = "the run is nine comets wide and reads as one"
    waivers = (t.Waiver("chase-step", "limit chase-step", because, "the lead"),)
    return t.Model(
        head, t.RuleSet("strict", "2027-01-01", LIMITS), MATCHES, CABLES, BATTERIES, MODULES,
        EFFECTS, POSITIONS, supplies, RAILS, f.devices, f.uses, f.circuits, tuple(f.cues), notes,
        waivers, **AROUND,
    )  # fmt: skip


AROUND = {
    "structures": {"Pylon": t.Place("Pylon", 0.0, 12.0, 0.0, 14.0)},
    "firing_points": {"Hut": t.Place("Hut", -60.0, -60.0, 0.0)},
    "crowds": {"Quay": t.CrowdLine("Quay", ((-90.0, -110.0, 0.0), (90.0, -110.0, 0.0)))},
    "racks": {"R1": t.Rack("R1", 5, 0.075, "Q5", (5.0, 5.0), 15.0)},
    "zones": {
        "West": t.Zone("West", ("A",), "West-Chief", -2100.0),
        "East": t.Zone("East", ("B", "C"), "Rigger", None),
    },
    "holds": (t.Hold("Ferry", 70.0, 80.0, "the ferry passes"),),
    "winds": (t.Wind(8.9408, None), t.Wind(6.7056, 0.125)),
    "music": {"Waltz": Music("Waltz", "25", False, "01:00:00:00", 150.0, 0.12, None)},
    "roles": ("Rigger", "West-Chief"),
    "out_orders": (t.OutOrder("position", "Q1", "soft ground", "the lead"),),
    "outs": {
        "Q1-mine-red-1": t.Out("Q1-mine-red-1", "A", 15, "Q1", "place Q1", "soft ground", "the lead"),
    },
    "cues_out": (
        t.Cue("110.5", "Red wall", "clock", 41.2, None, ZERO, ("Q1-mine-red-1",)),
    ),
}  # fmt: skip


FINDINGS = (
    Finding(
        "missing-firing-data", "match bare-match states no firing current", "match:bare-match",
        "alone", "circuit Q9-wheel-green-1", {"match": "bare-match"}, "",
        "Without it nothing can be said about the current of C.2.",
        "Add `alone 0.6 A` from the maker's data sheet.", severity="error",
    ),
    Finding(
        "thin-margin", "circuit Mixed-1 has little to spare", "circuit:Mixed-1", "",
        "circuit Mixed-1", {"margin": 2.276, "limit": 1.5}, "1.707 A / 0.75 A = 2.276, limit 1.5",
        "A colder battery would use it up.", "Use `zip-16` for the lead.", severity="warning",
    ),
    Finding(
        "rounding", "cue 21 is fired 5 ms late", "cue:21", "", "cue 21", {"rounding_s": 0.005},
        severity="note",
    ),
)  # fmt: skip


def place(finding: Finding) -> dict[str, object]:
    """A made-up place."""
    return {"file": "sample.show", "line": 3 + len(finding.rule), "column": 1}


def main() -> None:
    """Write the sample plan."""
    plan = build_plan(solved(), FINDINGS, place)
    text = json.dumps(plan, indent=1, ensure_ascii=False) + "\n"
    target = Path(__file__).parent.parent / "sheets" / "sample_plan.json"
    target.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
