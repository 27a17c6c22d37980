"""The load table for spreadsheets: RFC 4180 text, one row per match, and one for each circuit that is out.

Numbers are those of the plan, not rounded for people; an empty cell was not computed or
not stated. Text that a spreadsheet would take for a formula gets an apostrophe in front.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from compiler.sheets.load import addressed, by_margin
from compiler.sheets.people import cleaned
from compiler.sheets.wiring import MISSING, OUT, out_why

Json = dict[str, Any]
Row = tuple[Json, Json | None, list[Json]]  # circuit, match, instants

_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\uff1d", "\uff0b", "\uff0d", "\uff20")


def load_table_csv(plan: Mapping[str, Any]) -> str:
    """The channel load table as CSV with a header row; units stand in the headings."""
    clean: Any = cleaned(dict(plan))
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(heading for heading, _ in _COLUMNS)
    for row in _rows(clean):
        writer.writerow(_cell(value(row)) for _, value in _COLUMNS)
    return out.getvalue()


def _rows(plan: Json) -> Iterator[Row]:
    outs = [_as_circuit(out) for out in plan["outs"] if out["rail"]]
    for circuit in addressed({"circuits": [*plan["circuits"], *outs]}):
        matches = by_margin(circuit["matches"])
        for match in matches:
            yield circuit, match, plan["instants"]
        if not matches:  # nothing that is wired may be missing here
            yield circuit, None, plan["instants"]


def _as_circuit(out: Json) -> Json:
    """What is out, as a circuit of which nothing was computed: its row keeps the channel."""
    nothing = ("supply", "topology", "resistance_ohm", "loads", "test")
    own = {key: out[key] for key in ("rail", "channel", "label", "position")}
    return {
        **dict.fromkeys(nothing),
        **own,
        "name": out["circuit"],
        "readings": [],
        "matches": [],
        "makers_data_missing": False,
        "out": f"{OUT}; {out_why(out)}",
    }


def _cell(value: object) -> object:
    """A number as it is; text without power over a spreadsheet; nothing for null."""
    if value is None:
        return ""
    if isinstance(value, str):
        # a spreadsheet may trim spaces before it looks for a formula
        return f"'{value}" if value.startswith(_FORMULA) or _formula_after_space(value) else value
    return value


def _formula_after_space(text: str) -> bool:
    return text[:1].isspace() and text.lstrip().startswith(_FORMULA)


# --- columns ------------------------------------------------------------------------------------


def _circuit(*path: str) -> Callable[[Row], object]:
    return lambda row: _at(row[0], path)


def _match(*path: str) -> Callable[[Row], object]:
    return lambda row: _at(row[1], path)


def _at(value: Any, path: tuple[str, ...]) -> object:
    for key in path:
        if value is None:
            return None
        value = value[key]
    return value


def _when(what: str) -> Callable[[Row], object]:
    def told(row: Row) -> object:
        index = _at(row[0], ("loads", f"{what}_instant"))
        return row[2][index]["from_s"] if isinstance(index, int) else None

    return told


def _press(what: str) -> Callable[[Row], object]:
    """The press that a time counts from; nothing for show time."""

    def told(row: Row) -> object:
        index = _at(row[0], ("loads", f"{what}_instant"))
        return row[2][index]["press"] if isinstance(index, int) else None

    return told


def _meter(end: str) -> Callable[[Row], object]:
    """The least or greatest meter reading over the predicted temperatures."""

    def told(row: Row) -> object:
        values = [item[f"meter_{end}"] for item in row[0]["readings"]]
        if not values or None in values:
            return None
        return min(values) if end == "low" else max(values)

    return told


def _marks(row: Row) -> object:
    return row[0].get("out") or (MISSING if row[0]["makers_data_missing"] else "")


_COLUMNS: tuple[tuple[str, Callable[[Row], object]], ...] = (
    ("rail", _circuit("rail")),
    ("channel", _circuit("channel")),
    ("circuit", _circuit("name")),
    ("label", _circuit("label")),
    ("place", _circuit("position")),
    ("shape", _circuit("topology")),
    ("resistance low (ohm)", _circuit("resistance_ohm", "low")),
    ("resistance nominal (ohm)", _circuit("resistance_ohm", "nominal")),
    ("resistance high (ohm)", _circuit("resistance_ohm", "high")),
    ("meter low (ohm)", _meter("low")),
    ("meter high (ohm)", _meter("high")),
    ("match", _match("name")),
    ("match type", _match("igniter")),
    ("use", _match("use")),
    ("current least (A)", _match("current_a", "least")),
    ("current nominal (A)", _match("current_a", "nominal")),
    ("current greatest (A)", _match("current_a", "greatest")),
    ("current least, other match shorted (A)", _match("least_sibling_shorted_a")),
    ("current required (A)", _match("required_a")),
    ("margin", _match("margin")),
    ("margin required", _match("margin_required")),
    ("channel load greatest (A)", _circuit("loads", "channel_a")),
    ("channel limit (A)", _circuit("loads", "channel_limit_a")),
    ("rail load greatest (A)", _circuit("loads", "rail_a")),
    ("rail limit (A)", _circuit("loads", "rail_limit_a")),
    ("rail load at (s)", _when("rail")),
    ("rail load after press", _press("rail")),
    ("supply", _circuit("supply")),
    ("supply load greatest (A)", _circuit("loads", "supply_a")),
    ("supply limit (A)", _circuit("loads", "supply_limit_a")),
    ("supply load at (s)", _when("supply")),
    ("supply load after press", _press("supply")),
    ("test current greatest (A)", _circuit("test", "greatest_a")),
    ("test current limit (A)", _circuit("test", "limit_a")),
    ("test limit", _circuit("test", "limit_id")),
    ("marks", _marks),
)
