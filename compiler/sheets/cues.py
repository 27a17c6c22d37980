"""The cue sheet: what is fired when, and what is seen.

The sheet is `{rows[], notes[], waivers[], fingerprint}`. A row is::

    number      `102.3`; `hold` for a time in which nothing is fired
    part_of     `102` for a part of a chase, else ``""``
    by          clock | hand
    fired, seen `m:ss.mmm` of show time; `PRESS` for a press; `+m:ss.mmm` for what counts from one; `OUT`
    prefire     `2.7 s (2.43 – 2.97)`, ``""`` for none
    rounding    `+5 ms`, or ``""`` where the wanted time is a whole tick
    text        as the operator reads it
    what        `shell-75 (shell, 75 mm) at Q5`
    circuits    names drawn together
    channels    `A.1..5, B.3`
    notes[], marks[]      marks: `by hand`, `after press 59`, `not on a channel`
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from compiler.plan.fingerprint import sheet_fingerprint, short
from compiler.plan.order import natural
from compiler.sheets.people import DASH, NOT_STATED, armed, clock, exact, fixed, listed, signed_milliseconds
from compiler.sheets.touching import waiver_text

Json = dict[str, Any]
MPH = 0.44704  # m/s


def sheet(plan: Json) -> Json:
    """The cue sheet of a plan whose texts are plain."""
    circuits = {circuit["name"]: circuit for circuit in plan["circuits"]}
    devices = {device["name"]: device for device in plan["devices"]}
    rows = [(cue["press"] is not None, cue["fired_s"] or 0.0, _row(cue, circuits, devices)) for cue in plan["cues"]]
    told: set[str] = set()
    for _, _, row in rows:  # a chase says its text once, at its first part
        if row["part_of"] in told:
            row["text"] = ""
        told |= {row["part_of"]} - {""}
    rows += [(False, hold["from_s"], _hold(hold)) for hold in plan["holds"]]
    made = {
        "rows": [row for _, _, row in sorted(rows, key=lambda each: each[:2] if not each[0] else (True, 0.0))]
        + [_out(cue) for cue in plan["cues_out"]],
        "notes": [*plan["show"]["notes"], *standing(plan)],
        "waivers": [waiver_text(waiver) for waiver in plan["waivers"]],
    }
    digest = sheet_fingerprint([plan["show"]["title"], made])
    return {**made, "fingerprint": short(digest)}


def standing(plan: Json) -> list[str]:
    """What holds for the whole evening: arming, wind, music, and what each role is told."""
    told = []
    for zone in plan["zones"]:
        who = f", {zone['role']}" if zone["role"] else ""
        told.append(f"zone {zone['name']} (rails {listed(zone['rails'])}{who}){armed(zone)}")
    for wind in plan["weather"]:
        what = "everything" if wind["from_calibre_m"] is None else f"{wind['from_calibre_m'] * 1000:.0f} mm and above"
        speed = wind["wind_m_s"]
        told.append(f"wind of {fixed(speed, 1)} m/s ({fixed(speed / MPH, 0)} mph) and above: stop {what}")
    for music in plan["music"]:
        start = f"press {music['press']}" if music["press"] else clock(music["at_s"])
        drop = " drop" if music["drop"] else ""
        told.append(f"music {music['name']}: {music['rate']}{drop} frames a second, {music['starts']} at {start}")
    told.extend(f"for {role['name']}: {words}" for role in plan["roles"] for words in role["notes"])
    return told


def _blank() -> Json:
    return {
        "number": "", "part_of": "", "by": "clock", "fired": "", "seen": "", "prefire": "", "rounding": "", "text": "",
        "what": "", "circuits": "", "channels": "", "notes": [], "marks": [],
    }  # fmt: skip


def _hold(hold: Json) -> Json:
    return {
        **_blank(), "number": "hold", "fired": clock(hold["from_s"]), "seen": f"to {clock(hold['to_s'])}",
        "text": f"HOLD {hold['name']}: fire nothing", "what": hold["because"],
    }  # fmt: skip


def _out(cue: Json) -> Json:
    why = f"{cue['because']} ({cue['by']})" if cue["because"] else ""
    return {
        **_blank(),
        "number": cue["number"],
        "fired": "OUT",
        "text": f"OUT: {cue['text']}".rstrip(": "),
        "what": why,
    }


def _row(cue: Json, circuits: Mapping[str, Json], devices: Mapping[str, Json]) -> Json:
    fired = [circuits[name] for name in cue["circuits"] if name in circuits]
    return {
        "number": cue["number"],
        "part_of": cue["number"].rpartition(".")[0],
        "by": cue["by"],
        "fired": _time(cue, cue["fired_s"], press="PRESS"),
        "seen": _time(cue, cue["seen_s"]),
        "prefire": _prefire(cue["prefire_s"]),
        "rounding": _rounding(cue["rounding_s"]),
        "text": cue["text"],
        "what": _what([devices[name] for name in cue["devices"] if name in devices]),
        "circuits": listed(cue["circuits"]),
        "channels": listed(natural(_channels(fired))),
        "notes": cue["notes"],
        "marks": _marks(cue, len(_channels(fired))),
    }


def _time(cue: Json, at_s: float | None, press: str = "") -> str:
    """A show time; after a press, the time since it, which nobody knows by the clock."""
    if cue["press"] is None:
        return clock(at_s)
    if press and cue["by"] == "hand":
        return press
    return f"+{clock(at_s)}" if at_s is not None else ""


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


def _marks(cue: Json, wired: int) -> list[str]:
    marks = ["by hand"] if cue["by"] == "hand" else []
    if cue["press"] is not None and cue["by"] != "hand":
        marks.append(f"after press {cue['press']}")
    if not cue["circuits"] and cue["by"] == "hand":
        return marks  # a press that only starts music
    if wired < len(cue["circuits"]) or not cue["circuits"]:
        marks.append("not on a channel")
    return marks
