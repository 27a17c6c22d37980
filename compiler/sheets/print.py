"""The printed sheets: what `compiler.sheets.views` says is on them, set as PDF.

Everything on a sheet is black on white and in words or numbers. The sizes below are the
least at which a line is read at arm's length by headlamp and a box filled in by a gloved
hand (common practice; no standard was found that sets them).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from compiler.sheets.typ import press
from compiler.sheets.views import views
from compiler.sheets.wiring import MISSING

Json = dict[str, Any]

TYPE_PT = {
    "body": 9.0,
    "head": 9.0,
    "caution": 10.0,
    "label": 11.0,
    "reading": 11.0,
    "page": 12.0,
    "title": 13.0,
    "time": 14.0,
    "channel": 18.0,
    "banner": 16.0,
    "huge": 52.0,
    "named": 28.0,
    "huge_floor": 20.0,
}
WRITING_BOX_MM = 10.5
PAPERS_MM = {"a4": (210.0, 297.0), "us-letter": (215.9, 279.4)}  # ISO 216; ANSI/ASME Y14.1 size A
LONG_ROW = 700  # characters; a row with more may outgrow a page, and is split rather than lost
OHM = "Ω"


def print_pdf(plan: Mapping[str, Any], paper: str, progress: Callable[[str], None] | None = None) -> dict[str, bytes]:
    """All printed documents of a plan: file name to the bytes of its PDF.

    `paper` is ``a4`` or ``us-letter``; another raises `KeyError`. `progress` is told the
    name of each file before it is set. The same plan gives the same bytes.
    """
    told = progress or (lambda _: None)
    made: dict[str, bytes] = {}
    for name, template, data, drawings in _documents(views(plan), paper):
        told(name)
        made[name] = press(template, data, drawings)
    return made


# --- documents ----------------------------------------------------------------------------------

_Document = tuple[str, str, Json, dict[str, int]]


def _documents(shown: Json, paper: str) -> Iterator[_Document]:
    """File name, template, data and drawings of each document."""
    if shown["wiring"]:
        drawings: dict[str, int] = {}
        sheets = [_wiring(sheet, shown, drawings) for sheet in shown["wiring"]]
        yield _document("wiring-sheets", "wiring.typ", shown, paper, sheets, drawings)
    timelines = {line["svg"]: number for number, line in enumerate(shown["timelines"])}
    yield _document("load-table", "load.typ", shown, paper, [_load(shown)], timelines, turned=True)
    yield _document("cue-sheet", "cues.typ", shown, paper, [_cues(shown)], {})


def _document(
    name: str,
    template: str,
    shown: Json,
    paper: str,
    sheets: list[Json],
    drawings: dict[str, int],
    *,
    turned: bool = False,
) -> _Document:
    width, height = PAPERS_MM[paper]
    data = {
        "type_pt": TYPE_PT,
        "writing_box_mm": WRITING_BOX_MM,
        "paper": {"width_mm": height, "height_mm": width} if turned else {"width_mm": width, "height_mm": height},
        "ohm": OHM,
        "mark_missing": MISSING,
        "doc": _facts(shown, name.replace("-", " ")),
        "sheets": sheets,
    }
    return f"{name}-{paper}.pdf", template, data, drawings


def _facts(shown: Json, document: str) -> Json:
    """What is the same on every page of a document."""
    head = shown["head"]
    return {
        "document": document,
        "title": head["title"],
        "revision": head["revision"],
        "zero": head["zero"],
        "rules": head["rules"],
        "fingerprint": head["fingerprint"],
        "standing": " ".join(shown["cautions"]["standing"]),
        "unfit": head["unfit"],
    }


def _sheet(kind: str, what: str, name: str, under: str, cautions: list[str], of: Json) -> Json:
    return {
        "kind": kind,
        "what": what,
        "name": name,
        "under": under,
        "cautions": cautions,
        "zones": of.get("zones", []) if what == "rail" else [],
        "out": of.get("out", []),
        "roles": of["roles"],
        "size": "huge" if what == "rail" else "named",
        "fingerprint": of["fingerprint"],
        "missing": of.get("missing", ""),
        "remarks": [
            {"word": "waived", "lines": of["waivers"]},
            {"word": "note", "lines": of.get("notes", [])},
        ],
    }


# --- sheets -------------------------------------------------------------------------------------


def _wiring(sheet: Json, shown: Json, drawings: dict[str, int]) -> Json:
    under = f"{sheet['type']} at {sheet['position']}, fed by {sheet['feed']}, supply {sheet['supply']}"
    under += f", control line from {sheet['control']}" if sheet["control"] else ""
    rows = _measured(_drawn(row, drawings) for row in _marked(sheet["rows"]))
    return {
        **_sheet("Wiring sheet", "rail", sheet["rail"], under, shown["cautions"]["wiring"], sheet),
        "rows": rows,
    }


def _marked(rows: list[Json]) -> list[Json]:
    """Rows without a mark that every wired row bears: the head of each page says it once, and large."""
    wired = [row for row in rows if not row["spare"] and not row["out"]]
    if not all(MISSING in row["marks"] for row in wired):
        return rows
    return [{**row, "marks": [mark for mark in row["marks"] if mark != MISSING]} for row in rows]


def _drawn(row: Json, drawings: dict[str, int]) -> Json:
    """A row with its pictogram's number; rows drawn alike share one drawing."""
    number = drawings.setdefault(row["pictogram"], len(drawings)) if row["pictogram"] else None
    return {**row, "pictogram": number, "channel": str(row["channel"])}


def _measured(rows: Iterable[Json]) -> list[Json]:
    """Rows with the word whether they are too long to be kept whole on every page."""
    return [{**row, "long": _characters(row) > LONG_ROW} for row in rows]


def _characters(value: object) -> int:
    if isinstance(value, str):
        return len(value)
    if isinstance(value, Mapping):
        return sum(_characters(item) for item in value.values())
    return sum(_characters(item) for item in value) if isinstance(value, list) else 0


def _load(shown: Json) -> Json:
    load = shown["load"]
    under = f"Limits: {shown['head']['rules']}"
    return {
        **_sheet("Channel load table", "every rail", "Loads", under, shown["cautions"]["load"], load),
        "rows": [{**row, "matches": _measured(row["matches"])} for row in _measured(load["rows"])],
        "shared": [
            {"title": "Rails", "rows": load["rails"]},
            {"title": "Feeds", "rows": load["feeds"]},
            {"title": "Supplies", "rows": load["supplies"]},
        ],
        "timelines": [{"supply": line["supply"], "words": line["words"]} for line in shown["timelines"]],
        "unplaced": shown["unplaced"],
        "outs": load["outs"],
        "limits": shown["limits"],
        "parts": shown["parts"],
    }


def _cues(shown: Json) -> Json:
    cues = shown["cues"]
    under = "Times are show time, counted from zero; times with a plus count from the press that they name."
    made = _sheet("Cue sheet", "every rail", "Cues", under, shown["cautions"]["cues"], cues)
    standing = (("wind", cues["wind"]), ("arm", cues["zones"]), ("music", cues["music"]), ("press", cues["presses"]))
    return {
        **made,
        "remarks": [*({"word": word, "lines": lines} for word, lines in standing), *made["remarks"]],
        "timecode": cues["timecode"],
        "rows": _measured(cues["rows"]),
    }
