"""The channel load table: what every channel carries, beside what it may.

The table is::

    rows[]      one per circuit with a channel, by rail and channel
    outs[]      {address, circuit, why}: what is taken out and keeps its channel
    rails[], feeds[], supplies[]   {name, load, limit, fuse, at, circuits}: the greatest load and when
    roles[]     {name, notes[]}: what each role is told, the same on every sheet
    waivers[]   all, as text

`compiler.sheets.views` adds its `fingerprint`, over all that the sheet prints.

A row is::

    address, circuit, shape, topology
    resistance      `1.27 – 1.65` ohm over the ambient range, without the meter's error; nominal
    matches[]       {names, count, use, least, nominal, greatest, shorted, required, required_from, margin,
                    margin_required, corner, at}: matches whose printed figures are the same stand together,
                    least margin first. Currents in A; `shorted`: least with the quickest
                    other match shorted; `at`: time of the least; `names` drawn together, `Curtain.1..5`
    channel, channel_limit, rail, rail_limit, rail_at, supply, supply_limit, supply_at      A, A, m:ss.mmm
    shorted         greatest current into a short at the match end, A (the same as `channel`)
    test, test_limit, test_limit_id     mA
    marks[]         as on the wiring sheet

Loads and currents have two decimals, rounded to the side that hides nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from compiler.plan.order import natural_key
from compiler.sheets.people import (
    NOT_COMPUTED,
    NOT_STATED,
    at_least,
    at_most,
    exact,
    fixed,
    listed,
    milliamperes,
    moment,
    span,
)
from compiler.sheets.touching import waiver_text
from compiler.sheets.wiring import circuit_marks, out_why, role_boxes, shape

Json = dict[str, Any]


def table(plan: Json) -> Json:
    """The load table of a plan whose texts are plain."""
    return {
        "rows": [_row(circuit, plan["instants"]) for circuit in addressed(plan)],
        "outs": [_out(out) for out in sorted(plan["outs"], key=_by_address)],
        "rails": list(_rails(plan)),
        "feeds": list(_feeds(plan)),
        "supplies": list(_supplies(plan)),
        "roles": role_boxes(plan),
        "waivers": [waiver_text(waiver) for waiver in plan["waivers"]],
    }


def _by_address(out: Json) -> tuple[Any, ...]:
    return natural_key(out["rail"] or ""), out["channel"] or 0, natural_key(out["circuit"])


def _out(out: Json) -> Json:
    address = f"{out['rail']}.{out['channel']}" if out["rail"] else "no channel"
    return {"address": address, "circuit": out["circuit"], "why": out_why(out)}


def addressed(plan: Json) -> list[Json]:
    """Circuits with an address, by rail and channel."""
    found = [c for c in plan["circuits"] if c["rail"] is not None and c["channel"] is not None]
    return sorted(found, key=lambda c: (natural_key(c["rail"]), c["channel"], natural_key(c["name"])))


def _row(circuit: Json, instants: Sequence[Json]) -> Json:
    ohm, test, loads = circuit["resistance_ohm"], circuit["test"], circuit["loads"]
    return {
        "address": f"{circuit['rail']}.{circuit['channel']}",
        "circuit": circuit["name"],
        "topology": circuit["topology"] or "",
        "shape": shape(circuit["topology"], len(circuit["matches"])),
        "resistance": span(ohm["low"], ohm["high"], 2) if ohm else NOT_COMPUTED,
        "nominal": fixed(ohm["nominal"] if ohm else None, 2),
        "matches": _matches(circuit, instants),
        "shorted": at_most(circuit["shorted_current_a"]),
        "channel": at_most(loads["channel_a"]),
        "channel_limit": exact(loads["channel_limit_a"]),
        **_load(loads, "rail", instants),
        **_load(loads, "supply", instants),
        "test": milliamperes(test["greatest_a"]),
        "test_limit": milliamperes(test["limit_a"], most=False),
        "test_limit_id": test["limit_id"],
        "marks": circuit_marks(circuit),
    }


def _load(loads: Json, what: str, instants: Sequence[Json]) -> Json:
    return {
        what: at_most(loads[f"{what}_a"]),
        f"{what}_limit": exact(loads[f"{what}_limit_a"]),
        f"{what}_at": _when(instants, loads[f"{what}_instant"]),
    }


def _when(instants: Sequence[Json], index: int | None) -> str:
    return moment(instants[index]) if index is not None else ""


# --- currents per match -------------------------------------------------------------------------


def _matches(circuit: Json, instants: Sequence[Json]) -> list[Json]:
    """Matches with the same printed figures as one line; the one with the least margin first."""
    found: dict[tuple[str, ...], tuple[Json, list[str]]] = {}
    for match in by_margin(circuit["matches"]):
        printed = _match(match, instants)
        found.setdefault(tuple(printed.values()), (printed, []))[1].append(match["name"])
    return [
        {"names": listed(sorted(names, key=natural_key)), "count": len(names), **printed}
        for printed, names in found.values()
    ] or [{"names": "no match", "count": 0, **dict.fromkeys(_PRINTED, NOT_COMPUTED)}]


_PRINTED = (
    "use",
    "least",
    "nominal",
    "greatest",
    "shorted",
    "required",
    "required_from",
    "margin",
    "margin_required",
    "corner",
    "at",
)


def by_margin(matches: Iterable[Json]) -> list[Json]:
    """Matches, what is not computed first, then by margin."""

    def key(match: Json) -> tuple[bool, float, Any]:
        known = match["margin"] is not None
        return known, match["margin"] if known else 0.0, natural_key(match["name"])

    return sorted(matches, key=key)


def _match(match: Json, instants: Sequence[Json]) -> dict[str, str]:
    amps = match["current_a"] or {"least": None, "nominal": None, "greatest": None}
    computed = match["current_a"] is not None
    alone = match["use"] == "alone"
    shorted = match["least_sibling_shorted_a"]
    return {
        "use": match["use"] or NOT_COMPUTED,
        "least": at_least(amps["least"]),
        "nominal": fixed(amps["nominal"], 2),
        "greatest": at_most(amps["greatest"]),
        "shorted": "" if alone and shorted is None else at_least(shorted),
        "required": NOT_STATED if match["required_a"] is None else at_most(match["required_a"]),
        "required_from": match["required_from"] or "",
        "margin": at_least(match["margin"]),
        "margin_required": exact(match["margin_required"]),
        "corner": match["least_at"]["corner"],
        "at": _when(instants, match["least_at"]["instant"]) if computed else "",
    }


# --- what is shared -----------------------------------------------------------------------------


def _rails(plan: Json) -> Iterator[Json]:
    peaks = _peaks(plan, lambda i: [(load["name"], load["amps"]) for load in i["rails"]])
    for rail in plan["rails"]:
        yield _shared(rail["name"], rail["rail_limit_a"], None, peaks)


def _feeds(plan: Json) -> Iterator[Json]:
    peaks = _peaks(plan, lambda i: [(load["name"], load["amps"]) for load in i["feeds"]])
    for feed in plan["feeds"]:
        yield _shared(feed["name"], feed["limit_a"], None, peaks)


def _supplies(plan: Json) -> Iterator[Json]:
    peaks = _peaks(plan, lambda i: [(i["supply"], i["supply_a"])])
    for supply in plan["supplies"]:
        yield _shared(supply["name"], supply["limit_a"], supply["fuse_a"], peaks)


def _peaks(plan: Json, loads: Any) -> dict[str, tuple[float | None, Json]]:
    """The greatest load of each thing and its instant; a load not computed outranks all."""
    peaks: dict[str, tuple[float | None, Json]] = {}
    for instant in plan["instants"]:
        for name, amps in loads(instant):
            greatest = amps["greatest"] if amps else None
            held = peaks.get(name)
            if held is None or _outranks(greatest, held[0]):
                peaks[name] = (greatest, instant)
    return peaks


def _outranks(load: float | None, held: float | None) -> bool:
    if held is None:
        return False
    return load is None or load > held


def _shared(
    name: str,
    limit: float | None,
    fuse: float | None,
    peaks: dict[str, tuple[float | None, Json]],
) -> Json:
    load, instant = peaks.get(name, (0.0, None))
    return {
        "name": name,
        "load": at_most(load),
        "limit": exact(limit),
        "fuse": exact(fuse, missing=""),
        "at": moment(instant) if instant else "",
        "circuits": listed(instant["circuits"]) if instant else "",
    }
