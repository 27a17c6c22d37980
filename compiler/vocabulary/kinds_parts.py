"""Kinds of parts: what a catalogue holds."""

from __future__ import annotations

from compiler.vocabulary.forms import Clause, Form, Slot
from compiler.vocabulary.limits import LIMITS
from compiler.vocabulary.pieces import AMPERE, CABLE, LENGTH, NEW_ONE, OHM, REASON, SECONDS, SOURCE, SPREAD_S, Kind, one
from compiler.vocabulary.quantities import Number, Quantity
from compiler.vocabulary.shapes import Choice, Count, Flag, RuleName, Shape, Text
from compiler.vocabulary.times import Moment

EFFECT_KINDS = (
    "shell", "comet", "mine", "gerb", "fountain", "fan", "candle", "wheel", "chain", "lance", "flash", "other",
)  # fmt: skip
METALS = ("copper", "copper-clad-steel", "copper-clad-aluminium")
SEVERITIES = ("note", "warning", "error")


def _part(word: str, clauses: tuple[Clause, ...], text: str, example: str) -> Kind:
    """A part: it has one name, may be like another of its kind, and says where its values come from."""
    like = Clause("like", one(word), f"the {word} whose values it takes where it says nothing itself")
    return Kind(
        word, Form((Slot("name", NEW_ONE, True),), (*clauses, like, *SOURCE), block=True), text, example, part=True
    )


def _limit(name: str, *more: Clause) -> Clause:
    kind = LIMITS[name]
    shape: Shape = Quantity(kind.dimension, least=0.0, most=1e4)
    if kind.dimension in ("count", "ratio"):
        shape = Count(0) if kind.dimension == "count" else Number()
    return Clause(name, Form((Slot("value", shape, True),), more), kind.help)


_SEVERITY = Clause(
    "severity", Form((Slot("rule", RuleName(), True), Slot("severity", Choice(SEVERITIES), True)), REASON),
    "how much a finding of a rule weighs; raised freely, lowered only with a reason", many=True,
)  # fmt: skip

MATCH = _part("match", (
    Clause("bridge", OHM, "resistance of the bridge"),
    Clause("legs", Form((Slot("none", Choice(("none",))), Slot("length", LENGTH)), (CABLE,), spoken="a length of wire, as in `3 m of leg-24`, or `none`"), "length and wire of the legs", default="none"),
    Clause("no-fire", AMPERE, "greatest current that never fires it", key="no_fire"),
    Clause("alone", AMPERE, "firing current of one match by itself"),
    Clause("series", AMPERE, "firing current in a series line"),
    Clause("parallel", AMPERE, "firing current of each match in parallel"),
    Clause("impulse", Quantity("impulse", spread=True, least=0.0, most=1e3), "firing impulse, most to least sensitive"),
    Clause("function", SECONDS, "time within which it fires at its firing current"),
    Clause("group", Text(), "make and resistance group; groups never mix in a circuit"),
    Clause("generic", Flag(), "a class of matches, not a maker's data sheet"),
), "A type of electric match.", "match red-tag { bridge 1.6 ohm +- 0.2; legs 3 m of leg-24; no-fire 0.25 A; alone 0.6 A; series 1 A; parallel 1 A; impulse 0.8 .. 3.0 A2ms }")  # fmt: skip

CABLE_KIND = _part("cable", (
    Clause("gauge", Quantity("gauge", least=0.0, most=40.0), "wire gauge (ASTM B258)"),
    Clause("area", Form((Slot("area", Quantity("area", least=1e-8, most=1e-3), True),), (Clause("class", Count(1, 6), "conductor class of IEC 60228"),)), "cross-section of one conductor"),
    Clause("resistance", Quantity("resistance per length", spread=True, least=0.0, most=10.0), "resistance of one conductor at 20 degC, taken as it stands"),
    Clause("stranded", Flag(), "stranded, not solid"),
    Clause("metal", Choice(METALS), "the conductor's metal", default="copper"),
    Clause("conductivity", Quantity("ratio", least=0.05, most=1.1), "conductivity of clad wire against copper", default="21 % (steel), 61 % (aluminium)"),
    Clause("tempco", Quantity("per temperature", least=0.0, most=0.02), "temperature coefficient at 20 degC", default="0.00393 per K"),
    Clause("limit", AMPERE, "greatest current it may carry"),
), "A two-conductor cable; values are for one conductor.", "cable field-18 { gauge 18 awg; stranded }")  # fmt: skip

MODULE = _part("module", (
    Clause("channels", Count(1, 1000), "how many channels"),
    Clause("driver", OHM, "resistance of one channel's driver"),
    Clause("drop", Quantity("voltage", spread=True, least=0.0, most=20.0), "constant drop of the driver", default="0 V"),
    Clause("channel-limit", AMPERE, "greatest current of one channel", key="channel_limit"),
    Clause("rail-limit", AMPERE, "greatest current of the whole rail", key="rail_limit"),
    Clause("at-once", Count(1, 1000), "most channels at one moment", key="at_once"),
    Clause("pulse", SPREAD_S, "length of the firing pulse"),
    Clause("recovery", SECONDS, "rest of the rail after a pulse"),
    Clause("tick", Quantity("time", least=1e-4, most=10.0), "smallest step of firing times", default="10 ms"),
    Clause("jitter", SECONDS, "how far a firing time may be off", default="0 ms"),
    Clause("circuit", Quantity("resistance", spread=True, least=0.0, most=1e6), "circuit resistances that it accepts"),
    Clause("test-current", AMPERE, "greatest test current into a short circuit", key="test_current"),
    Clause("test-resistor", OHM, "resistor that limits the test current", key="test_resistor"),
    Clause("test-fault", AMPERE, "greatest test current after one part failed", key="test_fault"),
    Clause("reach", LENGTH, "longest lead"),
), "A type of firing module.", "module dc-6 { channels 6; driver 0.2 ohm; channel-limit 12 A; pulse 100 ms }")  # fmt: skip

BATTERY = _part("battery", (
    Clause("voltage", Quantity("voltage", spread=True, least=0.0, most=1000.0), "terminal voltage without load, lowest to highest"),
    Clause("inner", OHM, "inner resistance, cold and old at the high end"),
    Clause("limit", AMPERE, "greatest current it gives"),
    Clause("fuse", AMPERE, "rating of its fuse"),
), "A type of battery.", "battery pack-12 { voltage 10.5 .. 14.7 V; inner 20 .. 80 mohm; limit 60 A; fuse 40 A }")  # fmt: skip

EFFECT = _part("effect", (
    Clause("kind", Choice(EFFECT_KINDS), "what it is", default="other"),
    Clause("match", one("match"), "the match that lights it", default="generic-match"),
    Clause("prefire", SPREAD_S, "from current to what the audience sees", default="0 s"),
    Clause("burn", SECONDS, "how long it burns"),
    Clause("calibre", Quantity("length", least=0.0, most=2.0), "calibre"),
    Clause("shells", Form((Slot("count", Count(2, 100), True),), (Clause("of", one("effect"), "the shell", key="shell"),), spoken="a number of shells, as in `5 of shell-75-red`"), "the shells of a chain: one match lights all of them"),
    Clause("delay", SECONDS, "from one burst of a chain to the next"),
), "A type of effect. A chain is seen at its first burst.", "effect shell-75-violet { kind shell; calibre 75 mm; prefire 2.7 s +- 0.3 s }")  # fmt: skip

LIMITS_KIND = Kind(
    "limits", Form((), (*(_limit(name, *REASON) for name in LIMITS), _SEVERITY), block=True),
    "Changes limits of the rule set: tighter freely, looser only with a reason and a name.", "limits { margin 2 }",
)  # fmt: skip
RULESET = Kind(
    "ruleset", Form((Slot("name", Text(), True),), (
        Clause("like", Text(), "the set it starts from", default='"strict"'),
        Clause("dated", Moment(), "the day of its sources"),
        *(_limit(name, *SOURCE) for name in LIMITS), _SEVERITY,
    ), block=True),
    "A named, dated set of limits with their sources.",
    'ruleset "harbour" like "strict" { dated 2027-01-01; margin 2 source "harbour order" }', part=True,
)  # fmt: skip

PART_KINDS = (MATCH, CABLE_KIND, MODULE, BATTERY, EFFECT, LIMITS_KIND, RULESET)
