"""From statements to the model: lines, chases, falls, wiring, times, addresses."""

from __future__ import annotations

import random
from itertools import pairwise

import pytest

from compiler.address.nearest import spare_of
from compiler.model.quantities import Given
from compiler.schedule.times import to_tick
from tests.shows import circuit, compiled, found, plan_of

BASE = """
show "Try" { ambient 5 .. 30 degC }
defaults { lead zip-18 }
position Q1..Q9 from -40 m, 0 m every 10 m
supply Pack-1 of lead-acid-24 at Q3
supply Pack-2 of lead-acid-24 at Q8
rail A of dc-32 at Q3 { feed Pack-1 through 3 m of trunk-2.5 }
rail B of dc-32 at Q8 { feed Pack-2 through 3 m of trunk-2.5 }
"""


def model_of(text: str):  # type: ignore[no-untyped-def]
    """The model of the base site with more text; nothing may be wrong but currents."""
    return compiled(BASE + text).solved.model


def test_a_cue_line_makes_a_device_a_circuit_and_a_cue() -> None:
    model = model_of('cue 1 at 0:06.0 shell-75 at Q5 "Maroon"')
    assert list(model.circuits) == ["Q5-shell-75-1"]
    assert model.devices["Q5-shell-75-1"].position == "Q5"
    assert (model.cues[0].number, model.cues[0].text, model.cues[0].seen_s) == ("1", "Maroon", 6.0)


def test_seen_is_fired_plus_prefire_and_lit_is_fired() -> None:
    plan = plan_of(BASE + "cue 1 at 0:30.0 shell-75 at Q5\ncue 2 lit at 0:40.0 shell-75 at Q6")
    first, second = plan["cues"]
    assert first["fired_s"] == pytest.approx(30.0 - first["prefire_s"]["nominal"])
    assert second["fired_s"] == 40.0
    assert second["seen_s"] == pytest.approx(40.0 + second["prefire_s"]["nominal"])


def test_a_chase_is_one_cue_with_parts_a_step_apart_and_back_does_not_repeat_the_turn() -> None:
    plan = plan_of(BASE + "script S from 0:10 numbered 100 {\n+0:00.0 mine-red at Q1..Q4 every 150 ms and back\n}")
    cues = plan["cues"]
    assert [c["number"] for c in cues] == [f"100.{n}" for n in range(1, 8)]
    assert [round(b["fired_s"] - a["fired_s"], 6) for a, b in pairwise(cues)] == [0.15] * 6
    assert [c["circuits"][0].split("-")[0] for c in cues] == ["Q1", "Q2", "Q3", "Q4", "Q3", "Q2", "Q1"]


def test_effects_of_different_prefire_in_one_line_are_seen_together_and_fired_apart() -> None:
    plan = plan_of(BASE + "cue 7 at 0:30.0 shell-75, comet-gold at Q5")
    assert [c["number"] for c in plan["cues"]] == ["7.1", "7.2"]
    assert {c["seen_s"] for c in plan["cues"]} == {30.0}


def test_circuits_are_named_by_firing_time_whatever_the_order_of_writing() -> None:
    lines = ["cue 1 at 0:30.0 mine-red at Q5", "cue 2 at 0:10.0 mine-red at Q5", "cue 3 at 0:20.0 mine-red at Q5"]
    named = {c.number: c.circuits for c in model_of("\n".join(lines)).cues}
    assert named == {"1": ("Q5-mine-red-3",), "2": ("Q5-mine-red-1",), "3": ("Q5-mine-red-2",)}


def test_a_fan_of_tilts_spreads_evenly_from_first_to_last() -> None:
    model = model_of("cue 1 at 0:30.0 comet-gold at Q1..Q5 tilt -20 .. 20 deg")
    assert [model.devices[f"Q{n}-comet-gold-1"].tilt_deg for n in range(1, 6)] == [-20, -10, 0, 10, 20]


def test_several_at_one_place_are_one_circuit_and_how_they_are_wired_must_be_said() -> None:
    plan = plan_of(BASE + "cue 1 at 0:30.0 shell-75 at Q5 count 3 in series")
    assert circuit(plan, "Q5-shell-75-1")["topology"] == "series"
    assert len(circuit(plan, "Q5-shell-75-1")["matches"]) == 3
    assert found(BASE + "cue 1 at 0:30.0 shell-75 at Q5 count 3") == [("missing-property", 9)]


def test_the_matches_of_a_falls_sit_in_the_middle_of_their_groups() -> None:
    model = model_of("falls C of silver-gerb at Q5 { count 30 every 1.1 m; matches 10; key }")
    xs = [model.match_uses[f"C.{n}"].x_m for n in range(1, 11)]
    gerbs = [(gerb - 1 - 14.5) * 1.1 for gerb in (2, 5, 8, 11, 14, 17, 20, 23, 26, 29)]
    assert xs == pytest.approx(gerbs)


def test_a_falls_between_two_positions_hangs_along_the_line_between_them() -> None:
    model = model_of(
        "position W at 0 m, 0 m, 10 m\nposition E at 0 m, 40 m, 10 m\n"
        "falls C of silver-gerb from W to E { count 3 every 10 m; matches 3 }"
    )
    assert [model.match_uses[f"C.{n}"].y_m for n in (1, 2, 3)] == pytest.approx([10, 20, 30])
    assert {model.match_uses[f"C.{n}"].z_m for n in (1, 2, 3)} == {10.0}


def test_odd_and_even_matches_are_wired_as_said_and_spaced_as_they_hang() -> None:
    model = model_of(
        "falls C of silver-gerb at Q5 { count 30 every 1.1 m; matches 10 }\n"
        "circuit L on A.1 { lead 52 m of zip-14 to C.5; parallel C.odd }\ncircuit M on B.1 { lead 52 m; series C.even }"
    )
    wiring = model.circuits["L"].wiring
    assert wiring.members == ("C.1", "C.3", "C.5", "C.7", "C.9")
    assert (wiring.how, wiring.feed_at) == ("parallel", "C.5")
    assert wiring.spacing.length_m == pytest.approx(6.6)
    assert model.circuits["M"].wiring.members == ("C.2", "C.4", "C.6", "C.8", "C.10")


def test_nested_groups_keep_their_wiring_order() -> None:
    plan = plan_of(
        BASE + "device D1..D4 of mine-red at Q5\n"
        "circuit N on A.1 { lead 20 m; parallel { series D1, D2; series D3, D4 } }\ncue 1 at 0:10.0 N"
    )
    one = circuit(plan, "N")
    assert one["topology"] == "mixed"
    assert [m["name"] for m in one["matches"]] == ["D1", "D2", "D3", "D4"]


def test_a_device_that_no_circuit_wires_gets_one_of_its_own_name() -> None:
    model = model_of("device Maroon-1 of shell-75 at Q5\ncue 1 at 0:30.0 Maroon-1")
    assert "Maroon-1" in model.circuits
    assert model.cues[0].circuits == ("Maroon-1",)


def test_a_cue_on_a_device_fires_the_circuit_that_wires_it() -> None:
    model = model_of(
        "device D1, D2 of mine-red at Q5\ncircuit N on A.1 { lead 20 m; series D1, D2 }\ncue 1 at 0:30.0 D1"
    )
    assert model.cues[0].circuits == ("N",)


def test_a_bind_fixes_the_channel_and_lead_of_a_circuit_that_a_line_made() -> None:
    plan = plan_of(BASE + "cue 1 at 0:30.0 mine-red at Q5\nbind Q5-mine-red-1 to B.7 lead 41 m")
    one = circuit(plan, "Q5-mine-red-1")
    assert (one["rail"], one["channel"], one["bound"]) == ("B", 7, True)
    assert next(e for e in one["elements"] if e["what"] == "lead")["length_m"] == 41


def test_a_lead_that_is_not_said_runs_along_the_axes_with_slack() -> None:
    plan = plan_of(BASE + "cue 1 at 0:30.0 mine-red at Q1")
    lead = next(e for e in circuit(plan, "Q1-mine-red-1")["elements"] if e["what"] == "lead")
    assert lead["length_m"] == pytest.approx(2 + 20 * 1.1)
    assert lead["part"] == "zip-18"


def test_the_nearest_rail_that_serves_the_place_is_taken_and_spare_channels_stay_free() -> None:
    text = "rail C of dc-8 at Q5 { feed Pack-1 through 3 m of trunk-2.5; serves Q5; spare 6 }\n"
    plan = plan_of(BASE + text + "".join(f"cue {n} at 0:{10 + n}.0 mine-red at Q5\n" for n in range(1, 5)))
    rails = [circuit(plan, f"Q5-mine-red-{n}")["rail"] for n in range(1, 5)]
    assert rails == ["C", "C", "A", "A"]


def test_spare_channels_are_a_tenth_and_at_least_two() -> None:
    model = model_of("")
    assert spare_of(model, model.rails["A"]) == 4  # a tenth of 32, rounded up


@pytest.mark.parametrize(
    ("time", "tick", "fired"),
    [(1.234, 0.01, 1.23), (1.235, 0.01, 1.24), (-1.235, 0.01, -1.24), (0.005, 0.01, 0.01), (3.0, 0.04, 3.0), (3.02, 0.04, 3.04)],
)
def test_firing_times_are_rounded_to_the_tick_half_away_from_zero(time: float, tick: float, fired: float) -> None:
    assert to_tick(time, tick) == pytest.approx(fired, abs=1e-9)


def test_a_used_file_is_read_once_and_relative_to_the_one_that_says_so() -> None:
    result = compiled(
        'use "parts/a.show"\nuse "parts/b.show"\n' + BASE,
        parts__a_show='use "b.show"\neffect glow { kind fountain }', parts__b_show="effect shine { kind fountain }",
    )  # fmt: skip
    assert {"glow", "shine"} <= set(result.solved.model.effects)
    assert not [f for f in result.findings if f.severity == "error"]


@pytest.mark.parametrize("path", ["../x.show", "/etc/x.show", "parts/../../x.show", "C:/x.show", ""])
def test_a_file_outside_the_shows_folder_is_never_read(path: str) -> None:
    assert found(f'use "{path}"\n' + BASE) == [("use-outside", 1)]


def test_files_that_use_each_other_are_told_as_a_circle() -> None:
    result = compiled('use "a.show"\n' + BASE, a_show='use "b.show"', b_show='use "a.show"')
    cycle = next(f for f in result.findings if f.rule == "use-cycle")
    assert "a.show → b.show → a.show" in cycle.headline


def test_what_a_broken_statement_names_is_no_second_finding() -> None:
    text = BASE + "device D1, D2 of mine-red at Q5\ncircuit N on A.1 { lead 20 q; series D1, D2 }\ncue 1 at 0:30.0 N\n"
    assert found(text) == [("unknown-unit", 10)]


def test_a_cue_that_cannot_be_read_does_not_make_its_circuit_unfired() -> None:
    text = BASE + "device D1 of mine-red at Q5\ncue 1 at 0:3 D1\n"
    assert found(text) == [("bad-time", 10)]


def test_a_broken_supply_is_one_finding_not_one_for_all_behind_it() -> None:
    text = BASE.replace("supply Pack-1 of lead-acid-24", "supply Pack-1 of lead-acid-2") + "cue 1 at 0:30.0 mine-red at Q1\n"
    assert [rule for rule, _ in found(text)] == ["unknown-name"]


def test_an_unread_file_hides_only_what_it_may_have_declared() -> None:
    text = 'use "gone.show"\n' + BASE + "cue 1 at 0:30.0 glow at Q5\n"
    assert found(text) == [("use-missing", 1)]


STATEMENTS = [
    "falls C of silver-gerb at Q5 { count 9 every 1.1 m; matches 3 }",
    "circuit L on A.1 { lead 40 m of zip-14; series C }",
    "cue 1 at 0:30.0 L",
    "cue 2 at 0:31.0 mine-red at Q1..Q3 every 200 ms",
    "cue 3 at 0:31.0 mine-red at Q2",
    'note "Mind the step" for A',
    "script S from 1:00 numbered 50 {\n+0:02.0 comet-gold at Q4\n+0:02.0 comet-gold at Q3\n+0:01.0 shell-75 at Q2\n}",
    "effect glow { kind fountain; prefire 0.5 s }",
    "cue 4 at 0:40.0 glow at Q9, Q8",
]


@pytest.mark.parametrize("seed", range(8))
def test_the_order_of_statements_changes_nothing(seed: int) -> None:
    statements = [line for line in BASE.splitlines() if line] + STATEMENTS
    plan = plan_of("\n".join(statements))
    random.Random(seed).shuffle(statements)
    assert plan_of("\n".join(statements))["fingerprint"] == plan["fingerprint"]


def test_a_shifted_line_keeps_the_fingerprint_and_a_changed_number_does_not() -> None:
    text = BASE + "cue 1 at 0:30.0 mine-red at Q1\n"
    plain = plan_of(text)["fingerprint"]
    assert plan_of("\n\n# moved\n" + text)["fingerprint"] == plain
    assert plan_of(text.replace("0:30.0", "0:30.5"))["fingerprint"] != plain


def test_prefires_of_a_circuit_span_those_of_what_it_lights() -> None:
    model = model_of("device D1 of shell-75 at Q5\ncue 1 at 0:30.0 D1")
    assert model.cues[0].prefire_s == model.effects["shell-75"].prefire_s
    assert isinstance(model.cues[0].prefire_s, Given)


def test_a_circuit_is_alive_from_jitter_before_to_the_longest_pulse_and_jitter_after() -> None:
    text = "module odd like dc-8 { pulse 100 ms +- 5 ms; jitter 3 ms }\nrail O of odd at Q5 { feed Pack-1 through 3 m of trunk-2.5; serves Q5 }\n"
    schedule = compiled(BASE + text + "cue 1 lit at 0:10 mine-red at Q5").solved.schedule
    (alive,) = schedule.alive
    assert (alive.from_us, alive.fired_us, alive.to_us) == (9_997_000, 10_000_000, 10_108_000)


def test_a_cue_on_two_rails_is_fired_on_the_coarser_tick() -> None:
    text = (
        "module coarse like dc-8 { tick 100 ms }\nrail O of coarse at Q5 { feed Pack-1 through 3 m of trunk-2.5; serves Q5 }\n"
        "cue 1 lit at 0:10.14 mine-red at Q5, Q1\n"
    )
    assert plan_of(BASE + text)["cues"][0]["fired_s"] == 10.1


def test_a_rail_that_prefers_a_place_comes_before_a_nearer_one() -> None:
    text = "rail C of dc-8 at Q9 { feed Pack-2 through 3 m of trunk-2.5; prefers Q3 }\ncue 1 at 0:10 mine-red at Q3"
    assert circuit(plan_of(BASE + text), "Q3-mine-red-1")["rail"] == "C"


def test_channels_are_given_in_the_order_of_firing_not_of_names() -> None:
    plan = plan_of(BASE + "cue 1 at 0:20 mine-red at Q1\ncue 2 at 0:10 mine-red at Q2\ncue 3 at 0:30 comet-gold at Q1")
    assert [circuit(plan, name)["channel"] for name in ("Q2-mine-red-1", "Q1-mine-red-1", "Q1-comet-gold-1")] == [1, 2, 3]


def test_a_lead_along_the_axes_climbs_too_and_a_straight_one_cuts_the_corner() -> None:
    text = "position Top at -20 m, 3 m, 12 m\ncue 1 at 0:10 mine-red at Top"
    for route, way in (("along-axes", 15.0), ("straight", (3**2 + 12**2) ** 0.5)):
        base = BASE.replace("lead zip-18", f"lead zip-18; route {route}")
        lead = next(e for e in circuit(plan_of(base + text), "Top-mine-red-1")["elements"] if e["what"] == "lead")
        assert lead["length_m"] == pytest.approx(2 + way * 1.1)
