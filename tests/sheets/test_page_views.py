"""What every document prints: chosen from the plan, and nothing computed anew."""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import Any

import pytest

from compiler.sheets.cautions import cautions
from compiler.sheets.drawings import pictogram, timeline
from compiler.sheets.views import views

Plan = dict[str, Any]
SAMPLE = Path(__file__).parent / "sample_plan.json"


@pytest.fixture
def plan() -> Plan:
    """The sample plan."""
    made: Plan = json.loads(SAMPLE.read_text(encoding="utf-8"))
    return made


def sheet(plan: Plan, rail: str) -> Plan:
    """One wiring sheet."""
    return next(s for s in views(plan)["wiring"] if s["rail"] == rail)


def row(plan: Plan, address: str) -> Plan:
    """One row of a wiring sheet."""
    return next(r for r in sheet(plan, address[0])["rows"] if r["address"] == address)


def circuit(plan: Plan, name: str) -> Plan:
    """One circuit of the plan, to be changed."""
    return next(c for c in plan["circuits"] if c["name"] == name)


# --- wiring sheets ------------------------------------------------------------------------------


def test_a_wiring_sheet_has_a_row_for_every_channel_in_order(plan: Plan) -> None:
    for rail in plan["rails"]:
        rows = sheet(plan, rail["name"])["rows"]
        assert [r["channel"] for r in rows] == list(range(1, rail["channels"] + 1))


def test_a_channel_with_nothing_on_it_is_spare_and_shunted(plan: Plan) -> None:
    spare = row(plan, "A.16")
    assert (spare["spare"], spare["reading"], spare["circuit"]) == ("spare, shunted", "", "")


def test_a_channel_used_twice_has_both_rows(plan: Plan) -> None:
    circuit(plan, "Q9-wheel-green-1")["channel"] = 1
    rows = [r for r in sheet(plan, "C")["rows"] if r["channel"] == 1]
    assert {r["circuit"] for r in rows} == {"Mixed-1", "Q9-wheel-green-1"}


def test_a_circuit_without_a_channel_is_told_apart(plan: Plan) -> None:
    circuit(plan, "Mixed-1")["channel"] = None
    assert [u["circuit"] for u in views(plan)["unplaced"]] == ["Mixed-1"]


def test_the_reading_spans_every_temperature_rounded_outward(plan: Plan) -> None:
    found = circuit(plan, "Curtain-A")
    found["readings"] = [
        {
            "at_degC": 5.0,
            "low": 2.0,
            "nominal": 2.1,
            "high": 2.2,
            "meter_low": 1.84,
            "meter_high": 2.3,
        },
        {
            "at_degC": 30.0,
            "low": 2.1,
            "nominal": 2.2,
            "high": 2.4,
            "meter_low": 1.9,
            "meter_high": 2.51,
        },
    ]
    assert row(plan, "A.12")["reading"] == "1.8 – 2.6"
    found["readings"] = []
    assert row(plan, "A.12")["reading"] == "not computed"


def test_a_row_says_what_is_cut_joined_and_lit(plan: Plan) -> None:
    curtain = row(plan, "A.12")
    assert curtain["cable"] == ["lead 52 m zip-14", "line 4 × 6.6 m zip-16"]
    assert curtain["splices"] == 5
    assert curtain["shape"] == "5 in parallel"
    assert "matches 1, 3, 5, 7, 9" in curtain["device"]
    assert row(plan, "B.9")["shape"] == "5 in series"
    assert row(plan, "C.1")["shape"] == "6 in series and parallel"


def test_makers_data_missing_is_marked_on_the_row_and_on_the_sheet(plan: Plan) -> None:
    assert row(plan, "A.6")["marks"] == ["maker's data missing"]
    assert sheet(plan, "A")["missing"] == "maker's data missing: generic-match"
    assert sheet(plan, "C")["missing"] == ""


def test_notes_print_on_the_sheets_of_their_thing(plan: Plan) -> None:
    assert sheet(plan, "A")["notes"] == [
        "Plug from the wall side",
        "Nobody on the quay wall after 21:40",
    ]
    assert sheet(plan, "B")["notes"] == ["at Q9: Sandbag both feet", "Nobody on the quay wall after 21:40"]
    assert row(plan, "A.12")["notes"] == ["Tie off the centre gerb first"]


@pytest.mark.parametrize(
    ("subject", "rails"),
    [
        ("circuit Curtain-A", ["A"]),
        ("circuit:Curtain-A", ["A"]),
        ("Curtain.3", ["A"]),
        ("Curtain", ["A", "B"]),
        ("Pack-2", ["B", "C"]),
        ("rail C", ["C"]),
        ("C.2", ["C"]),
        ("limit chase-step", ["A", "B", "C"]),
        ("something nobody knows", ["A", "B", "C"]),
    ],
)
def test_a_waiver_prints_on_the_sheets_it_touches_and_in_doubt_on_all(
    plan: Plan, subject: str, rails: list[str]
) -> None:
    plan["waivers"] = [{"rule": "mixed-matches", "subject": subject, "because": "x", "by": "y"}]
    assert [s["rail"] for s in views(plan)["wiring"] if s["waivers"]] == rails


def test_a_sheet_is_voided_by_what_is_printed_on_it_alone(plan: Plan) -> None:
    before = {s["rail"]: s["fingerprint"] for s in views(plan)["wiring"]}
    plan["show"]["revision"] += 1
    plan["circuits"] = [c for c in plan["circuits"] if c["name"] != "Curtain-A"]
    after = {s["rail"]: s["fingerprint"] for s in views(plan)["wiring"]}
    assert before["A"] != after["A"]
    assert (before["B"], before["C"]) == (after["B"], after["C"])


# --- load table ---------------------------------------------------------------------------------


def test_the_match_with_the_least_margin_stands_first(plan: Plan) -> None:
    loads = {r["circuit"]: r for r in views(plan)["load"]["rows"]}
    curtain = loads["Curtain-A"]["matches"]
    assert [m["names"] for m in curtain] == [
        "Curtain.1, Curtain.9",
        "Curtain.3, Curtain.7",
        "Curtain.5",
    ]
    assert [m["count"] for m in curtain] == [2, 2, 1]
    assert [m["count"] for m in loads["Curtain-B"]["matches"]] == [5]


def test_every_match_stands_in_the_load_table_once(plan: Plan) -> None:
    for found in views(plan)["load"]["rows"]:
        matches = circuit(plan, found["circuit"])["matches"]
        assert sum(m["count"] for m in found["matches"]) == len(matches)


def test_a_match_not_computed_stands_before_all_that_are(plan: Plan) -> None:
    match = circuit(plan, "Curtain-A")["matches"][2]
    match["current_a"] = match["margin"] = None
    loads = {r["circuit"]: r for r in views(plan)["load"]["rows"]}
    first = loads["Curtain-A"]["matches"][0]
    assert (first["names"], first["least"], first["margin"]) == (
        "Curtain.5",
        "not computed",
        "not computed",
    )


def test_a_circuit_without_a_match_still_stands_in_the_load_table(plan: Plan) -> None:
    circuit(plan, "Curtain-A")["matches"] = []
    loads = {r["circuit"]: r for r in views(plan)["load"]["rows"]}
    assert [m["names"] for m in loads["Curtain-A"]["matches"]] == ["no match"]


def test_a_shared_load_that_was_not_computed_outranks_every_number(plan: Plan) -> None:
    moments = [i for i in plan["instants"] if i["supply"] == "Pack-1"]
    moments[3]["supply_a"] = None
    shared = {s["name"]: s for s in views(plan)["load"]["supplies"]}
    assert shared["Pack-1"]["load"] == "not computed"
    assert shared["Pack-2"]["load"] == "25.00"


# --- cues ---------------------------------------------------------------------------------------


def test_a_cue_shows_when_it_is_seen_and_when_it_is_fired(plan: Plan) -> None:
    cues = {r["number"]: r for r in views(plan)["cues"]["rows"]}
    assert (cues["1"]["seen"], cues["1"]["fired"]) == ("0:11.000", "0:08.300")
    assert cues["1"]["prefire"] == "2.7 s (2.43 – 2.97)"
    assert (cues["21"]["fired"], cues["21"]["seen"], cues["21"]["after"]) == ("PRESS", "+0:00.1", "")
    assert cues["22"]["rounding"] != ""
    assert (cues["22"]["seen"], cues["22"]["after"]) == ("+0:08.005", "after press 21")
    assert cues["100.2"]["part_of"] == "100"
    assert cues["30"]["channels"] == "A.12, B.9"


def test_a_cue_for_something_without_a_channel_is_marked(plan: Plan) -> None:
    circuit(plan, "Mixed-1")["rail"] = None
    cues = {r["number"]: r for r in views(plan)["cues"]["rows"]}
    assert cues["31"]["marks"] == ["not on a channel"]


# --- cautions and drawings ----------------------------------------------------------------------


def test_every_kind_of_sheet_has_few_cautions_and_the_same_foot() -> None:
    told = cautions()
    assert set(told) == {"wiring", "load", "cues", "standing"}
    assert all(1 <= len(lines) <= 7 for lines in told.values())
    standing = " ".join(told["standing"])
    for words in ("Local rules", "standard in force", "maker's data", "licensed operator"):
        assert words in standing


@pytest.mark.parametrize("topology", ["single", "series", "parallel", "mixed", "network", None])
@pytest.mark.parametrize("matches", [1, 2, 3, 30])
def test_a_pictogram_is_black_on_white_and_well_formed(topology: str | None, matches: int) -> None:
    root = ET.fromstring(pictogram(topology, matches))
    colours = {v for e in root.iter() for k, v in e.attrib.items() if k in ("fill", "stroke")}
    assert colours <= {"none", "#000", "#fff"}
    beads = [e for e in root.iter() if e.tag.endswith("ellipse")]
    assert len(beads) <= 4
    assert bool(beads) == (topology is not None)


def test_kinds_of_circuit_are_drawn_differently() -> None:
    kinds = ("single", "series", "parallel", "mixed", "network", None)
    shapes = [pictogram(kind, 3).split("<g ")[1] for kind in kinds]
    assert len(set(shapes)) == len(kinds)


def test_a_short_load_does_not_vanish_from_a_long_timeline() -> None:
    root = ET.fromstring(timeline("Pack <1>", [(1000.0, 1000.1, 30.0)], 60.0, (0.0, 3600.0)))
    bars = [e for e in root.iter() if e.tag.endswith("rect")]
    assert len(bars) == 1
    assert float(bars[0].get("width", "0")) >= 1.5


def test_a_timeline_says_what_was_not_computed_and_where_no_limit_is_stated(plan: Plan) -> None:
    supply = plan["supplies"][0]
    supply["limit_a"] = supply["fuse_a"] = None
    next(i for i in plan["instants"] if i["supply"] == supply["name"])["supply_a"] = None
    found = views(plan)["timelines"][0]
    assert "limit not stated" in found["words"]
    assert "1 moment not computed and not drawn" in found["words"]
    assert "limit not stated" in found["svg"]
