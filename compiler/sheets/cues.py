"""The cue sheet: what is fired when, and what is seen.

The sheet is `{rows[], notes[], waivers[], fingerprint}`. A row is::

    number      `102.3`
    part_of     `102` for a part of a chase, else ``""``
    by          clock | hand
    fired, seen `m:ss.mmm` of show time; seen ``""`` where only the firing time is given
    prefire     `2.7 s (2.43 – 2.97)`, `0 s`
    rounding    `+5 ms`, or ``""`` where the wanted time is a whole tick
    text        as the operator reads it
    what        `shell-75 (shell, 75 mm) at Q5`
    circuits    names drawn together
    channels    `A.1..5, B.3`
    notes[], marks[]      marks: `by hand`, `not on a channel`
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from compiler.plan.fingerprint import sheet_fingerprint, short
from compiler.plan.order import natural
from compiler.sheets.people import DASH, NOT_STATED, clock, exact, listed, signed_milliseconds
from compiler.sheets.touching import waiver_text

Json = dict[str, Any]


def sheet(plan: Json) -> Json:
    """The cue sheet of a plan whose texts are plain."""
    circuits = {circuit["name"]: circuit for circuit in plan["circuits"]}
    devices = {device["name"]: device for device in plan["devices"]}
    made = {
        "rows": [_row(cue, circuits, devices) for cue in plan["cues"]],
        "notes": plan["show"]["notes"],
        "waivers": [waiver_text(waiver) for waiver in plan["waivers"]],
    }
    digest = sheet_fingerprint([plan["show"]["title"], made])
    return {**made, "fingerprint": short(digest)}


def _row(cue: Json, circuits: Mapping[str, Json], devices: Mapping[str, Json]) -> Json:
    fired = [circuits[name] for name in cue["circuits"] if name in circuits]
    return {
        "number": cue["number"],
        "part_of": cue["number"].rpartition(".")[0],
        "by": cue["by"],
        "fired": clock(cue["fired_s"]),
        "seen": clock(cue["seen_s"]),
        "prefire": _prefire(cue["prefire_s"]),
        "rounding": _rounding(cue["rounding_s"]),
        "text": cue["text"],
        "what": _what([devices[name] for name in cue["devices"] if name in devices]),
        "circuits": listed(cue["circuits"]),
        "channels": listed(natural(_channels(fired))),
        "notes": cue["notes"],
        "marks": _marks(cue, len(_channels(fired))),
    }


def _prefire(prefire: Json | None) -> str:
    if prefire is None or prefire["nominal"] is None:
        return NOT_STATED
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
    if wired < len(cue["circuits"]) or not cue["circuits"]:
        marks.append("not on a channel")
    return marks
