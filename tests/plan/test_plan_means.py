"""The plan says all that a show can say: presses, music, racks, chains, what is out, who arms what."""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from compiler.plan import schema_text
from compiler.plan.timecode import label, label_at
from compiler.vocabulary.music import Music
from compiler.vocabulary.timecode import count
from tests.language.test_model import BASE
from tests.shows import circuit, plan_of

RATES = (("24", False), ("25", False), ("30", False), ("29.97", False), ("29.97", True))
NOMINAL = {"24": 24, "25": 25, "30": 30, "29.97": 30}
OUT_BY = 'because "soft ground" by "the lead"'


def device(plan: dict[str, Any], name: str) -> dict[str, Any]:
    one: dict[str, Any] = next(d for d in plan["devices"] if d["name"] == name)
    return one


# --- devices, circuits, rails -------------------------------------------------------------------


def test_only_what_hangs_in_a_row_is_a_falls() -> None:
    plan = plan_of(
        BASE + "cue 1 at 0:30 shell-100 at Q5 count 3 in series\n"
        "falls F of silver-gerb at Q5 { count 4 every 1 m; matches 2 }\n"
    )
    assert device(plan, "Q5-shell-100-1")["text"] == "3 × shell-100 (shell, 100 mm)"
    assert device(plan, "F")["text"] == "silver-gerb (gerb), falls of 4"


@pytest.mark.parametrize(
    ("said", "told"), [("1.75 in", "44 mm"), ("3 in", "76 mm"), ("30 mm", "30 mm"), ("5 in", "127 mm")]
)
def test_a_calibre_is_told_to_the_millimetre(said: str, told: str) -> None:
    plan = plan_of(BASE + f"effect low like shell-75 {{ calibre {said} }}\ncue 1 at 0:10 low at Q1")
    assert device(plan, "Q1-low-1")["text"] == f"low (shell, {told})"


def test_a_chain_has_a_burst_for_each_shell_and_a_tube_for_each() -> None:
    plan = plan_of(
        BASE
        + "effect red5 { kind chain; shells 5 of shell-75; delay 550 ms }\nrack R of 6 tubes 75 mm at Q1 { tilt 5 deg }\n"
        "cue 1 at 0:10 red5 at Q1 tilt 10 deg heading 350 deg\n"
    )
    chain = device(plan, "Q1-red5-1")
    assert chain["bursts_s"] == [0.0, 0.55, 1.1, 1.65, 2.2]
    assert (chain["shells"], chain["shell"]) == (5, "shell-75")
    assert chain["tubes"] == [f"R.{n}" for n in range(1, 6)]
    assert (chain["tilt_deg"], chain["heading_deg"]) == (10.0, 350.0)
    (rack,) = plan["racks"]
    assert rack["tilt_deg"] == {"first": 5.0, "last": 5.0}
    assert [tube["device"] for tube in rack["tubes"]] == ["Q1-red5-1"] * 5 + [None]


def test_lines_of_one_effect_name_each_other() -> None:
    plan = plan_of(BASE + "cue 1 at 0:10 fan-silver at Q5 twice\ncue 2 at 0:20 mine-red at Q1")
    pair = [c for c in plan["circuits"] if c["key_effect"]]
    assert len(pair) == 2
    assert {c["apart_from"] for c in pair} & {c["name"] for c in pair}
    assert circuit(plan, "Q1-mine-red-1")["apart_from"] is None


def test_a_label_is_what_the_show_writes_on_it() -> None:
    base = BASE.replace("lead zip-18", 'lead zip-18; label "{place}/{rail}-{channel}"')
    plan = plan_of(base + f"cue 7 at 0:10 mine-red at Q3, Q4\nout Q4 {OUT_BY}")
    assert circuit(plan, "Q3-mine-red-1")["label"] == "Q3/A-1"
    assert [out["label"] for out in plan["outs"]] == ["Q4/A-2"]


def test_a_label_that_needs_the_cue_is_not_guessed_for_what_is_out() -> None:
    base = BASE.replace("lead zip-18", 'lead zip-18; label "{cue}/{rail}-{channel}"')
    plan = plan_of(base + f"cue 7 at 0:10 mine-red at Q3\nout Q3 {OUT_BY}")
    assert [out["label"] for out in plan["outs"]] == ["A.1 Q3"]


# --- presses and music --------------------------------------------------------------------------

HAND = (
    "cue 1 at 0:30 mine-red at Q1\ncue 59 by hand mine-red at Q2\ncue 60 at 8 s after 59 mine-red at Q3\n"
    "music M { timecode 25; starts 01:00:00:00; at 0:20; delay 120 ms }\ncue 2 at M 01:00:04:05 mine-red at Q4\n"
)


def test_what_counts_from_a_press_stands_after_show_time_and_says_so_everywhere() -> None:
    plan = plan_of(BASE + HAND)
    assert [(c["number"], c["press"]) for c in plan["cues"]] == [("2", None), ("1", None), ("59", "59"), ("60", "59")]
    presses = [instant["press"] for instant in plan["instants"]]
    assert presses == sorted(presses, key=lambda press: press is not None)
    assert presses.count("59") == 2
    assert [span["press"] for span in circuit(plan, "Q3-mine-red-1")["alive"]] == ["59"]
    assert [span["press"] for span in circuit(plan, "Q1-mine-red-1")["alive"]] == [None]


def test_a_cue_says_what_the_timecode_reads_when_it_is_fired_and_when_it_is_seen() -> None:
    read = {cue["number"]: cue["timecode"] for cue in plan_of(BASE + HAND)["cues"]}
    # seen 24.32 s: 4.2 s of music and its delay; the running timecode is three frames further
    assert read["2"] == {"music": "M", "fired": "01:00:04:08", "seen": "01:00:04:05"}
    assert read["1"]["fired"] == "01:00:10:00"
    assert read["60"] is None


def test_before_its_start_a_music_has_no_timecode() -> None:
    music = Music("M", "25", False, "00:59:59:24", 0.0, 0.0, None)
    assert label_at(music, -0.02) is None
    assert label_at(music, 0.0) == "00:59:59:24"
    assert label_at(music, 0.04) == "01:00:00:00"


@given(st.sampled_from(RATES), st.integers(0, 23 * 3600 * 24))
def test_a_label_counts_back_to_its_frame(rate: tuple[str, bool], frames: int) -> None:
    counted = count(label(frames, rate[0], drop=rate[1]), rate[0], drop=rate[1])
    assert (counted.frames, counted.wrong) == (frames, "")


def test_labels_begin_again_after_a_day() -> None:
    assert label(24 * 3600 * 25, "25", drop=False) == "00:00:00:00"
    assert label(2_589_408, "29.97", drop=True) == "00:00:00;00"


# --- what is out --------------------------------------------------------------------------------

LINES = "".join(f"cue {n} at 0:{10 + n} mine-red at Q{n}\n" for n in range(1, 5)) + "cue 5 at 0:15 mine-red at Q3, Q4\n"


def test_a_circuit_that_is_out_keeps_its_channel_and_the_channel_is_not_spare() -> None:
    whole, less = plan_of(BASE + LINES), plan_of(BASE + LINES + f"out Q2 {OUT_BY}")
    was = circuit(whole, "Q2-mine-red-1")
    (out,) = less["outs"]
    assert (out["rail"], out["channel"]) == (was["rail"], was["channel"])
    assert (out["what"], out["because"], out["by"]) == ("place Q2", "soft ground", "the lead")
    rail = next(rail for rail in less["rails"] if rail["name"] == was["rail"])
    assert was["channel"] not in rail["spare_channels"]


def test_a_cue_that_is_out_keeps_its_time_and_says_what_takes_it_out() -> None:
    plan = plan_of(BASE + LINES + f'out Q4 {OUT_BY}\nout cue 2 because "late boat" by "the mate"')
    assert [(c["number"], c["seen_s"], c["what"], c["because"], c["by"]) for c in plan["cues_out"]] == [
        ("2", 12.0, "cue 2", "late boat", "the mate"), ("4", 14.0, "place Q4", "soft ground", "the lead"),
    ]  # fmt: skip
    assert "5" in [cue["number"] for cue in plan["cues"]]


def test_two_reasons_for_one_cue_are_both_told() -> None:
    plan = plan_of(BASE + LINES + f'out Q4 {OUT_BY}\nout Q3 because "wet" by "the mate"')
    (both,) = [cue for cue in plan["cues_out"] if cue["number"] == "5"]
    assert (both["what"], both["because"], both["by"]) == (
        "place Q3; place Q4",
        "wet; soft ground",
        "the mate; the lead",
    )


def test_a_rail_that_is_out_says_so_itself() -> None:
    plan = plan_of(BASE + LINES + f"out B {OUT_BY}")
    told = {rail["name"]: rail["outs"] for rail in plan["rails"]}
    assert told["B"] == [{"what": "rail B", "because": "soft ground", "by": "the lead"}]
    assert told["A"] == []


# --- people -------------------------------------------------------------------------------------


def test_a_zone_is_armed_by_the_wall_clock_even_across_midnight() -> None:
    base = BASE.replace("ambient", "zero 2027-12-31 00:10:00; ambient")
    plan = plan_of(base + "zone Z { rails A; role Chief; armed from clock 23:50 }\ncue 1 at 0:10 mine-red at Q1")
    (zone,) = plan["zones"]
    assert (zone["role"], zone["armed_clock"]) == ("Chief", "23:50:00")


def test_everything_that_a_show_can_say_fits_the_schema() -> None:
    text = HAND + LINES.replace("cue ", "cue 10") + (
        "structure T at 0 m, 50 m { height 9 m }\nrole Rigger\nfiring-point Hut at -60 m, -60 m\n"
        'crowd Bank along (-90 m, -110 m), (90 m, -110 m)\nhold H from 5:00 to 6:00 because "boats"\n'
        "weather { wind 20 mph; wind 15 mph for calibre 100 mm and above }\nzone Z { rails A }\n"
        f'note "Wait" for cue 1\nnote "Look up" for Rigger\nout Q2 {OUT_BY}\n'
    )  # fmt: skip
    plan = plan_of(BASE + text)
    jsonschema.Draft202012Validator(json.loads(schema_text())).validate(plan)
    for part in (
        "structures",
        "roles",
        "firing_points",
        "crowds",
        "holds",
        "weather",
        "zones",
        "music",
        "outs",
        "cues_out",
    ):
        assert plan[part], part
