"""Kinds of time: cues, scripts, music."""

from __future__ import annotations

from compiler.vocabulary.forms import Clause, Form, Slot
from compiler.vocabulary.pieces import LEAD, NEW_ONE, Kind, one
from compiler.vocabulary.quantities import Quantity, Spread
from compiler.vocabulary.shapes import Address, Choice, Count, Flag, Label, Names, Text
from compiler.vocabulary.times import AfterCue, Clock, LineTime, MusicTime, Rate, Time, Timecode

_WHAT = Slot(
    "what", Names(("effect", "circuit", "device"), many=True), True, "Name an effect and its place, or a circuit."
)
_TEXT = Slot("text", Text())
_PLACED = (
    Clause("at", Names(("position",), many=True), "the place or places", key="places"),
    Clause("tilt", Spread(), "tilt of the device, or of a fan from first to last", default="0 deg"),
    Clause("heading", Quantity("angle", least=-360.0, most=360.0), "the way it faces, from north over east"),
    Clause("count", Count(1, 200), "how many at each place", default="1"),
    Clause("in", Choice(("series", "parallel")), "how several at one place are wired on one circuit"),
    Clause(
        "on", Choice(("channels",)), "each of several at one place has a channel of its own", key="own", after="own"
    ),
    Clause("twice", Flag(), "two matches each, on other rails and other supplies"),
)
WITH = Form((_WHAT,), _PLACED, spoken="what goes with it, as in `with mine-red at Q5`")
_CUE_CLAUSES = (
    *_PLACED,
    Clause("on", Address(), "the channel, where it is fixed"),
    Clause("as", NEW_ONE, "a name for the circuit"),
    Clause("every", Quantity("time", least=0.0, most=3600.0), "the step of a chase"),
    Clause("and", Choice(("back",)), "the chase returns"),
    Clause("with", WITH, "what goes together with it, in the same cue", many=True),
    LEAD,
)
CUE = Form(
    (Slot("number", Label(), True, "Number it: `cue 12 at 0:30.0 …`."), _WHAT._replace(required=False), _TEXT),
    (
        Clause("at", Time(), "when the audience sees it; the prefire is subtracted", key="seen"),
        Clause("at", Clock(), "the same by the wall clock", key="clock"),
        Clause("at", MusicTime(), "the same by the timecode of a music", key="music"),
        Clause(
            "at",
            AfterCue(),
            "so long after another cue: after its press if it is fired by hand, else after it is seen",
            key="after",
        ),
        Clause("lit", Time(), "the firing time itself", after="at"),
        Clause("by", Choice(("hand",)), "the operator presses"),
        Clause("starts", one("music"), "the press starts this music"),
        *_CUE_CLAUSES,
    ),
)
LINE = Form(
    (Slot("offset", LineTime(), True), _WHAT, _TEXT),
    _CUE_CLAUSES,
)

CUE_KINDS = (
    Kind("cue", CUE, "What happens at one moment.", 'cue 1 at 0:06.0 shell-75 at Q5 "Maroon"'),
    Kind("script", Form((Slot("name", NEW_ONE, True),), (
        Clause("from", Time(), "show time of its start", required=True),
        Clause("to", Time(), "show time of its end"),
        Clause("numbered", Count(0), "number of its first cue"),
    ), statements=True), "Lines that count from its start.", "script Opening from 0:10 to 0:40 numbered 100 { +0:00.0 comet-gold at Q1..Q9 }"),
    Kind("music", Form((Slot("name", NEW_ONE, True),), (
        Clause("timecode", Rate(), "frames a second: 24, 25, 30, 29.97, 29.97 drop", required=True),
        Clause("starts", Timecode(), "timecode at its start", required=True),
        Clause("at", Time(), "show time of its start", default="0:00.0"),
        Clause("delay", Quantity("time", least=-60.0, most=60.0), "how much later it is heard than its timecode says", default="0 ms"),
    ), block=True), "A piece of music with timecode (SMPTE ST 12-1).", "music Waltz { timecode 25; starts 01:00:00:00; delay 120 ms }"),
)  # fmt: skip
LINE_KIND = Kind(
    "line",
    LINE,
    "A cue of a script, counted from its start; or with a show time of its own.",
    "+0:02.5 shell-75 at Q3, Q7",
)
