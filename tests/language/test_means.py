"""Saying a lot briefly, and saying it safely: each means does what a person expects of it."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compiler.expand.tables import cells
from compiler.vocabulary.timecode import count
from tests.language.test_model import BASE
from tests.shows import circuit, compiled, found, plan_of


def cues_of(text: str, **files: str) -> list[tuple[str, float, list[str]]]:
    """Number, seen time and circuits of every cue."""
    return [(c["number"], c["seen_s"], c["circuits"]) for c in plan_of(BASE + text, **files)["cues"]]


def test_a_pattern_played_is_what_it_says_written_out() -> None:
    pattern = (
        "pattern Pair(effect E, position P, time S) {\n+0:00.0 E at P\nafter S E at Q9\n}\n"
        "script One from 0:10 numbered 100 {\n+0:01.0 play Pair(mine-red, Q1, 3 s)\n}\n"
    )
    plain = "script One from 0:10 numbered 100 {\n+0:01.0 mine-red at Q1\n+0:04.0 mine-red at Q9\n}\n"
    assert plan_of(BASE + pattern)["fingerprint"] == plan_of(BASE + plain)["fingerprint"]


def test_a_pattern_can_be_played_outside_scripts_and_within_patterns() -> None:
    text = (
        "pattern Two(effect E) { +0:00.0 E at Q1; +0:01.0 E at Q2 }\n"
        "pattern Four(effect E) { +0:00.0 play Two(E); +0:10.0 play Two(E) }\n"
        "play Four(mine-red) from 0:30 as First numbered 10\n"
    )
    assert [(n, s) for n, s, _ in cues_of(text)] == [("10", 30.0), ("11", 31.0), ("12", 40.0), ("13", 41.0)]


@pytest.mark.parametrize(
    ("text", "rule", "said"),
    [
        ("pattern A() { +0:00 play A() }\nplay A() from 0:10 numbered 1", "use-cycle", "plays itself"),
        ("play Nobody(mine-red) from 0:10 numbered 1", "unknown-name", "Nobody"),
        ("pattern A(effect E) { +0:00 E at Q1 }\nplay A() from 0:10 numbered 1", "list-mismatch", "takes 1 value"),
        ("pattern A(time T) { after T mine-red at Q1 }\nplay A(mine-red) from 0:10 numbered 1", "wrong-dimension", "is a time"),
        ("pattern A(colour C) { +0:00 mine-red at Q1 }", "unexpected-value", "kind and a name"),
        ("let a b\nlet b a\ncue 1 at 0:10 mine-red at Q1", "use-cycle", "made of itself"),
        ('cue 1 at 0:10 mine-red at Q1\nscript S from 0:00 {\ntable "gone.csv"\n}', "use-missing", "gone.csv"),
        ("cue 1 at 8 s after 2 mine-red at Q1\ncue 2 at 8 s after 1 mine-red at Q1", "use-cycle", "waits for"),
        ("cue 1 at 8 s after 7 mine-red at Q1", "unknown-name", "no cue 7"),
        ("cue 1 at clock 22:15 mine-red at Q1", "missing-property", "wall clock"),
        ("cue 1 at Waltz 01:00:00:00 mine-red at Q1", "unknown-name", "Waltz"),
        ("cue 1 at 0:10 by hand mine-red at Q1", "duplicate-property", "twice when"),
        ("cue 1 at 0:10 mine-red at Q1 count 2 in series twice", "duplicate-property", "said twice"),
        ("change rail Z { spare 4 }", "unknown-name", "Z"),
        ("change cue 1 { text }", "missing-value", ""),
        ("change module dc-16 { channels 4 }", "unexpected-value", "built-in"),
        ("cable a { like b }\ncable b { like a }", "use-cycle", "like itself"),
        ('out Nowhere because "x" by "y"', "unknown-name", "Nowhere"),
        ("cue 1 at 0:10 mine-red at Q1\nout Q1", "missing-property", "without a reason"),
        ("cue 1 at 0:10 mine-red at Q1\nwaive never-fired on A", "missing-property", "without a reason"),
        ('waive never-fired because "x" by "y"', "missing-property", "waived for"),
        ("effect c { kind chain; shells 5 of shell-75 }", "missing-property", "chain"),
        ("effect c { kind chain; shells 5 of c; delay 1 s }", "use-cycle", "itself"),
        ("rack R of 2 tubes 75 mm at Q5\ncue 1 at 0:30 shell-100 at Q5", "tube-missing", "100 mm"),
        ("rail N1..N3 of dc-8 at Q1, Q2 { feed Pack-1 through 3 m of trunk-2.5 }", "list-mismatch", "3 rails"),
        ("hold H from 0:20 to 0:10", "empty-range", "before it begins"),
        ('defaults { label "{rai}" }', "unknown-name", "{rai}"),
        ("position P1 at 0 m, 5 m every 10 m", "unexpected-value", "one position"),
    ],
)
def test_a_slip_in_a_new_means_is_told_with_its_name(text: str, rule: str, said: str) -> None:
    base = BASE.replace("defaults { lead zip-18 }", "") if text.startswith("defaults") else BASE
    findings = [f for f in compiled(base + text).findings if f.severity != "note"]
    assert rule in [f.rule for f in findings], [f.headline for f in findings]
    assert any(said in f.headline for f in findings if f.rule == rule)


def test_a_finding_in_a_pattern_says_where_it_was_played() -> None:
    text = "pattern A(position P) { +0:00 mine-rad at P }\nplay A(Q1) from 0:10 numbered 1\n"
    finding = next(f for f in compiled(BASE + text).findings if f.rule == "unknown-name")
    assert [related.word for related in finding.related] == ["`A` is played here"]


def test_a_let_stands_for_its_value_everywhere() -> None:
    text = "let gap 150 ms\nlet main mine-red\nscript S from 0:10 numbered 5 { +0:00 main at Q1..Q3 every gap }"
    plain = "script S from 0:10 numbered 5 { +0:00 mine-red at Q1..Q3 every 150 ms }"
    assert plan_of(BASE + text)["fingerprint"] == plan_of(BASE + plain)["fingerprint"]


def test_a_table_says_what_its_rows_say_and_keeps_their_places() -> None:
    rows = 'offset,effect,at,text\r\n+0:00.0,mine-red,Q1,"Red, ""low"" one"\r\n+0:02.0,comet-gold,"Q2, Q3",\r\n+0:03.0,comet-goold,Q2,\r\n'
    result = compiled(BASE + 'script S from 0:10 numbered 7 {\n    table "opening.csv"\n}\n', **{"opening.csv": rows})
    plan = result.plan()
    assert [(c["number"], c["seen_s"], len(c["circuits"])) for c in plan["cues"]] == [("7", 10.0, 1), ("8", 12.0, 2)]
    errors = [(f.rule, result.places.place(f)["file"], result.places.place(f)["line"]) for f in result.findings if f.severity == "error"]
    assert ("unknown-name", "opening.csv", 4) in errors


def test_a_table_of_cues_stands_at_the_top_level() -> None:
    rows = "cue,time,effect,at\n1,0:10,mine-red,Q1\n2,0:20,mine-red,Q2\n"
    assert [(n, s) for n, s, _ in cues_of('table "cues.csv"\n', **{"cues.csv": rows})] == [("1", 10.0), ("2", 20.0)]


@given(st.lists(st.lists(st.text(alphabet='ab",\n é', max_size=6), min_size=2, max_size=4), min_size=1, max_size=5))
def test_the_cells_of_a_table_are_those_of_the_standard_library(rows: list[list[str]]) -> None:
    text = io.StringIO()
    csv.writer(text).writerows(rows)
    assert [[cell.text for cell in row] for row in cells(text.getvalue())] == rows


def test_with_adds_to_the_same_cue() -> None:
    assert [(n, sorted(c)) for n, _, c in cues_of("cue 4 at 0:10 mine-red at Q1 with mine-green at Q2, Q3")] == [
        ("4", ["Q1-mine-red-1", "Q2-mine-green-1", "Q3-mine-green-1"])
    ]


def test_twice_is_two_matches_on_other_rails_and_supplies() -> None:
    plan = plan_of(BASE + "cue 1 at 0:10 fan-silver at Q5 twice")
    one, other = circuit(plan, "Q5-fan-silver-1"), circuit(plan, "Q5-fan-silver-1-again")
    supplies = {rail["name"]: rail["supply"] for rail in plan["rails"]}
    assert one["rail"] != other["rail"]
    assert supplies[one["rail"]] != supplies[other["rail"]]
    assert one["key_effect"] == other["key_effect"] == "Q5-fan-silver-1"


def test_several_on_own_channels_are_as_many_circuits() -> None:
    (cue,) = cues_of("cue 1 at 0:10 mine-red at Q5 count 3 on own channels")
    assert cue[2] == ["Q5-mine-red-1", "Q5-mine-red-2", "Q5-mine-red-3"]


def test_a_part_takes_from_the_one_that_it_is_like_what_it_does_not_say() -> None:
    model = compiled(BASE + "cable mine like zip-18 { limit 3 A }\neffect low like shell-75 { prefire 1 s }").solved.model
    assert model.cables["mine"].limit_a == 3
    parts = compiled(BASE + "cue 1 at 0:10 low at Q1\neffect low like shell-75 { prefire 1 s }").solved.model
    assert (parts.effects["low"].prefire_s.nominal, parts.effects["low"].calibre_m) == (1.0, 0.075)


def test_a_change_says_something_else_about_a_thing_of_another_file() -> None:
    result = compiled(
        'use "site.show"\nchange rail A { spare 20 }\nchange position Q3 { at 99 m, 0 m }\n', site_show=BASE + "cue 1 at 0:10 mine-red at Q1"
    )
    model = result.solved.model
    assert model.rails["A"].spare == 20
    assert model.positions["Q3"].x_m == 99
    assert model.positions["Q2"].x_m == -30


def test_rails_supplies_and_places_go_in_step() -> None:
    model = compiled(
        BASE + "supply Bat1..Bat2 of lead-acid-24 at Q1, Q2\n"
        "rail N1..N2 of dc-8 at Q4, Q5 { feed Bat1..Bat2 through 2 m of trunk-2.5 }\n"
    ).solved.model
    assert [(model.rails[n].position, model.rails[n].feed.source) for n in ("N1", "N2")] == [("Q4", "Bat1"), ("Q5", "Bat2")]


def test_positions_stand_on_structures() -> None:
    model = compiled(BASE + "structure Tower at 100 m, 50 m { height 14 m }\nposition T1..T2 on Tower at 0 m, 0 m, 10 m every 2 m").solved.model
    assert [(p.x_m, p.y_m, p.z_m) for p in (model.positions["T1"], model.positions["T2"])] == [(100, 50, 10), (102, 50, 10)]


def test_a_chain_is_seen_at_its_first_burst_and_burns_to_its_last() -> None:
    model = compiled(BASE + "effect red5 { kind chain; shells 5 of shell-75; delay 550 ms }\ncue 1 at 0:10 red5 at Q1").solved.model
    chain, shell = model.effects["red5"], model.effects["shell-75"]
    assert (chain.shells, chain.prefire_s, chain.calibre_m) == (5, shell.prefire_s, shell.calibre_m)
    assert chain.burn_s == pytest.approx(4 * 0.55 + shell.burn_s)
    assert len(model.circuits) == 1


def test_shells_fill_the_tubes_of_their_calibre_in_the_order_of_firing() -> None:
    text = "rack R3 of 2 tubes 3 in at Q5\ncue 2 at 0:10 shell-75 at Q5\ncue 1 at 0:20 shell-75 at Q5\n"
    model = compiled(BASE + text).solved.model
    assert [model.devices[f"Q5-shell-75-{n}"].tubes for n in (1, 2)] == [("R3.1",), ("R3.2",)]


def test_music_counts_from_its_start_with_its_delay() -> None:
    text = "music M { timecode 25; starts 01:00:00:00; at 0:30; delay 120 ms }\ncue 1 at M 01:00:04:05 mine-red at Q1"
    assert cues_of(text)[0][1] == pytest.approx(30 + 4.2 + 0.12)


def test_hand_cues_and_what_follows_them_count_from_the_press() -> None:
    text = (
        "cue 59 by hand mine-red at Q1\ncue 60 at 8 s after 59 mine-red at Q2\ncue 61 at 2 s after 60 mine-red at Q3\n"
        "music M { timecode 25; starts 00:00:00:00 }\ncue 70 by hand starts M\ncue 71 at M 00:00:05:00 mine-red at Q4\n"
    )
    plan = plan_of(BASE + text)
    assert [(c["number"], c["by"], c["seen_s"], c["press"]) for c in plan["cues"]] == [
        ("59", "hand", 0.0, "59"), ("60", "clock", 8.0, "59"), ("61", "clock", 10.0, "59"), ("70", "hand", 0.0, "70"), ("71", "clock", 5.0, "70"),
    ]  # fmt: skip
    assert {i["press"] for i in plan["instants"]} == {"59", "70"}


def test_the_wall_clock_goes_on_past_midnight() -> None:
    base = BASE.replace("ambient", "zero 2027-12-31 23:50:00; ambient")
    cues = compiled(base + "cue 1 at clock 23:55 mine-red at Q1\ncue 2 at clock 00:00:10 mine-red at Q2").plan()["cues"]
    assert [c["seen_s"] for c in cues] == [300.0, 610.0]


@pytest.mark.parametrize("what", ["Q2", "B", "cue 2", "Q2-mine-red-1"])
def test_what_is_out_moves_nothing_else(what: str) -> None:
    text = "".join(f"cue {n} at 0:{10 + n} mine-red at Q{n}\n" for n in range(1, 10))
    whole = plan_of(BASE + text)
    less = plan_of(BASE + text + f'out {what} because "soft ground" by "the lead"\n')
    gone = {out["circuit"] for out in less["outs"]}
    assert gone
    kept = {c["name"]: (c["rail"], c["channel"]) for c in less["circuits"]}
    assert kept == {c["name"]: (c["rail"], c["channel"]) for c in whole["circuits"] if c["name"] not in gone}
    times = {c["number"]: c["fired_s"] for c in whole["cues"]}
    assert all(times[c["number"]] == c["fired_s"] for c in less["cues"])


def test_a_waiver_answers_for_one_finding_of_one_thing() -> None:
    text = BASE + "device D1, D2 of mine-red at Q5\n"
    assert [rule for rule, _ in found(text)] == ["never-fired", "never-fired"]
    result = compiled(text + 'waive never-fired on D1 because "kept in reserve" by "the lead"')
    assert [f.waived_by for f in result.findings if f.rule == "never-fired"] == ["the lead", None]
    assert "kept in reserve" in str(result.plan()["waivers"])


def test_what_is_never_waived_refuses_and_a_waiver_without_a_finding_is_told() -> None:
    text = BASE + "cue 1 at 0:10 mine-red at Q1\n"
    assert [rule for rule, _ in found(text + 'waive test-current on A because "x" by "y"')] == ["waiver-refused"]
    assert [rule for rule, _ in found(text + 'waive never-fired on A because "x" by "y"')] == ["waiver-unused"]


def test_a_severity_is_raised_freely_and_lowered_only_with_a_reason() -> None:
    text = BASE + "device D1 of mine-red at Q5\n"
    raised = compiled(text + "limits { severity never-fired error }").findings
    assert [f.severity for f in raised if f.rule == "never-fired"] == ["error"]
    assert "limit-loosened" in [r for r, _ in found(text + "limits { severity never-fired note }")]
    lowered = compiled(text + 'limits { severity never-fired note because "rehearsal" by "the lead" }')
    assert {f.severity for f in lowered.findings} == {"note"}
    assert "limit-loosened" in [r for r, _ in found(text + 'limits { severity test-current note because "x" by "y" }')]


def test_labels_are_written_as_the_show_says() -> None:
    base = BASE.replace("lead zip-18", 'lead zip-18; label "{cue}/{rail}-{channel}"')
    model = compiled(base + "cue 7 at 0:10 mine-red at Q3").solved.model
    assert model.circuits["Q3-mine-red-1"].label == "7/A-1"


@pytest.mark.parametrize(
    ("label", "rate", "drop", "frames"),
    [("00:01:00;02", "29.97", True, 1800), ("00:10:00;00", "29.97", True, 17982), ("01:00:00;00", "29.97", True, 107892), ("01:00:00:00", "25", False, 90000)],
)
def test_timecode_counts_frames_as_the_standard_does(label: str, rate: str, drop: bool, frames: int) -> None:
    # SMPTE ST 12-1; the drop-frame counts are published (1800, 17982, 107892)
    assert count(label, rate, drop=drop).frames == frames


def test_a_table_of_parts_declares_them_with_their_sources() -> None:
    rows = (
        "name,gauge,stranded,limit,source\n"
        'reel-1,18 awg,yes,5 A,"reel label, red"\n'
        "reel-2,20 awg,,,\n"
    )  # fmt: skip
    result = compiled('table "reels.csv" of cable\n' + BASE + "circuit C on A.1 { lead 20 m of reel-1; series D }\ndevice D of mine-red at Q1\ncue 1 at 0:10 D", **{"reels.csv": rows})
    cables = result.solved.model.cables
    assert (cables["reel-1"].limit_a, cables["reel-1"].origin.source) == (5.0, "reel label, red")
    assert cables["reel-2"].ohm_per_m.nominal > cables["reel-1"].ohm_per_m.nominal
    assert not [f for f in result.findings if f.severity == "error"]


def test_a_slip_in_a_table_of_parts_is_told_in_its_row() -> None:
    result = compiled('table "reels.csv" of cable\n' + BASE, **{"reels.csv": "name,gauge,colour\nreel-1,18 V,red\n"})
    told = {(f.rule, result.places.place(f)["file"], result.places.place(f)["line"]) for f in result.findings if f.severity == "error"}
    assert told == {("unknown-property", "reels.csv", 1), ("wrong-dimension", "reels.csv", 2)}
    assert [rule for rule, _ in found('table "reels.csv" of cabel\n' + BASE, **{"reels.csv": "name\n"})] == ["unexpected-value"]


def test_saying_a_limit_as_it_is_needs_no_reason() -> None:
    assert found(BASE + "limits { margin 1.5; spare-least 2 }") == []
    assert [rule for rule, _ in found(BASE + "limits { margin 1.4 }")] == ["limit-loosened"]
    assert found(BASE + 'limits { margin 1.4 because "proof load" by "the lead" }') == []


def test_a_clock_a_little_before_zero_is_before_zero() -> None:
    base = BASE.replace("ambient", "zero 2027-06-19 22:00:00; ambient")
    assert compiled(base + "cue 1 at clock 21:59 mine-red at Q1").plan()["cues"][0]["seen_s"] == -60.0


def test_taking_a_place_out_takes_the_rail_that_stands_there_too() -> None:
    text = "cue 1 at 0:10 mine-red at Q7\ncue 2 at 0:20 mine-red at Q1\n"
    plan = plan_of(BASE + text + 'out Q8 because "flooded" by "the lead"')
    assert [out["circuit"] for out in plan["outs"]] == ["Q7-mine-red-1"]


def test_a_file_that_cannot_be_read_may_have_fired_what_seems_unfired() -> None:
    text = 'use "cues.show"\n' + BASE + "device D1 of mine-red at Q5\n"
    assert found(text) == [("use-missing", 1)]


def test_a_table_takes_lets_and_the_parameters_of_its_pattern() -> None:
    rows = "offset,effect,at,every\n+0:00.0,what,Q1..Q3,gap\n"
    text = 'let gap 200 ms\npattern P(effect what) {\n    table "t.csv"\n}\nplay P(mine-red) from 0:10 numbered 5\n'
    assert [(n, s) for n, s, _ in cues_of(text, **{"t.csv": rows})] == [("5.1", 10.0), ("5.2", 10.2), ("5.3", 10.4)]


def test_a_note_can_be_for_a_cue() -> None:
    plan = plan_of(BASE + 'cue 7 at 0:10 mine-red at Q1\nnote "Wait for the bell" for cue 7')
    assert plan["cues"][0]["notes"] == ["Wait for the bell"]
    assert [rule for rule, _ in found(BASE + 'note "x" for cue 9')] == ["unknown-name"]


def test_a_chase_that_outlasts_its_script_is_told() -> None:
    script = "script S from 0:10 to 0:12 numbered 1 {{ +0:00.0 mine-red at Q1..Q5 every {step} ms{back} }}"
    assert found(BASE + script.format(step=500, back="")) == []
    assert [rule for rule, _ in found(BASE + script.format(step=510, back=""))] == ["out-of-range"]
    assert [rule for rule, _ in found(BASE + script.format(step=260, back=" and back"))] == ["out-of-range"]
