"""Kinds of the site: places, power, devices, circuits, and what keeps people safe there."""

from __future__ import annotations

from compiler.vocabulary.forms import Clause, Form, Slot
from compiler.vocabulary.pieces import LEAD, LENGTH, NEW, NEW_ONE, OHM, PLUS, REASON, Kind, one, run
from compiler.vocabulary.quantities import Point, PointList, Quantity, Spread
from compiler.vocabulary.shapes import Address, Choice, Count, Flag, Labels, Names, RuleName, Text
from compiler.vocabulary.times import Clock, Moment, Time

ROUTES = ("along-axes", "straight")
_SPEED = Quantity("speed", least=0.0, most=60.0)

_MEMBERS = Slot("members", Names(("device", "match"), many=True))
_SPACED = Clause("spaced", run(required=True), "cable between neighbours")
GROUP = Form((_MEMBERS,), (LEAD, _SPACED), block=True, spoken="devices or matches, as in `Curtain.odd`").holding_itself(
    ("series", "one after another"), ("parallel", "side by side")
)
_SERIES = Clause("series", GROUP, "matches one after another, in wiring order", many=True)
_PARALLEL = Clause("parallel", GROUP, "matches side by side, in wiring order", many=True)
_AT = Clause("at", Names(("position",), many=True), "where it stands", key="position", required=True)
_BARE = Slot("bare", run(required=True, step=True))  # a cable without `through`: told by the site
_HEADING = Clause("heading", Quantity("angle", least=-360.0, most=360.0), "the way it faces, from north over east")

SHOW_KINDS = (
    Kind("use", Form((Slot("path", Text(), True, 'Name a file: `use "parts/cables.show"`.'),)),
         "Reads another file of the show, once.", 'use "parts/cables.show"'),
    Kind("show", Form((Slot("title", Text()),), (
        Clause("revision", Count(0), "revision of the show, printed on every sheet", default="0"),
        Clause("zero", Moment(), "date and wall-clock time of show time 0:00"),
        Clause("ambient", Quantity("temperature", spread=True, least=-60.0, most=70.0), "air temperature, coldest to hottest", default="5 .. 30 degC"),
        Clause("rules", Text(), "name of the rule set in force", default='"strict"'),
        Clause("meter", Form((Slot("error", Quantity("resistance", least=0.0, most=100.0), True),), (PLUS,)), "error of the meter", default="0.1 ohm plus 1.5 %"),
    ), block=True), "Names the show and what holds for all of it.", 'show "Harbour night" { revision 2; ambient 5 .. 25 degC }'),
    Kind("defaults", Form((), (
        Clause("lead", one("cable"), "the cable where none is said"),
        Clause("slack", Form((Slot("length", LENGTH, True),), (PLUS,)), "added to every laid-out lead", default="2 m plus 10 %"),
        Clause("route", Choice(ROUTES), "how leads run from rail to place", default="along-axes"),
        Clause("joint", OHM, "one conductor-to-conductor joint", default="5 mohm +- 5 mohm"),
        Clause("label", Text(), "what stands on the label of a circuit: `{rail}`, `{channel}`, `{place}`, `{effect}`, `{circuit}`, `{cue}`", default='"{rail}.{channel} {place}"'),
    ), block=True), "What holds where nothing else is said.", "defaults { lead zip-18; slack 2 m plus 10 % }"),
)  # fmt: skip

SITE_KINDS = (
    Kind("structure", Form((Slot("name", NEW_ONE, True),), (
        Clause("at", Point(), "its foot: east, north, up", required=True),
        Clause("height", LENGTH, "its height"),
    ), block=True), "A tower, roof or mast that positions stand on.", "structure Pylon-W at -18 m, 12 m { height 14 m }"),
    Kind("position", Form((Slot("names", NEW, True),), (
        Clause("at", Point(), "its place: east, north, up; on a structure, from its foot"),
        Clause("from", Point(), "the place of the first of several"),
        Clause("every", Point(fewest=1), "the step to the next: east, and if wanted north and up"),
        Clause("on", one("structure"), "the structure that it stands on"),
    ), block=True), "A named place on the site.", "position Q1..Q9 from -40 m, 0 m every 10 m"),
    Kind("crowd", Form((Slot("name", NEW_ONE, True),), (
        Clause("along", PointList(), "the line that the crowd stands behind", required=True),
    ), block=True), "The line of the crowd; the devices and the firing point are on its other side.", "crowd Quayside along (-90 m, -110 m), (90 m, -110 m)"),
    Kind("firing-point", Form((Slot("name", NEW_ONE, True),), (
        Clause("at", Point(), "its place", required=True),
    ), block=True), "Where the operator stands.", "firing-point Hut at -60 m, -60 m"),
    Kind("supply", Form((Slot("names", NEW, True),), (
        Clause("of", Names(("battery",), many=True), "the battery", key="battery", required=True),
        _AT,
    ), block=True), "A firing supply in the field.", "supply Pack-1 of lead-acid-24 at Q1"),
    Kind("rail", Form((Slot("names", NEW, True),), (
        Clause("of", Names(("module",), many=True), "the module", key="module", required=True),
        _AT,
        Clause("feed", Form((Slot("source", Names(("supply", "rail"), many=True), True), _BARE), (
            Clause("through", run(required=True, step=True), "the feeding cable"),)), "the supply, or the rail before it"),
        Clause("control", Form((Slot("source", Names(("firing-point", "rail"), many=True), True), _BARE), (
            Clause("through", run(required=True, step=True), "the control cable"),)), "the firing point, or the rail before it on the control line"),
        Clause("serves", Names(("position",), many=True), "the only places that its circuits may come from"),
        Clause("prefers", Names(("position",), many=True), "places whose circuits come here first"),
        Clause("spare", Count(0, 1000), "channels that stay free", default="by the limits `spare-share` and `spare-least`"),
    ), block=True), "A module in the field with its channels.", "rail A of dc-16 at Q1 { feed Pack-1 through 3 m of trunk-2.5 }"),
    Kind("zone", Form((Slot("name", NEW_ONE, True),), (
        Clause("rails", Names(("rail",), many=True), "its rails", required=True),
        Clause("role", NEW_ONE, "who answers for it"),
        Clause("armed", Clock(), "when it is armed", after="from"),
    ), block=True), "A part of the field that is armed as one.", "zone West { rails A..D; role West-Chief; armed from clock 21:40 }"),
    Kind("rack", Form((Slot("names", NEW, True),), (
        Clause("of", Form((Slot("tubes", Count(1, 500), True), Slot("unit", Choice(("tubes", "tube"))), Slot("calibre", Quantity("length", least=0.01, most=2.0), True)), (), spoken="tubes and their calibre, as in `10 tubes 75 mm`"), "how many tubes, of what calibre", key="tubes", required=True),
        Clause("at", Names(("position",), many=True), "where it stands", key="position", required=True),
        Clause("tilt", Spread(), "tilt of its tubes, first to last", default="0 deg"),
        _HEADING,
    ), block=True), "Mortars in a rack; shells fill its tubes in the order they are fired.", "rack R3 of 10 tubes 75 mm at Q3"),
    Kind("device", Form((Slot("names", NEW, True),), (
        Clause("of", one("effect"), "the effect", key="effect", required=True),
        Clause("at", Names(("position",), many=True), "its place", key="places", required=True),
        Clause("tilt", Spread(), "its tilt", default="0 deg"),
        _HEADING,
        Clause("key", Flag(), "it must fire whatever single part fails"),
    ), block=True), "One thing that burns, with a name.", "device Maroon-1 of shell-75 at Q5"),
    Kind("falls", Form((Slot("name", NEW_ONE, True),), (
        Clause("of", one("effect"), "the gerb", key="effect", required=True),
        Clause("at", one("position"), "where its middle hangs", key="places"),
        Clause("from", one("position"), "one end"),
        Clause("to", one("position"), "the other end"),
        Clause("count", Form((Slot("number", Count(1, 2000), True),), (Clause("every", LENGTH, "distance of neighbours"),)), "how many gerbs", required=True),
        Clause("matches", Count(1, 1000), "how many matches, each in the middle of its group", required=True),
        Clause("fuse", NEW_ONE, "what joins the gerbs of a group"),
        Clause("key", Flag(), "it must light whatever single part fails"),
    ), block=True), "A row of gerbs with several matches.", "falls Curtain of silver-gerb at Q5 { count 30 every 1.1 m; matches 10 }"),
    Kind("circuit", Form((Slot("name", NEW_ONE, True),), (
        Clause("on", Address(), "the channel; found where it is not said"),
        LEAD, _SERIES, _PARALLEL,
    ), block=True), "What hangs on one channel, from the rail outward.", "circuit Pair on A.1 { lead 12 m of zip-18; series Maroon-1, Maroon-2 }"),
    Kind("bind", Form((Slot("circuit", one("circuit"), True),), (
        Clause("to", Address(), "its channel", required=True), LEAD,
    )), "Fixes the channel of a circuit.", "bind Q5-shell-75-1 to A.4"),
    Kind("note", Form((Slot("text", Text(), True, 'Write it in quotes: `note "…" for A`.'),), (
        Clause("for", Labels(), "the cues that it prints with", key="about_cues", after="cue"),
        Clause("for", Names(("rail", "position", "circuit", "device", "supply", "role"), many=True), "the thing or role whose sheets it prints on", key="about"),
    )), "Prints on the sheets of the thing it is for; a comment never prints.", 'note "Plug from the wall side" for A'),
    Kind("role", Form((Slot("names", NEW, True),)), "A role of the crew that notes and zones may name.", "role Rigger"),
    Kind("weather", Form((), (
        Clause("wind", Form((Slot("speed", _SPEED, True),), (Clause("for", Form((Slot("word", Choice(("calibre",)), True), Slot("calibre", Quantity("length", least=0.0, most=2.0), True), Slot("and", Choice(("and", "above"))), Slot("above", Choice(("above",))))), "from which calibre on", key="from"),)), "the wind at which it stops", many=True),
    ), block=True), "The weather at which nothing is fired; prints on the cue sheet.", "weather { wind 20 mph; wind 15 mph for calibre 125 mm and above }"),
    Kind("hold", Form((Slot("name", NEW_ONE, True),), (
        Clause("from", Time(), "when it begins", required=True),
        Clause("to", Time(), "when it ends", required=True),
        Clause("because", Text(), "why"),
    ), block=True), "A time in which nothing is fired and nothing burns.", 'hold Ferry from 15:20 to 15:35 because "the ferry passes"'),
    Kind("out", Form((Slot("names", Names(("position", "rail", "cue", "device"), many=True)),), (
        Clause("cue", Labels(), "cues, by number", key="cues"), *REASON,
    )), "Takes a place, a rail, a device or a cue out: numbers and addresses of the rest stay.", 'out Q4 because "soft ground" by "the lead"'),
    Kind("waive", Form((Slot("rule", RuleName(), True),), (
        Clause("on", Labels(), "the cues that it is waived for", key="cues", after="cue"),
        Clause("on", Names(("position", "rail", "circuit", "device", "supply"), many=True), "the thing that it is waived for"), *REASON,
    )), "Waives a rule for one thing, with a reason and a name; prints on every sheet it touches.", 'waive never-fired on Maroon-2 because "kept as a reserve" by "the lead"'),
)  # fmt: skip
