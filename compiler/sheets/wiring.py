"""The wiring sheet of each rail: what goes on which channel, and what the meter should show.

A sheet is::

    rail, type, position, supply, feed     texts; feed with its cable
    control     `Hut through 90 m of control-4` or ``""``
    zones[]     `zone West, West-Chief, armed at 21:40`
    out[]       what takes the whole rail out, as text
    rows        one per channel, in order
    notes[]     for the rail, its supply, its zones, its places (`at Q5: …`) and the whole show
    roles[]     {name, notes[]}: what each role is told, the same on every sheet
    waivers[]   that touch it, as text
    missing     `maker's data missing: generic-match` or ``""``
    fingerprint short

A row is::

    channel     int; 0 is not used
    address     `A.1`
    spare       `spare, shunted` for a channel with nothing on it, else ``""``; then the rest is empty
    out, why    `OUT: take off, …` and `place Q4: soft ground (the lead)` for a circuit that is taken out,
                else ``""``; then circuit, label and place are struck through and the rest is empty
    circuit, label, device, place
    topology    single | series | parallel | mixed | network | ``""``
    matches     int
    pictogram   SVG text, black on white, 120 x 40 units; ``""`` for a spare channel
    shape       `5 in parallel`
    cable[]     `lead 52 m zip-14`, `line 26.4 m zip-16`
    splices     int
    low, high   expected reading at the meter in ohm, one decimal, rounded outward;
                ``not computed`` where there is none
    reading     `2.3 – 2.9` or ``not computed``
    notes[], marks[]      marks: `maker's data missing`, `current not computed`, `key effect`
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from compiler.plan.fingerprint import sheet_fingerprint, short
from compiler.plan.order import natural
from compiler.sheets.drawings import pictogram
from compiler.sheets.people import DASH, NOT_COMPUTED, armed, at_least, at_most, counted, degrees, listed, metres
from compiler.sheets.touching import Touching

Json = dict[str, Any]
SPARE = "spare, shunted"
OUT = f"OUT: take off, shunt, insulate {DASH} nothing fires this"
MISSING = "maker's data missing"


def sheets(plan: Json) -> list[Json]:
    """One sheet for each rail of a plan whose texts are plain."""
    devices = {device["name"]: device for device in plan["devices"]}
    by_rail: dict[str, list[Json]] = {}
    for circuit in plan["circuits"]:
        if circuit["channel"] is None:
            continue  # told apart, as `unplaced`
        by_rail.setdefault(circuit["rail"], []).append(circuit)
    touching = Touching(plan)
    supplies = {supply["name"]: supply for supply in plan["supplies"]}
    return [_sheet(plan, rail, by_rail.get(rail["name"], []), devices, supplies, touching) for rail in plan["rails"]]


def _sheet(
    plan: Json,
    rail: Json,
    circuits: Sequence[Json],
    devices: Mapping[str, Json],
    supplies: Mapping[str, Json],
    touching: Touching,
) -> Json:
    supply = supplies.get(rail["supply"] or "")
    zones = [zone for zone in plan["zones"] if rail["name"] in zone["rails"]]
    sheet = {
        "rail": rail["name"],
        "type": rail["type"],
        "position": rail["position"],
        "supply": rail["supply"] or "no supply",
        "feed": _feed(plan, rail),
        "control": _through(rail["control"]) if rail["control"] else "",
        "zones": [zone_text(zone) for zone in zones],
        "out": [out_why(out) for out in rail["outs"]],
        "rows": _rows(rail, circuits, devices, [out for out in plan["outs"] if out["rail"] == rail["name"]]),
        "notes": _notes(plan, rail, zones, supply, _places(rail, circuits, devices)),
        "roles": role_boxes(plan),
        "waivers": touching.rail(rail["name"]),
        "missing": _missing(circuits, plan),
    }
    return {**sheet, "fingerprint": _fingerprint(sheet, plan["show"]["title"])}


def _notes(plan: Json, rail: Json, zones: Sequence[Json], supply: Json | None, places: set[str]) -> list[str]:
    """Each note once: of the rail, its supply, its zones, the places it wires, and the whole show."""
    of = [rail["notes"], supply["notes"] if supply else [], *(zone["notes"] for zone in zones)]
    at = [
        f"at {place['name']}: {note}"
        for place in plan["positions"]
        if place["name"] in places
        for note in place["notes"]
    ]
    return list(dict.fromkeys(note for notes in (*of, at, plan["show"]["notes"]) for note in notes))


def _places(rail: Json, circuits: Sequence[Json], devices: Mapping[str, Json]) -> set[str]:
    """Where the rail stands and where its circuits lead to."""
    lit = (devices[name] for circuit in circuits for name in circuit["devices"] if name in devices)
    return {rail["position"], *(circuit["position"] for circuit in circuits), *(device["position"] for device in lit)}


def _fingerprint(sheet: Json, title: str) -> str:
    """Of the words and numbers alone: neither a revision nor a redrawn pictogram voids a sheet."""
    rows = [{**row, "pictogram": ""} for row in sheet["rows"]]
    return short(sheet_fingerprint([title, {**sheet, "rows": rows}]))


def _missing(circuits: Sequence[Json], plan: Json) -> str:
    generic = {igniter["name"] for igniter in plan["igniters"] if igniter["generic"]}
    used = {match["igniter"] for circuit in circuits for match in circuit["matches"]}
    if not any(circuit["makers_data_missing"] for circuit in circuits):
        return ""
    named = natural(name for name in used if name in generic)
    return f"{MISSING}: {', '.join(named)}" if named else MISSING


def _feed(plan: Json, rail: Json) -> str:
    feed = next((feed for feed in plan["feeds"] if feed["name"] == rail["feed"]), None)
    if feed is None:
        return "no feed"
    return _through(feed)


def _through(line: Json) -> str:
    """`Pack-1 through 3 m of trunk-2.5`."""
    through = f" through {metres(line['length_m'])} of {line['cable']}" if line["cable"] else ""
    return f"{line['from']}{through}"


def zone_text(zone: Json) -> str:
    """`zone West, West-Chief, armed at 21:40`."""
    return ", ".join(part for part in (f"zone {zone['name']}", zone["role"], armed(zone)) if part)


def role_boxes(plan: Json) -> list[Json]:
    """What each role is told, on every sheet: `{name, notes[]}`."""
    return [{"name": role["name"], "notes": role["notes"]} for role in plan["roles"] if role["notes"]]


def out_why(out: Json) -> str:
    """`place Q4: soft ground (the lead)`."""
    return f"{out['what']}: {out['because']} ({out['by']})"


def _rows(rail: Json, circuits: Sequence[Json], devices: Mapping[str, Json], outs: Sequence[Json]) -> list[Json]:
    rows = [_row(circuit, devices) for circuit in circuits]
    rows += [_out(rail["name"], out) for out in outs]
    rows += [_spare(rail["name"], channel) for channel in rail["spare_channels"]]
    return sorted(rows, key=lambda row: row["channel"])


def _out(rail: str, out: Json) -> Json:
    """A channel whose circuit is out: still wired perhaps, and fired by nothing."""
    return {
        **_blank(rail, out["channel"]),
        "out": OUT,
        "why": out_why(out),
        "circuit": out["circuit"],
        "label": out["label"],
        "place": out["position"],
    }


def _spare(rail: str, channel: int) -> Json:
    return {**_blank(rail, channel), "spare": SPARE}


def _blank(rail: str, channel: int) -> Json:
    words = [
        "spare",
        "out",
        "why",
        "circuit",
        "label",
        "device",
        "place",
        "topology",
        "pictogram",
        "shape",
        "low",
        "high",
        "reading",
    ]
    return {
        "channel": channel,
        "address": f"{rail}.{channel}",
        **dict.fromkeys(words, ""),
        "matches": 0,
        "splices": 0,
        "cable": [],
        "notes": [],
        "marks": [],
    }


def _row(circuit: Json, devices: Mapping[str, Json]) -> Json:
    low, high = reading(circuit)
    known = NOT_COMPUTED not in (low, high)
    count = len(circuit["matches"])
    lit = [devices[name] for name in circuit["devices"] if name in devices]
    return {
        **_blank(circuit["rail"], circuit["channel"]),
        "circuit": circuit["name"],
        "label": circuit["label"],
        "device": "; ".join(_device_texts(circuit, lit)),
        "place": listed(natural(device["position"] for device in lit)) or circuit["position"],
        "topology": circuit["topology"] or "",
        "matches": count,
        "pictogram": pictogram(circuit["topology"], count),
        "shape": shape(circuit["topology"], count),
        "cable": list(_cable(circuit)),
        "splices": circuit["splices"],
        "low": low,
        "high": high,
        "reading": f"{low} {DASH} {high}" if known else NOT_COMPUTED,
        "notes": [*circuit["notes"], *(note for device in lit for note in device["notes"])],
        "marks": circuit_marks(circuit),
    }


def reading(circuit: Json) -> tuple[str, str]:
    """The least and greatest that the meter should show, over every temperature predicted."""
    low = [item["meter_low"] for item in circuit["readings"]]
    high = [item["meter_high"] for item in circuit["readings"]]
    if not low or None in low or None in high:
        return NOT_COMPUTED, NOT_COMPUTED
    return at_least(max(0.0, min(low)), 1), at_most(max(high), 1)


def shape(topology: str | None, count: int) -> str:
    """The circuit's shape in words: `1 match`, `5 in parallel`."""
    if topology is None:
        return "shape not known"
    return counted(count, "match", "matches") if topology == "single" else f"{count} {_HOW[topology]}"


_HOW = {
    "series": "in series",
    "parallel": "in parallel",
    "mixed": "in series and parallel",
    "network": "in a network",
}


def _device_texts(circuit: Json, lit: Sequence[Json]) -> Iterator[str]:
    """What the circuit lights: `Curtain: silver-gerb (gerb), falls of 30, matches 1, 3, 5`."""
    for text, named in _by_text(lit).items():
        names = listed([device["name"] for device in named])
        members = _members(circuit, named[0]) if len(named) == 1 else ""
        yield f"{names}: {text}{members}"


def _by_text(lit: Sequence[Json]) -> dict[str, list[Json]]:
    found: dict[str, list[Json]] = {}
    for device in lit:
        found.setdefault(f"{device['text']}{_stands(device)}", []).append(device)
    return found


def _stands(device: Json) -> str:
    """Tubes, tilt and heading, where they are said; upright says nothing."""
    told = ""
    if device["tubes"]:
        told += f", tube{'s' if len(device['tubes']) > 1 else ''} {listed(device['tubes'])}"
    if device["tilt_deg"]:
        told += f", tilt {degrees(device['tilt_deg'])}"
    if device["heading_deg"] is not None:
        told += f", heading {degrees(device['heading_deg'])}"
    return told


def _members(circuit: Json, device: Json) -> str:
    """Which of a device's several matches hang on this circuit; nothing where all do."""
    if len(device["matches"]) <= 1:
        return ""
    mine = [match["name"] for match in circuit["matches"] if match["device"] == device["name"]]
    if len(mine) == len(device["matches"]):
        return ""
    numbers = [name.removeprefix(f"{device['name']}.") for name in mine]
    return f", match{'es' if len(numbers) > 1 else ''} {listed(numbers)}"


def _cable(circuit: Json) -> Iterator[str]:
    """The lead as one piece, then what else is cut from each cable."""
    runs = [e for e in circuit["elements"] if e["what"] in ("lead", "segment")]
    lead = circuit["lead"]
    if lead:
        yield f"lead {metres(lead['length_m'])} {lead['cable']}"
    pieces: dict[tuple[str, str, float], int] = {}
    skipped = False
    for element in runs:
        if element["what"] == "lead" and lead and not skipped:
            skipped = True
            continue
        word = "lead" if element["what"] == "lead" else "line"
        key = (word, element["part"], element["length_m"])
        pieces[key] = pieces.get(key, 0) + 1
    for (word, part, length_m), count in pieces.items():
        times = f"{count} × " if count > 1 else ""
        yield f"{word} {times}{metres(length_m)} {part}"


def circuit_marks(circuit: Json) -> list[str]:
    """What stands beside a circuit on every sheet."""
    marks = [MISSING] if circuit["makers_data_missing"] else []
    if any(match["current_a"] is None for match in circuit["matches"]):
        marks.append(f"current {NOT_COMPUTED}")
    if circuit["key_effect"]:
        marks.append("key effect")
    return marks
