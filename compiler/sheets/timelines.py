"""The load of each supply against show time: the drawing and the words beside it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from compiler.sheets.drawings import timeline
from compiler.sheets.people import at_most, clock, counted, exact

Json = dict[str, Any]


def timelines(plan: Json) -> list[Json]:
    """One drawing per supply, all over the same stretch of time."""
    shown = [instant for instant in plan["instants"] if instant["press"] is None]
    stretch = _stretch(shown)
    pressed = {instant["supply"] for instant in plan["instants"] if instant["press"] is not None}
    return [
        _timeline(
            supply, [i for i in shown if i["supply"] == supply["name"]], stretch, pressed=supply["name"] in pressed
        )
        for supply in plan["supplies"]
    ]


def _stretch(instants: Sequence[Json]) -> tuple[float, float]:
    """From show zero, or the first load before it, to a little after the last load."""
    start = min([0.0, *(instant["from_s"] for instant in instants)])
    end = max([start + 1.0, *(instant["to_s"] for instant in instants)])
    return start, end + (end - start) * 0.01


def _timeline(supply: Json, instants: Sequence[Json], stretch: tuple[float, float], *, pressed: bool) -> Json:
    known = [i for i in instants if i["supply_a"] and i["supply_a"]["greatest"] is not None]
    spans = [(i["from_s"], i["to_s"], i["supply_a"]["greatest"]) for i in known]
    limits = [limit for limit in (supply["limit_a"], supply["fuse_a"]) if limit is not None]
    limit = min(limits, default=None)
    return {
        "supply": supply["name"],
        "svg": timeline(supply["name"], spans, limit, stretch),
        "words": _words(spans, limit, len(instants) - len(known))
        + ("; loads after a press are not drawn" if pressed else ""),
        "drawn": [f"{clock(start)} {clock(end)} {at_most(amps)}" for start, end, amps in spans],
    }


def _words(spans: Sequence[tuple[float, float, float]], limit: float | None, unknown: int) -> str:
    told = ["no load"]
    if spans:
        from_s, _, amps = max(spans, key=lambda span: span[2])
        told = [f"greatest {at_most(amps)} A at {clock(from_s)}"]
    told.append(f"limit {exact(limit, 'A')}")
    if unknown:
        told.append(f"{counted(unknown, 'moment')} not computed and not drawn")
    return "; ".join(told)
