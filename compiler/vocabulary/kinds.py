"""The vocabulary: every kind of statement, its slots and clauses, with dimension, default and help.

This one table drives decoding, messages and the reference. A new property is one line here.
"""

from __future__ import annotations

from typing import NamedTuple

from compiler.vocabulary.forms import Clause, Form, Slot
from compiler.vocabulary.limits import LIMITS
from compiler.vocabulary.shapes import (
    Address,
    Choice,
    Count,
    Flag,
    Label,
    Names,
    Number,
    Point,
    Quantity,
    Spread,
    Text,
)
from compiler.vocabulary.times import Moment, Time

EFFECT_KINDS = ("shell", "comet", "mine", "gerb", "fountain", "fan", "candle", "wheel", "other")
METALS = ("copper", "copper-clad-steel", "copper-clad-aluminium")
ROUTES = ("along-axes", "straight")


class Kind(NamedTuple):
    """One kind of statement. `part`: a catalogue may hold it. `example` reads right as it is."""

    word: str
    form: Form
    help: str
    example: str
    part: bool = False
    inside: str = ""  # the kind whose block it belongs to; empty: top level


NEW = Names((), many=True)
NEW_ONE = Names((), many=False)
LENGTH = Quantity("length", least=0.0, most=20_000.0)
OHM = Quantity("resistance", spread=True, least=0.0, most=1e6)
AMPERE = Quantity("current", least=0.0, most=10_000.0)
SECONDS = Quantity("time", least=0.0, most=86_400.0)
SPREAD_S = Quantity("time", spread=True, least=0.0, most=3_600.0)

CABLE = Clause("of", Names(("cable",), many=False), "the cable", key="cable")
SOURCE = (
    Clause("source", Text(), "where the values come from"),
    Clause("confidence", Text(), "how far that was seen: confirmed, common practice, from memory"),
)


def _one(*kinds: str) -> Names:
    return Names(kinds, many=False)


def _run(*more: Clause, required: bool = False) -> Form:
    """A length of cable: `52 m of zip-14`."""
    return Form((Slot("length", LENGTH, required),), (CABLE, *more), spoken="a length of cable, as in `52 m of zip-14`")


LEAD = Clause("lead", _run(Clause("to", _one("match"), "where the lead joins the line")), "cable from the rail to the line")
_MEMBERS = Slot("members", Names(("device", "match"), many=True))
_SPACED = Clause("spaced", _run(required=True), "cable between neighbours")
GROUP = Form((_MEMBERS,), (LEAD, _SPACED), block=True, spoken="devices or matches, as in `Curtain.odd`").holding_itself(
    ("series", "one after another"), ("parallel", "side by side")
)
_SERIES = Clause("series", GROUP, "matches one after another, in wiring order", many=True)
_PARALLEL = Clause("parallel", GROUP, "matches side by side, in wiring order", many=True)

_WHAT = Slot("what", Names(("effect", "circuit", "device"), many=True), True, "Name an effect and its place, or a circuit.")
_CUE_CLAUSES = (
    Clause("at", Names(("position",), many=True), "the place or places", key="places"),
    Clause("on", Address(), "the channel, where it is fixed"),
    Clause("as", NEW_ONE, "a name for the circuit"),
    Clause("tilt", Spread(), "tilt of the device, or of a fan from first to last", default="0 deg"),
    Clause("count", Count(1, 200), "how many at each place", default="1"),
    Clause("in", Choice(("series", "parallel")), "how several at one place are wired"),
    Clause("every", Quantity("time", least=0.0, most=3600.0), "the step of a chase"),
    Clause("and", Choice(("back",)), "the chase returns"),
    LEAD,
)
_TEXT = Slot("text", Text())
CUE = Form(
    (Slot("number", Label(), True, "Number it: `cue 12 at 0:30.0 …`."), _WHAT, _TEXT),
    (
        Clause("at", Time(), "when the audience sees it; the prefire is subtracted", key="seen"),
        Clause("lit", Time(), "the firing time itself", after="at"),
        *_CUE_CLAUSES,
    ),
)
LINE = Form((Slot("offset", Time(offset=True), True), _WHAT, _TEXT), _CUE_CLAUSES)

KINDS: dict[str, Kind] = {
    kind.word: kind
    for kind in (
        Kind("use", Form((Slot("path", Text(), True, 'Name a file: `use "parts/cables.show"`.'),)),
             "reads another file of the show, once", 'use "parts/cables.show"'),
        Kind("show", Form((Slot("title", Text()),), (
            Clause("revision", Count(0), "revision of the show, printed on every sheet", default="0"),
            Clause("zero", Moment(), "date and wall-clock time of show time 0:00"),
            Clause("ambient", Quantity("temperature", spread=True, least=-60.0, most=70.0), "air temperature, coldest to hottest", default="5 .. 30 degC"),
            Clause("rules", Text(), "name of the rule set in force", default='"strict"'),
            Clause("meter", Form((Slot("error", Quantity("resistance", least=0.0, most=100.0), True),), (Clause("plus", Number(), "share of the reading", key="share"),)),
                   "error of the meter", default="0.1 ohm plus 1.5 %"),
        ), block=True), "names the show and what holds for all of it", 'show "Harbour night" { revision 2; ambient 5 .. 25 degC }'),
        Kind("defaults", Form((), (
            Clause("lead", _one("cable"), "the cable where none is said"),
            Clause("slack", Form((Slot("length", LENGTH, True),), (Clause("plus", Number(), "share of the route", key="share"),)), "added to every laid-out lead", default="2 m plus 10 %"),
            Clause("route", Choice(ROUTES), "how leads run from rail to place", default="along-axes"),
            Clause("joint", OHM, "one conductor-to-conductor joint", default="5 mohm +- 5 mohm"),
        ), block=True), "what holds where nothing else is said", "defaults { lead zip-18; slack 2 m plus 10 % }"),
        Kind("position", Form((Slot("names", NEW, True),), (
            Clause("at", Point(), "its place: east, north, up"),
            Clause("from", Point(), "the place of the first of several"),
            Clause("every", Point(fewest=1), "the step to the next"),
        ), block=True), "a named place on the site", "position Q1..Q9 from -40 m, 0 m every 10 m"),
        Kind("match", Form((Slot("name", NEW_ONE, True),), (
            Clause("bridge", OHM, "resistance of the bridge"),
            Clause("legs", Form((Slot("none", Choice(("none",))), Slot("length", LENGTH)), (CABLE,)), "length and wire of the legs", default="none"),
            Clause("no-fire", AMPERE, "greatest current that never fires it", key="no_fire"),
            Clause("alone", AMPERE, "firing current of one match by itself"),
            Clause("series", AMPERE, "firing current in a series line"),
            Clause("parallel", AMPERE, "firing current of each match in parallel"),
            Clause("impulse", Quantity("impulse", spread=True, least=0.0, most=1e3), "firing impulse, most to least sensitive"),
            Clause("function", SECONDS, "time within which it fires at its firing current"),
            Clause("group", Text(), "make and resistance group; groups never mix in a circuit"),
            Clause("generic", Flag(), "a class of matches, not a maker's data sheet"),
            *SOURCE,
        ), block=True), "a type of electric match", "match red-tag { bridge 1.6 ohm +- 0.2; legs 3 m of leg-24; no-fire 0.25 A; alone 0.6 A; series 1 A; parallel 1 A; impulse 0.8 .. 3.0 A2ms }", part=True),
        Kind("cable", Form((Slot("name", NEW_ONE, True),), (
            Clause("gauge", Quantity("gauge", least=0.0, most=40.0), "wire gauge (ASTM B258)"),
            Clause("area", Form((Slot("area", Quantity("area", least=1e-8, most=1e-3), True),), (Clause("class", Count(1, 6), "conductor class of IEC 60228"),)), "cross-section of one conductor"),
            Clause("resistance", Quantity("resistance per length", spread=True, least=0.0, most=10.0), "resistance of one conductor at 20 degC"),
            Clause("stranded", Flag(), "stranded, not solid"),
            Clause("metal", Choice(METALS), "the conductor's metal", default="copper"),
            Clause("conductivity", Quantity("ratio", least=0.05, most=1.1), "conductivity of clad wire against copper", default="21 %"),
            Clause("tempco", Quantity("per temperature", least=0.0, most=0.02), "temperature coefficient at 20 degC", default="0.00393 per K"),
            Clause("limit", AMPERE, "greatest current it may carry"),
            *SOURCE,
        ), block=True), "a two-conductor cable; values are for one conductor", "cable zip-18 { gauge 18 awg; stranded }", part=True),
        Kind("module", Form((Slot("name", NEW_ONE, True),), (
            Clause("channels", Count(1, 1000), "how many channels", required=True),
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
            *SOURCE,
        ), block=True), "a type of firing module", "module dc-6 { channels 6; driver 0.2 ohm; channel-limit 12 A; pulse 100 ms }", part=True),
        Kind("battery", Form((Slot("name", NEW_ONE, True),), (
            Clause("voltage", Quantity("voltage", spread=True, least=0.0, most=1000.0), "terminal voltage without load, lowest to highest"),
            Clause("inner", OHM, "inner resistance, cold and old at the high end"),
            Clause("limit", AMPERE, "greatest current it gives"),
            Clause("fuse", AMPERE, "rating of its fuse"),
            *SOURCE,
        ), block=True), "a type of battery", "battery pack-12 { voltage 10.5 .. 14.7 V; inner 20 .. 80 mohm; limit 60 A; fuse 40 A }", part=True),
        Kind("effect", Form((Slot("name", NEW_ONE, True),), (
            Clause("kind", Choice(EFFECT_KINDS), "what it is", default="other"),
            Clause("match", _one("match"), "the match that lights it", default="generic-match"),
            Clause("prefire", SPREAD_S, "from current to what the audience sees", default="0 s"),
            Clause("burn", SECONDS, "how long it burns"),
            Clause("calibre", Quantity("length", least=0.0, most=2.0), "calibre"),
            *SOURCE,
        ), block=True), "a type of effect", "effect shell-75-blue { kind shell; calibre 75 mm; prefire 2.7 s +- 0.3 s }", part=True),
        Kind("supply", Form((Slot("names", NEW, True),), (
            Clause("of", _one("battery"), "the battery", key="battery", required=True),
            Clause("at", _one("position"), "where it stands", key="position", required=True),
        ), block=True), "a firing supply in the field", "supply Pack-1 of lead-acid-24 at Q1"),
        Kind("rail", Form((Slot("names", NEW, True),), (
            Clause("of", _one("module"), "the module", key="module", required=True),
            Clause("at", _one("position"), "where it stands", key="position", required=True),
            Clause("feed", Form((Slot("source", _one("supply", "rail"), True),), (
                Clause("through", _run(required=True), "the feeding cable"),)), "the supply, or the rail before it"),
            Clause("serves", Names(("position",), many=True), "the places that circuits may come from"),
            Clause("spare", Count(0, 1000), "channels that stay free", default="by the limits `spare-share` and `spare-least`"),
        ), block=True), "a module in the field with its channels", "rail A of dc-16 at Q1 { feed Pack-1 through 3 m of trunk-2.5 }"),
        Kind("device", Form((Slot("names", NEW, True),), (
            Clause("of", _one("effect"), "the effect", key="effect", required=True),
            Clause("at", Names(("position",), many=True), "its place", key="places", required=True),
            Clause("tilt", Spread(), "its tilt", default="0 deg"),
            Clause("key", Flag(), "it must fire whatever single part fails"),
        ), block=True), "one thing that burns, with a name", "device Maroon-1 of shell-75 at Q5"),
        Kind("falls", Form((Slot("name", NEW_ONE, True),), (
            Clause("of", _one("effect"), "the gerb", key="effect", required=True),
            Clause("at", _one("position"), "where its middle hangs", key="places"),
            Clause("from", _one("position"), "one end"),
            Clause("to", _one("position"), "the other end"),
            Clause("count", Form((Slot("number", Count(1, 2000), True),), (Clause("every", LENGTH, "distance of neighbours"),)), "how many gerbs", required=True),
            Clause("matches", Count(1, 1000), "how many matches, each in the middle of its group", required=True),
            Clause("fuse", NEW_ONE, "what joins the gerbs of a group"),
            Clause("key", Flag(), "it must light whatever single part fails"),
        ), block=True), "a row of gerbs with several matches", "falls Curtain of silver-gerb at Q5 { count 30 every 1.1 m; matches 10 }"),
        Kind("circuit", Form((Slot("name", NEW_ONE, True),), (
            Clause("on", Address(), "the channel; found where it is not said"),
            LEAD, _SERIES, _PARALLEL,
        ), block=True), "what hangs on one channel, from the rail outward", "circuit Pair on A.1 { lead 12 m of zip-18; series Maroon-1, Maroon-2 }"),
        Kind("cue", CUE, "what happens at one moment", 'cue 1 at 0:06.0 shell-75 at Q5 "Maroon"'),
        Kind("script", Form((Slot("name", NEW_ONE, True),), (
            Clause("from", Time(), "show time of its start", required=True),
            Clause("to", Time(), "show time of its end"),
            Clause("numbered", Count(0), "number of its first cue"),
        ), statements=True), "lines that count from its start", "script Opening from 0:10 to 0:40 numbered 100 { +0:00.0 comet-gold at Q1..Q9 }"),
        Kind("bind", Form((Slot("circuit", _one("circuit"), True),), (
            Clause("to", Address(), "its channel", required=True), LEAD,
        )), "fixes the channel of a circuit", "bind Q5-shell-75-1 to A.4"),
        Kind("limits", Form((), tuple(
            Clause(name, Form(
                (Slot("value", Count(0) if kind.dimension == "count" else Number() if kind.dimension == "ratio" else Quantity(kind.dimension, least=0.0, most=1e4), True),),
                (Clause("because", Text(), "why it is loosened"), Clause("by", Text(), "who answers for it")),
            ), kind.help) for name, kind in LIMITS.items()
        ), block=True), "changes limits of the rule set: tighter freely, looser only with a reason and a name", "limits { margin 2 }"),
        Kind("ruleset", Form((Slot("name", Text(), True),), (
            Clause("like", Text(), "the set it starts from"),
            Clause("dated", Moment(), "the day of its sources"),
            *(Clause(name, Form(
                (Slot("value", Count(0) if kind.dimension == "count" else Number() if kind.dimension == "ratio" else Quantity(kind.dimension, least=0.0, most=1e4), True),),
                SOURCE,
            ), kind.help) for name, kind in LIMITS.items()),
        ), block=True), "a named, dated set of limits with their sources", 'ruleset "harbour" like "strict" { dated 2027-01-01; margin 2 source "harbour order" }', part=True),
        Kind("note", Form((Slot("text", Text(), True, 'Write it in quotes: `note "…" for A`.'),), (
            Clause("for", Names(("rail", "position", "circuit", "device", "supply", "cue"), many=True), "the thing whose sheets it prints on", key="about"),
        )), "prints on the sheets of the thing it is for", 'note "Plug from the wall side" for A'),
    )
}  # fmt: skip
"""Every kind of top-level statement by its word."""

LINE_KIND = Kind("line", LINE, "a cue of a script, counted from its start", "+0:02.5 shell-75 at Q3, Q7", inside="script")
