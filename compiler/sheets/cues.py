"""The cue sheet: what is fired when, and what is seen.

The sheet is::

    rows[]
    timecode    True where a music with timecode is used
    zones[], wind[], music[]      texts for the head of the sheet
    presses[]   `59 The boats turn` where a show of timed cues also has presses
    roles[]     {name, notes[]}: what each role is told, the same on every sheet
    notes[], waivers[], fingerprint

A row is::

    kind        cue | press | hold | out
    number      `102.3`; ``""`` for a hold
    part_of     `102` for a part of a chase, else ``""``
    by          clock | hand
    fired, seen `m:ss.mmm` of show time; `PRESS` for a press; `+0:08.0` for what counts from one
    after       `after press 59`, or ``""`` for show time
    timecode    {music, fired, seen}: what the timecode reads then, or ``""``
    prefire     `2.7 s (2.43 – 2.97)`, ``""`` for none
    rounding    `+5 ms`, or ``""`` where the wanted time is a whole tick
    text        as the operator reads it
    what        `shell-75 (shell, 75 mm) at Q5`
    circuits    names drawn together
    channels    `A.1..5, B.3`
    notes[], marks[]      marks: `starts Waltz`, `not on a channel`
    told, why   of a hold `HOLD Ferry 1:20.000 – 1:50.000: fire nothing`; of what is out `OUT: do not fire`
                and `place Q4: soft ground (the lead)`; its number, time and text are struck through
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from compiler.plan.fingerprint import sheet_fingerprint, short
from compiler.plan.order import natural, natural_key
from compiler.sheets.people import (
    DASH,
    NOT_STATED,
    at_least,
    clock,
    exact,
    listed,
    millimetres,
    signed_milliseconds,
    since,
)
from compiler.sheets.touching import waiver_text
from compiler.sheets.wiring import out_why, role_boxes, zone_text

Json = dict[str, Any]
MPH = 0.44704  # m/s in a mile an hour, exact by definition
PRESS = "PRESS"
OUT = "OUT: do not fire"
_BLANK: Json = {
    **dict.fromkeys(
        [
            "kind",
            "number",
            "part_of",
            "fired",
            "after",
            "seen",
            "prefire",
            "rounding",
            "text",
            "what",
            "circuits",
            "channels",
            "told",
            "why",
        ],
        "",
    ),
    "by": "clock",
    "timecode": {"music": "", "fired": "", "seen": ""},
    "notes": [],
    "marks": [],
}  # of what most rows are; no row changes what it shares with it


def sheet(plan: Json) -> Json:
    """The cue sheet of a plan whose texts are plain."""
    made = {
        "timecode": any(cue["timecode"] for cue in plan["cues"]),
        "rows": _rows(plan),
        "zones": [_zone(zone) for zone in plan["zones"]],
        "wind": [_wind(wind) for wind in plan["weather"]],
        "music": [_music(music) for music in plan["music"]],
        "presses": _presses(plan["cues"]),
        "roles": role_boxes(plan),
        "notes": plan["show"]["notes"],
        "waivers": [waiver_text(waiver) for waiver in plan["waivers"]],
    }
    digest = sheet_fingerprint([plan["show"]["title"], made])
    return {**made, "fingerprint": short(digest)}


# --- what stands above the rows -----------------------------------------------------------------


def _zone(zone: Json) -> str:
    rails = f"rail{'s' if len(zone['rails']) > 1 else ''} {listed(zone['rails'])}"
    return "; ".join([f"{zone_text(zone)}: {rails}", *zone["notes"]])


def _wind(wind: Json) -> str:
    """A limit is rounded down."""
    what = "everything" if wind["from_calibre_m"] is None else f"{millimetres(wind['from_calibre_m'])} and above"
    speed = wind["wind_m_s"]
    if speed is None:
        return f"stop {what}: wind {NOT_STATED}"
    by_the_hour = at_least(float(f"{speed / MPH:.9g}"), 0)
    return f"{at_least(speed, 1)} m/s ({by_the_hour} mph) and above: stop {what}"


def _music(music: Json) -> str:
    start = f"with press {music['press']}" if music["press"] else f"at {clock(music['at_s'])}"
    drop = " drop-frame" if music["drop"] else ""
    late = f", heard {exact(music['delay_s'], 's')} later" if music["delay_s"] else ""
    return f"{music['name']}: {music['rate']}{drop} frames a second, {music['starts']} {start}{late}"


def _presses(cues: Sequence[Json]) -> list[str]:
    """Presses of a show that also has timed cues: nobody may look for them in order of time."""
    if all(cue["press"] is not None for cue in cues):
        return []
    return [f"{cue['number']} {cue['text']}".strip() for cue in cues if cue["by"] == "hand"]


# --- rows ---------------------------------------------------------------------------------------


def _rows(plan: Json) -> list[Json]:
    """Cues, holds and what is out in order of time; then what counts from each press."""
    circuits = {circuit["name"]: circuit for circuit in plan["circuits"]}
    devices = {device["name"]: device for device in plan["devices"]}
    starts = {music["press"]: music["name"] for music in plan["music"] if music["press"]}
    rows = [(_order(cue, "fired_s"), _row(cue, circuits, devices, starts)) for cue in plan["cues"]]
    rows += [(_order(cue, "wanted_fired_s"), _out(cue)) for cue in plan["cues_out"]]
    rows += [(_order({**hold, "press": None, "number": ""}, "from_s"), _hold(hold)) for hold in plan["holds"]]
    ordered = [row for _, row in sorted(rows, key=lambda each: each[0])]
    told: set[str] = set()
    for row in ordered:  # a chase says its text once, at its first part
        if row["part_of"] in told and row["kind"] != "out":
            row["text"] = ""
        told |= {row["part_of"]} - {""}
    return ordered


def _order(thing: Json, at: str) -> tuple[object, ...]:
    """Show time first, then each press; ties by number, a hold before all."""
    press = thing["press"]
    return press is not None, natural_key(press or ""), thing[at] or 0.0, natural_key(thing["number"])


def _hold(hold: Json) -> Json:
    span = f"{clock(hold['from_s'])} {DASH} {clock(hold['to_s'])}"
    return {**_BLANK, "kind": "hold", "told": f"HOLD {hold['name']} {span}: fire nothing", "why": hold["because"]}


def _out(cue: Json) -> Json:
    return {
        **_BLANK,
        "kind": "out",
        "number": cue["number"],
        "part_of": cue["number"].rpartition(".")[0],
        "fired": clock(cue["wanted_fired_s"]) if cue["press"] is None else since(cue["wanted_fired_s"]),
        "after": _after(cue),
        "text": cue["text"],
        "circuits": listed(cue["circuits"]),
        "told": OUT,
        "why": out_why(cue),
    }


def _row(cue: Json, circuits: Mapping[str, Json], devices: Mapping[str, Json], starts: Mapping[str, str]) -> Json:
    fired = [circuits[name] for name in cue["circuits"] if name in circuits]
    by_hand = cue["by"] == "hand"
    time = clock if cue["press"] is None else since
    return {
        **_BLANK,
        "kind": "press" if by_hand else "cue",
        "number": cue["number"],
        "part_of": cue["number"].rpartition(".")[0],
        "by": cue["by"],
        "fired": PRESS if by_hand else time(cue["fired_s"]),
        "after": "" if by_hand else _after(cue),
        "seen": time(cue["seen_s"]) if cue["circuits"] else "",
        "timecode": _timecode(cue["timecode"]),
        "prefire": _prefire(cue["prefire_s"]) if cue["circuits"] else "",
        "rounding": _rounding(cue["rounding_s"]),
        "text": cue["text"],
        "what": _what([devices[name] for name in cue["devices"] if name in devices]),
        "circuits": listed(cue["circuits"]),
        "channels": listed(natural(_channels(fired))),
        "notes": cue["notes"],
        "marks": _marks(cue, len(_channels(fired)), starts.get(cue["number"]) if by_hand else None),
    }


def _after(cue: Json) -> str:
    return "" if cue["press"] is None else f"after press {cue['press']}"


def _timecode(read: Json | None) -> Json:
    """`{music, fired, seen}`, each perhaps empty."""
    return {key: (read[key] if read else None) or "" for key in ("music", "fired", "seen")}


def _prefire(prefire: Json | None) -> str:
    if prefire is None or prefire["nominal"] is None:
        return NOT_STATED
    if prefire["low"] == prefire["high"] == 0.0:
        return ""
    told = exact(prefire["nominal"], "s")
    if prefire["low"] == prefire["high"]:
        return told
    return f"{told} ({exact(prefire['low'])} {DASH} {exact(prefire['high'])})"


def _rounding(shift: float | None) -> str:
    told = signed_milliseconds(shift)
    return "" if told == "0 ms" else told


def _what(lit: Sequence[Json]) -> str:
    """`9 × comet-gold (comet, 30 mm) at Q1..Q9`, alike things drawn together."""
    found: dict[str, list[Json]] = {}
    for device in lit:
        found.setdefault(device["text"], []).append(device)
    told = []
    for text, alike in found.items():
        places = listed(natural(device["position"] for device in alike))
        times = f"{len(alike)} × " if len(alike) > 1 else ""
        told.append(f"{times}{text} at {places}")
    return "; ".join(told)


def _channels(fired: Sequence[Json]) -> list[str]:
    return [f"{c['rail']}.{c['channel']}" for c in fired if c["rail"] and c["channel"]]


def _marks(cue: Json, wired: int, starts: str | None) -> list[str]:
    if starts is not None and not cue["circuits"]:
        return [f"starts {starts}"]
    marks = [f"starts {starts}"] if starts is not None else []
    if wired < len(cue["circuits"]) or not cue["circuits"]:
        marks.append("not on a channel")
    return marks
