"""Mistakes of wiring and of time: what hangs where, what is fired when."""

from __future__ import annotations

from .bench import bench
from .draft import Expected, Plot
from .planter import Planter


def a_rail_that_nothing_feeds(p: Plot) -> list[Expected]:
    line = p.add(f"rail Bus{p.k} of dc-16 at Yard{p.k}-1 {{ serves Yard{p.k}-1 }}")
    return [Expected("rail-unfed", line)]


def a_wired_rail_that_nothing_feeds(p: Plot) -> list[Expected]:
    made = bench(p)
    made.rail.swap(f"feed Bank{p.k} through 5 m of trunk-4; ", "")
    return [Expected("rail-unfed", made.rail)]


def rails_that_feed_each_other(p: Plot) -> list[Expected]:
    k = p.k
    line = p.add(f"rail Bus{k}-1 of dc-16 at Yard{k}-1 {{ feed Bus{k}-2 through 3 m of trunk-4; serves Yard{k}-1 }}\n"
                 f"rail Bus{k}-2 of dc-16 at Yard{k}-2 {{ feed Bus{k}-1 through 3 m of trunk-4; serves Yard{k}-1 }}")  # fmt: skip
    return [Expected("feed-cycle", line)]


def a_match_on_two_circuits(p: Plot) -> list[Expected]:
    k = p.k
    p.circuit.text += (f"\ndevice Spark{k} of our-gerb at Yard{k}-2\n"
                       f"circuit Spark{k}-A on Rail{k}.8 {{ lead 25 m of zip-18; series Gerb{k}-2, Spark{k} }}")  # fmt: skip
    p.cue(30, 30.0, f"Spark{k}-A")
    return [Expected("match-wired-twice", p.circuit, 2)]


def a_match_twice_on_one_circuit(p: Plot) -> list[Expected]:
    p.circuit.swap(f"Gerb{p.k}-1..Gerb{p.k}-2", f"Gerb{p.k}-1, Gerb{p.k}-2, Gerb{p.k}-1")
    return [Expected("match-wired-twice", p.circuit)]


def a_match_left_out_of_a_row(p: Plot) -> list[Expected]:
    k = p.k
    line = p.add(f"falls Fall{k} of our-gerb at Yard{k}-3 {{ count 8 every 1 m; matches 4 }}\n"
                 f"circuit Fall{k}-A {{ lead 30 m of zip-16; series Fall{k}.1..3 }}")  # fmt: skip
    p.cue(30, 30.0, f"Fall{k}-A")
    return [Expected("match-unwired", line)]


def a_row_that_nothing_wires(p: Plot) -> list[Expected]:
    line = p.add(f"falls Fall{p.k} of our-gerb at Yard{p.k}-3 {{ count 8 every 1 m; matches 4 }}")
    return [Expected("match-unwired", line)]


def a_cue_for_what_nothing_wires(p: Plot) -> list[Expected]:
    p.add(f"falls Fall{p.k} of our-gerb at Yard{p.k}-3 {{ count 8 every 1 m; matches 4 }}")
    line = p.cue(30, 30.0, f'Fall{p.k} "nothing wires it"')
    return [Expected("cue-unwired", line)]


def two_types_on_one_circuit(p: Plot) -> list[Expected]:
    made = bench(p)
    made.devices.text += f"\ndevice Odd{p.k} of our-gerb at Yard{p.k}-2"
    made.circuit.swap(f"Pot{p.k}-2", f"Pot{p.k}-2, Odd{p.k}")
    return [Expected("mixed-matches", made.circuit)]


def a_channel_that_the_rail_does_not_have(p: Plot) -> list[Expected]:
    line = p.rng.choice((p.circuit, p.mine))
    line.swap(f"Rail{p.k}.{1 if line is p.circuit else 5}", f"Rail{p.k}.{p.rng.choice((0, 17, 40))}")
    return [Expected("channel-unknown", line)]


def a_circuit_bound_to_no_channel(p: Plot) -> list[Expected]:
    line = p.add(f"bind Yard{p.k}-3-our-comet-1 to Rail{p.k}.17")
    return [Expected("channel-unknown", line)]


def two_circuits_on_one_channel(p: Plot) -> list[Expected]:
    p.mine.swap(f"Rail{p.k}.5", f"Rail{p.k}.1")
    return [Expected("channel-used-twice", p.mine)]


def a_place_that_no_rail_serves(p: Plot) -> list[Expected]:
    p.add(f"position Shed{p.k} at {p.k * 200} m, 40 m")
    line = p.cue(30, 30.0, f"our-comet at Shed{p.k}")
    return [Expected("no-free-channel", line)]


def a_rail_that_is_full(p: Plot) -> list[Expected]:
    p.rail.swap("spare 2", "spare 16")
    p.comet.text += f" on Rail{p.k}.2"
    return [Expected("no-free-channel", p.shell)]


def a_lead_that_ends_short(p: Plot) -> list[Expected]:
    p.circuit.swap("lead 25 m" if "25 m" in p.circuit.text else "lead 80 ft", p.rng.choice(("lead 9 m", "lead 20 ft")))
    return [Expected("lead-out-of-reach", p.circuit)]


def a_lead_beyond_the_reach(p: Plot) -> list[Expected]:
    made = bench(p, lead="150 m of zip-14")
    return [Expected("lead-out-of-reach", made.circuit)]


def a_laid_out_lead_beyond_the_reach(p: Plot) -> list[Expected]:
    p.add(f"position Hill{p.k} at {p.k * 200} m, 118 m")
    p.rail.swap(f"Yard{p.k}-4;", f"Yard{p.k}-4, Hill{p.k};")
    line = p.cue(30, 30.0, f"our-comet at Hill{p.k} lead of zip-14")
    return [Expected("lead-out-of-reach", line)]


def a_key_effect_on_one_rail(p: Plot) -> list[Expected]:
    k = p.k
    line = p.add(f"falls Fall{k} of our-gerb at Yard{k}-3 {{ count 8 every 1 m; matches 4; key }}\n"
                 f"circuit Fall{k}-A on Rail{k}.8 {{ lead 30 m of zip-16; series Fall{k}.odd }}\n"
                 f"circuit Fall{k}-B on Rail{k}.9 {{ lead 30 m of zip-16; series Fall{k}.even }}")  # fmt: skip
    p.cue(30, 30.0, f"Fall{k}-A, Fall{k}-B")
    return [Expected("key-effect-one-feed", line)]


def a_key_device_on_one_line(p: Plot) -> list[Expected]:
    line = p.add(f"device Star{p.k} of our-comet at Yard{p.k}-3 {{ key }}")
    p.cue(30, 30.0, f"Star{p.k}")
    return [Expected("key-effect-one-feed", line)]


def a_circuit_that_no_cue_fires(p: Plot) -> list[Expected]:
    p.draft.lines.remove(p.fire)
    return [Expected("never-fired", p.circuit)]


def a_device_that_no_cue_fires(p: Plot) -> list[Expected]:
    line = p.add(f"device Star{p.k} of our-comet at Yard{p.k}-3")
    return [Expected("never-fired", line)]


def a_circuit_fired_twice(p: Plot) -> list[Expected]:
    line = p.cue(30, 30.0, f"Row{p.k}")
    return [Expected("circuit-fired-twice", line)]


def a_line_pasted_twice(p: Plot) -> list[Expected]:
    line = p.cue(5, 11.0, f"our-shell at Yard{p.k}-4")
    return [Expected("pasted-twice", line)]


def a_chase_that_is_too_quick(p: Plot) -> list[Expected]:
    k = p.k
    for number in (1, 2):  # a rail for each place, so that the step alone is wrong
        p.add(f"position Post{k}-{number} at {k * 200} m, {number * 30} m\n"
              f"rail Bus{k}-{number} of dc-16 at Post{k}-{number} {{ feed Pack{k} through 30 m of trunk-6; serves Post{k}-{number} }}")  # fmt: skip
    line = p.cue(30, 30.0, f"our-comet at Post{k}-1, Post{k}-2 every {p.rng.choice(('5 ms', '9.9 ms'))}")
    return [Expected("chase-step", line)]


def a_chase_that_is_too_slow(p: Plot) -> list[Expected]:
    line = p.cue(30, 30.0, f"our-comet at Yard{p.k}-1..Yard{p.k}-4 every {p.rng.choice(('2.1 s', '3 s', '0.05 min'))}")
    return [Expected("chase-step", line)]


def a_chase_that_the_rail_cannot_follow(p: Plot) -> list[Expected]:
    line = p.cue(30, 30.0, f"our-comet at Yard{p.k}-1..Yard{p.k}-4 every 120 ms")
    return [Expected("rail-recovery", line)]


def a_cue_before_the_rail_has_recovered(p: Plot) -> list[Expected]:
    p.cue(30, 30.0, f"our-comet at Yard{p.k}-3")
    line = p.add(f"cue {p.k}31 at {p.k}:30.12 our-mine at Yard{p.k}-4")
    return [Expected("rail-recovery", line)]


def a_shell_lit_before_zero(p: Plot) -> list[Expected]:
    line = p.add(f"cue {p.k} at 0:02.0 our-shell at Yard{p.k}-4")
    return [Expected("fired-before-zero", line)]


def a_cue_lit_before_zero(p: Plot) -> list[Expected]:
    line = p.add(f"cue {p.k} lit at -0:01.0 our-comet at Yard{p.k}-3")
    return [Expected("fired-before-zero", line)]


PLANTERS = (
    Planter("rail-unfed", a_rail_that_nothing_feeds),
    Planter("rail-unfed", a_wired_rail_that_nothing_feeds),
    Planter("feed-cycle", rails_that_feed_each_other),
    Planter("match-wired-twice", a_match_on_two_circuits),
    Planter("match-wired-twice", a_match_twice_on_one_circuit),
    Planter("match-unwired", a_match_left_out_of_a_row),
    Planter("match-unwired", a_row_that_nothing_wires),
    Planter("cue-unwired", a_cue_for_what_nothing_wires),
    Planter("mixed-matches", two_types_on_one_circuit),
    Planter("channel-unknown", a_channel_that_the_rail_does_not_have),
    Planter("channel-unknown", a_circuit_bound_to_no_channel),
    Planter("channel-used-twice", two_circuits_on_one_channel),
    Planter("no-free-channel", a_place_that_no_rail_serves),
    Planter("no-free-channel", a_rail_that_is_full),
    Planter("lead-out-of-reach", a_lead_that_ends_short),
    Planter("lead-out-of-reach", a_lead_beyond_the_reach),
    Planter("lead-out-of-reach", a_laid_out_lead_beyond_the_reach),
    Planter("key-effect-one-feed", a_key_effect_on_one_rail),
    Planter("key-effect-one-feed", a_key_device_on_one_line),
    Planter("never-fired", a_circuit_that_no_cue_fires),
    Planter("never-fired", a_device_that_no_cue_fires),
    Planter("circuit-fired-twice", a_circuit_fired_twice),
    Planter("pasted-twice", a_line_pasted_twice),
    Planter("chase-step", a_chase_that_is_too_quick),
    Planter("chase-step", a_chase_that_is_too_slow),
    Planter("rail-recovery", a_chase_that_the_rail_cannot_follow),
    Planter("rail-recovery", a_cue_before_the_rail_has_recovered),
    Planter("fired-before-zero", a_shell_lit_before_zero, "numbers"),
    Planter("fired-before-zero", a_cue_lit_before_zero, "numbers"),
)
