"""What is out, pressed, held, armed and waived: how a whole show prints it, on paper, page and in the table."""

from __future__ import annotations

import copy
import csv
import io
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from compiler.compile import compile_show
from compiler.sheets.glyphs import missing_glyphs
from compiler.sheets.page import page_html
from compiler.sheets.people import degrees, millimetres, since
from compiler.sheets.print import TYPE_PT, print_pdf
from compiler.sheets.tables import load_table_csv
from compiler.sheets.views import views
from tests.sheets.test_print import flat, pages, text, words
from tests.shows import compiled

Json = dict[str, Any]
SHOW = Path(__file__).parent / "every_means.show"
PAPERS = ("a4", "us-letter")


@cache
def _compiled() -> Json:
    plan, findings = compile_show(SHOW)
    assert [f.headline for f in findings if f.severity == "error"] == []
    return plan


def plan() -> Json:
    """A fresh copy of the plan of the show with every means."""
    return copy.deepcopy(_compiled())


@cache
def printed(paper: str) -> dict[str, bytes]:
    return print_pdf(_compiled(), paper)


@cache
def page() -> str:
    return page_html(_compiled())


def sheet(shown: Json, rail: str) -> Json:
    return next(one for one in shown["wiring"] if one["rail"] == rail)


def row(shown: Json, address: str) -> Json:
    return next(r for r in sheet(shown, address[0])["rows"] if r["address"] == address)


# --- what is out --------------------------------------------------------------------------------


def test_what_is_out_keeps_its_row_and_says_what_to_do_why_and_who() -> None:
    out = row(views(plan()), "A.4")
    assert out["out"] == "OUT: take off, shunt, insulate – nothing fires this"
    assert out["why"] == "place Q4: soft ground under the plank (the lead)"
    assert (out["circuit"], out["label"], out["spare"], out["reading"]) == ("Q4-comet-gold-1", "A.4 Q4", "", "")


@pytest.mark.parametrize("paper", PAPERS)
def test_every_row_that_is_out_is_printed_with_its_channel_beside_it(paper: str) -> None:
    outs = _compiled()["outs"]
    found = words(printed(paper)[f"wiring-sheets-{paper}.pdf"])
    marks = [w for w in found if w.text == "OUT:" and w.left > 50]
    beside = [
        w.text for mark in marks for w in found
        if w.page == mark.page and w.bottom - w.top == pytest.approx(TYPE_PT["channel"]) and w.top < mark.bottom < w.bottom + 3
    ]  # fmt: skip
    rails = [rail["name"] for rail in _compiled()["rails"]]
    assert beside == [str(o["channel"]) for o in sorted(outs, key=lambda o: (rails.index(o["rail"]), o["channel"]))]


def test_what_is_out_is_struck_through_on_the_page_and_its_words_are_not() -> None:
    for out in _compiled()["outs"]:
        assert f"<s>{out['label']}</s>" in page()
        assert f"<s>{out['position']} {out['circuit']}</s>" in page()
    assert "<b>OUT: take off, shunt, insulate – nothing fires this</b>" in page()


def test_a_rail_that_is_out_says_so_in_the_head_of_every_page_of_it() -> None:
    less = plan()
    less["rails"][1]["outs"] = [{"what": "rail B", "because": "flooded", "by": "the lead"}]
    told = "ALL OUT: take every lead off, shunt, insulate; nothing fires this. rail B: flooded (the lead)"
    own = sheet(views(less), "B")["fingerprint"]
    for one in pages(print_pdf(less, "a4")["wiring-sheets-a4.pdf"]):
        assert (flat(told) in flat(one)) == (f"sheet {own}" in one)
    assert told in page_html(less)
    assert "ALL OUT" not in page()


def test_cues_that_are_out_stand_in_their_place_struck_through() -> None:
    rows = views(plan())["cues"]["rows"]
    numbers = [r["number"] for r in rows]
    assert numbers[numbers.index("4") : numbers.index("6") + 1] == ["4", "5.1", "5.2", "6"]
    out = rows[numbers.index("5.2")]
    assert (out["kind"], out["told"], out["why"]) == ("out", "OUT: do not fire", "cue 5: candles are wet (the lead)")
    assert "<s>0:40.000</s>" in page()
    assert flat("OUT: do not fire") in flat(text(printed("a4")["cue-sheet-a4.pdf"]))


def test_the_load_table_lists_what_is_out_by_address_and_computes_nothing_for_it() -> None:
    load = views(plan())["load"]
    assert [out["address"] for out in load["outs"]] == ["A.4", "A.9", "B.5", "B.6", "B.7", "C.2", "C.5"]
    assert not {r["address"] for r in load["rows"]} & {out["address"] for out in load["outs"]}
    assert flat("Taken out: nothing fires these") in flat(text(printed("a4")["load-table-a4.pdf"]))


def test_the_table_for_spreadsheets_keeps_the_channel_of_what_is_out() -> None:
    rows = list(csv.DictReader(io.StringIO(load_table_csv(plan()), newline="")))
    out = next(r for r in rows if (r["rail"], r["channel"]) == ("A", "4"))
    assert (out["circuit"], out["label"]) == ("Q4-comet-gold-1", "A.4 Q4")
    assert out["marks"].startswith("OUT: take off, shunt, insulate")
    assert out["marks"].endswith("place Q4: soft ground under the plank (the lead)")
    assert {value for key, value in out.items() if key.endswith(("(A)", "(ohm)"))} == {""}
    wired = [(r["rail"], int(r["channel"])) for r in rows]
    assert wired == sorted(wired)


# --- presses, holds, music ----------------------------------------------------------------------


def test_a_press_is_a_word_of_its_own_and_what_follows_names_it() -> None:
    cues = {r["number"]: r for r in views(plan())["cues"]["rows"]}
    assert (cues["59"]["kind"], cues["59"]["fired"]) == ("press", "PRESS")
    assert (cues["60"]["fired"], cues["60"]["after"]) == ("+0:08.0", "after press 59")
    assert (cues["71"]["fired"], cues["71"]["after"]) == ("+0:04.32", "after press 70")
    assert cues["70"]["marks"] == ["starts Waltz"]
    assert cues["1"]["after"] == ""


@pytest.mark.parametrize("paper", PAPERS)
def test_presses_are_printed_as_large_as_times(paper: str) -> None:
    found = [w for w in words(printed(paper)[f"cue-sheet-{paper}.pdf"]) if w.text == "PRESS"]
    assert len(found) == 2
    assert all(w.bottom - w.top == pytest.approx(TYPE_PT["time"]) for w in found)
    assert page().count('<b class="press">PRESS</b>') == 2


def test_presses_come_last_and_the_head_names_them() -> None:
    cues = views(plan())["cues"]
    assert [r["number"] for r in cues["rows"]][-4:] == ["59", "60", "70", "71"]
    assert cues["presses"] == ["59 The boats turn: wait for the white lamp", "70 The band is seated"]
    only = plan()
    only["cues"] = [cue for cue in only["cues"] if cue["press"]]
    assert views(only)["cues"]["presses"] == []


def test_a_hold_stands_between_the_cues_around_it() -> None:
    rows = views(plan())["cues"]["rows"]
    at = next(index for index, r in enumerate(rows) if r["kind"] == "hold")
    assert (rows[at - 1]["number"], rows[at + 1]["number"]) == ("7.17", "9")
    assert rows[at]["told"] == "HOLD Ferry 1:20.000 – 1:50.000: fire nothing"
    assert rows[at]["why"] == "the last ferry passes the spit"
    assert re.search(r'<tr class="row hold"><td colspan="9">', page())


def test_the_timecode_has_a_column_where_music_is_used_and_none_elsewhere() -> None:
    cues = {r["number"]: r["timecode"] for r in views(plan())["cues"]["rows"]}
    assert cues["71"] == {"music": "Waltz", "fired": "01:00:04:08", "seen": "01:00:04:05"}
    assert cues["1"] == {"music": "", "fired": "", "seen": ""}
    silent = plan()
    for cue in silent["cues"]:
        cue["timecode"] = None
    heads = [[w.text for w in words(pdf) if w.text == "timecode"] for pdf in
             (printed("a4")["cue-sheet-a4.pdf"], print_pdf(silent, "a4")["cue-sheet-a4.pdf"])]  # fmt: skip
    assert len(heads[0]) == len(pages(printed("a4")["cue-sheet-a4.pdf"]))
    assert heads[1] == []
    assert 'data-h="timecode"' not in page_html(silent)


def test_loads_after_a_press_are_told_apart_from_show_time() -> None:
    shown = views(plan())
    row_ = next(r for r in shown["load"]["rows"] if r["address"] == "A.5")
    assert row_["matches"][0]["at"] == "+0:07.998 after press 59"
    assert all("loads after a press are not drawn" in line["words"] for line in shown["timelines"])


# --- who, where, when ---------------------------------------------------------------------------


def test_the_cue_sheet_begins_with_wind_zones_and_music() -> None:
    cues = views(plan())["cues"]
    assert cues["wind"] == [
        "8.9 m/s (20 mph) and above: stop everything",
        "6.7 m/s (15 mph) and above: stop 100 mm and above",
    ]
    assert cues["zones"] == [
        "zone East, Rigger, armed at 21:45: rails B, C, D",
        "zone West, West-Chief, armed at 21:40: rail A",
    ]
    first = flat(pages(printed("a4")["cue-sheet-a4.pdf"])[0])
    for told in (*cues["wind"], *cues["zones"], *cues["music"], *cues["presses"]):
        assert flat(told) in first
        assert told in page()


def test_a_wind_limit_is_rounded_down() -> None:
    windy = plan()
    windy["weather"] = [{"wind_m_s": 8.99, "from_calibre_m": None}]
    assert views(windy)["cues"]["wind"] == ["8.9 m/s (20 mph) and above: stop everything"]
    windy["weather"][0]["wind_m_s"] = 8.94
    assert views(windy)["cues"]["wind"] == ["8.9 m/s (19 mph) and above: stop everything"]


@pytest.mark.parametrize("paper", PAPERS)
def test_zone_role_and_control_line_stand_in_the_head_of_every_page_of_a_rail(paper: str) -> None:
    shown = views(plan())
    assert sheet(shown, "A")["zones"] == ["zone West, West-Chief, armed at 21:40"]
    assert sheet(shown, "B")["control"] == "A through 60 m of trunk-2.5"
    assert sheet(shown, "C")["control"] == ""
    for one in pages(printed(paper)[f"wiring-sheets-{paper}.pdf"]):
        own = next(s for s in shown["wiring"] if f"sheet {s['fingerprint']}" in one)
        for told in (*own["zones"], own["control"]):
            assert flat(told) in flat(one)


@pytest.mark.parametrize("paper", PAPERS)
def test_a_note_for_a_role_stands_on_every_sheet_under_its_name(paper: str) -> None:
    for name, pdf in printed(paper).items():
        by_sheet: dict[str, str] = {}
        for one in pages(pdf):
            own = re.search(r"sheet ([0-9a-f]{4} [0-9a-f]{4})", one)
            assert own is not None
            by_sheet[own[1]] = by_sheet.get(own[1], "") + flat(one)
        for told in by_sheet.values():
            assert flat("for Rigger: Check every sling before the lift") in told, name
            assert flat("for Loader: Two persons at each rack; nobody looks into a tube") in told, name
    assert page().count("<b>for Rigger</b>") == len(_compiled()["rails"]) + 2


def test_a_note_for_a_place_stands_on_the_sheets_of_the_rails_that_wire_it() -> None:
    told = {s["rail"]: "at Q5: Sandbag both feet" in s["notes"] for s in views(plan())["wiring"]}
    wires = {c["rail"] for c in _compiled()["circuits"] if c["position"] == "Q5"} | {"C", "D"}
    assert {rail for rail, is_told in told.items() if is_told} == wires
    assert set(told) - wires


def test_tubes_tilt_and_heading_stand_beside_the_device() -> None:
    shown = views(plan())
    devices = {r["circuit"]: r["device"] for s in shown["wiring"] for r in s["rows"]}
    assert devices["Q5-shell-75-1"].endswith(", tube R1.1")
    assert devices["Q5-shell-100-1"].endswith(", tubes R3.1..R3.3")
    assert devices["Q1-mine-red-1"].endswith(", tilt −15°, heading 350°")
    assert devices["Q1-mine-red-2"].endswith("(mine, 75 mm)")


@pytest.mark.parametrize(
    ("subject", "rails"),
    [
        ("Q7", "B"), ("West", "A"), ("2", "A"), ("7", "ABC"), ("Q4", "AC"), ("Reserve", "C"), ("Pack-1>A", "A"),
        ("limit margin", "ABCD"), ("rule never-fired, now a note", "ABCD"), ("nobody knows", "ABCD"),
    ],
)  # fmt: skip
def test_a_waiver_stands_on_the_sheets_of_what_it_names(subject: str, rails: str) -> None:
    waived = plan()
    waived["waivers"] = [{"rule": "never-fired", "subject": subject, "because": "x", "by": "y"}]
    assert "".join(s["rail"] for s in views(waived)["wiring"] if s["waivers"]) == rails


def test_a_waiver_says_what_it_is() -> None:
    waived = plan()
    waived["waivers"] = [
        {"rule": rule, "subject": subject, "because": "x", "by": "y"}
        for rule, subject in (
            ("margin", "limit margin"),
            ("never-fired", "rule never-fired, now a note"),
            ("never-fired", "12"),
        )
    ]
    assert [w["text"] for w in views(waived)["waivers"]] == [
        "limit margin loosened: x (y)", "rule never-fired is now a note: x (y)", "never-fired waived for cue 12: x (y)",
    ]  # fmt: skip


# --- paper --------------------------------------------------------------------------------------


def test_a_rail_of_sixteen_channels_stands_on_one_page_of_a4() -> None:
    for own in ("A", "B", "C", "D"):
        mine = sheet(views(plan()), own)
        assert len(mine["rows"]) == 16
        found = [one for one in pages(printed("a4")["wiring-sheets-a4.pdf"]) if f"sheet {mine['fingerprint']}" in one]
        assert len(found) == 1


@pytest.mark.parametrize("paper", PAPERS)
def test_the_cautions_leave_the_page_to_the_rows(paper: str) -> None:
    # they took 37 mm once; in type that may not shrink, words are what can be saved
    for number in range(1, len(pages(printed(paper)[f"wiring-sheets-{paper}.pdf"])) + 1):
        found = [w for w in words(printed(paper)[f"wiring-sheets-{paper}.pdf"]) if w.page == number]
        bold = [w for w in found if w.bottom - w.top == pytest.approx(TYPE_PT["caution"])]
        assert bold
        assert max(w.bottom for w in bold) - min(w.top for w in bold) < 25 * 72 / 25.4


# --- fingerprints -------------------------------------------------------------------------------


def _changed(what: str) -> Json:
    """The plan with one thing changed that the load table prints."""
    other = plan()
    if what == "limit":
        other["rules"]["limits"][0]["source"] = "another page"
    elif what == "part":
        other["cables"][0]["source"] = "another reel"
    elif what == "timeline":
        early = next(i for i in other["instants"] if i["supply_a"] and i["press"] is None)
        early["supply_a"]["greatest"] += 0.5
    elif what == "unplaced":
        other["circuits"][0]["channel"] = None
    elif what == "out":
        other["outs"][0]["because"] = "harder ground"
    elif what == "rules":
        other["rules"]["dated"] = "2030-01-01"
    else:
        other["roles"][0]["notes"] = ["Look up"]
    return other


@pytest.mark.parametrize("what", ["limit", "part", "timeline", "unplaced", "out", "rules", "role"])
def test_whatever_the_load_table_prints_changes_its_fingerprint(what: str) -> None:
    assert views(_changed(what))["load"]["fingerprint"] != views(plan())["load"]["fingerprint"]


def test_what_the_load_table_does_not_print_leaves_its_fingerprint() -> None:
    other = plan()
    other["show"]["revision"] += 1
    other["cues"][0]["text"] = "Another word"
    other["findings"] = []
    assert views(other)["load"]["fingerprint"] == views(plan())["load"]["fingerprint"]
    assert views(other)["cues"]["fingerprint"] != views(plan())["cues"]["fingerprint"]


# --- words and characters -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("seconds", "told"),
    [(8.0, "+0:08.0"), (4.32, "+0:04.32"), (0.0, "+0:00.0"), (-1.7, "−0:01.7"), (61.005, "+1:01.005"), (None, "")],
)
def test_a_time_after_a_press_has_a_sign_and_no_idle_zeros(seconds: float | None, told: str) -> None:
    assert since(seconds) == told


def test_angles_and_calibres_are_told_whole() -> None:
    assert (degrees(-14.6), degrees(-0.2), degrees(350.0)) == ("−15°", "0°", "350°")
    assert (millimetres(0.04445), millimetres(0.0762)) == ("44 mm", "76 mm")


STRANGE = {
    "title": 'show "Pier 漢"',
    "cue text": 'cue 1 at 0:10 mine-red at Q1 "漢"',
    "note": 'note "漢" for A',
    "none": 'note "Ünïcödé Ωш" for A',
}


@pytest.mark.parametrize("what", STRANGE)
def test_the_rule_and_the_sheets_agree_on_what_can_be_printed(what: str) -> None:
    base = (
        'show "Try"\ndefaults { lead zip-18 }\nposition Q1 at 0 m, 0 m\nsupply P of lead-acid-24 at Q1\n'
        "rail A of dc-16 at Q1 { feed P through 3 m of trunk-2.5 }\n"
    )
    line = STRANGE[what]
    result = compiled(base.replace('show "Try"', line) if line.startswith("show") else base + line)
    told = "glyph-missing" in [finding.rule for finding in result.findings]
    assert told == bool(missing_glyphs(result.plan())) == (what != "none")
