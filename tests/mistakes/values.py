"""Mistakes with values: units, dimensions, numbers, times, properties, limits."""

from __future__ import annotations

from .draft import BATTERY, MATCH, MODULE, Expected, Plot
from .planter import Planter


def a_misspelt_property(p: Plot) -> list[Expected]:
    right, wrong = p.rng.choice((("spare", "spair"), ("feed", "fed")))
    p.rail.swap(right, wrong)
    return [Expected("unknown-property", p.rail)]


def a_property_of_another_kind(p: Plot) -> list[Expected]:
    line = p.part("battery " + p.name("own"), **BATTERY, recovery="20 ms")
    return [Expected("unknown-property", line, 7)]


def a_property_said_twice(p: Plot) -> list[Expected]:
    p.rail.swap("spare 2", "spare 2; spare 3")
    return [Expected("duplicate-property", p.rail)]


def a_cable_with_two_sizes(p: Plot) -> list[Expected]:
    line = p.part("cable " + p.name("own"), gauge="18 awg", area="0.75 mm2", limit="10 A")
    return [Expected("duplicate-property", line)]


def a_channel_said_twice(p: Plot) -> list[Expected]:
    line = p.add(f"bind Row{p.k} to Rail{p.k}.9")
    return [Expected("duplicate-property", line)]


def another_dimension(p: Plot) -> list[Expected]:
    part, key, wrong = p.rng.choice((
        ("match", "bridge", "1.6 m"), ("match", "alone", "0.6 ohm"), ("match", "function", "10 m"), ("match", "impulse", "3 A"),
        ("module", "pulse", "100 mA"), ("module", "driver", "1.5 V"), ("module", "reach", "120 s"), ("module", "channel_limit", "25 ohm"),
        ("battery", "voltage", "24 A"), ("battery", "fuse", "125 ohm"), ("battery", "inner", "0.1 V"),
    ))  # fmt: skip
    stock = {"match": MATCH, "module": MODULE, "battery": BATTERY}[part]
    line = p.part(f"{part} {p.name('own')}", **stock | {key: wrong})
    return [Expected("wrong-dimension", line, 1 + list(stock).index(key))]


def another_dimension_on_a_line(p: Plot) -> list[Expected]:
    line, right, wrong = p.rng.choice((
        (p.rail, "5 m", "5 ohm"), (p.places, "10 m", "10 s"), (p.circuit, "2 m", "2 ohm"),
    ))  # fmt: skip
    line.text = line.text.replace(f"every {right}", f"every {wrong}").replace(f"through {right}", f"through {wrong}").replace(
        f"spaced {right}", f"spaced {wrong}")  # fmt: skip
    return [Expected("wrong-dimension", line)]


def a_temperature_difference_for_a_temperature(p: Plot) -> list[Expected]:
    p.draft.head.swap("30 degC", "30 K")
    return [Expected("wrong-dimension", p.draft.head, 3)]


def no_unit(p: Plot) -> list[Expected]:
    line, right, wrong = p.rng.choice((
        (p.rail, "5 m of", "5 of"), (p.places, "every 10 m", "every 10"), (p.circuit, "2 m of", "2 of"), (p.places, f"{p.k * 200} m,", f"{p.k * 200},"),
    ))  # fmt: skip
    line.swap(right, wrong)
    return [Expected("missing-unit", line)]


def no_unit_in_a_part(p: Plot) -> list[Expected]:
    key, wrong = p.rng.choice((("bridge", "1.6"), ("alone", "0.6"), ("impulse", "0.8 .. 3"), ("function", "10")))
    line = p.part("match " + p.name("own"), **MATCH | {key: wrong})
    return [Expected("missing-unit", line, 1 + list(MATCH).index(key))]


def a_unit_that_is_none(p: Plot) -> list[Expected]:
    line, right, wrong = p.rng.choice((
        (p.rail, "5 m of", "5 metrs of"), (p.places, "every 10 m", "every 10 Meter"), (p.circuit, "2 m of", "2 qm of"),
    ))  # fmt: skip
    line.swap(right, wrong)
    return [Expected("unknown-unit", line)]


def a_count_that_is_not_whole(p: Plot) -> list[Expected]:
    p.rail.swap("spare 2", p.rng.choice(("spare 2.5", "spare -2", "spare 2e1")))
    return [Expected("bad-number", p.rail)]


def a_number_beyond_all_measure(p: Plot) -> list[Expected]:
    line = p.part("match " + p.name("own"), **MATCH | {"bridge": "1e999 ohm"})
    return [Expected("bad-number", line, 1)]


def a_share_beyond_all_measure(p: Plot) -> list[Expected]:
    line = p.add("limits { copper-high 1e999 % }")
    return [Expected("bad-number", line)]


def a_cue_numbered_in_halves(p: Plot) -> list[Expected]:
    line = p.add(f"cue {p.k}30.5 at {p.at(30.0)} our-comet at Yard{p.k}-3")
    return [Expected("bad-number", line)]


def a_time_that_is_none(p: Plot) -> list[Expected]:
    p.comet.swap(p.at(2.0), p.rng.choice((f"{p.k}:75.0", f"{p.k}:2", f"{p.k}:02.1234567", f"+{p.k}:02.0", "00:00:02:10")))
    return [Expected("bad-time", p.comet)]


def an_offset_that_is_none(p: Plot) -> list[Expected]:
    line = p.add(f"script {p.name('Scene')} from {p.at(20.0)} {{\n    +0:75.0 our-mine at Yard{p.k}-3\n}}")
    return [Expected("bad-time", line, 1)]


def a_day_that_is_none(p: Plot) -> list[Expected]:
    p.draft.head.swap("2027-06-19", "2027-06-31")
    return [Expected("bad-time", p.draft.head, 2)]


def a_word_without_its_value(p: Plot) -> list[Expected]:
    line, right, wrong = p.rng.choice((
        (p.rail, "spare 2", "spare"), (p.places, " every 10 m", " every"), (p.mine, f" on Rail{p.k}.5", " on"),
    ))  # fmt: skip
    line.swap(right, wrong)
    return [Expected("missing-value", line)]


def legs_without_wire(p: Plot) -> list[Expected]:
    line = p.part("match " + p.name("own"), **MATCH | {"legs": "3 m"})
    return [Expected("missing-value", line, 2)]


def a_word_that_is_no_choice(p: Plot) -> list[Expected]:
    line = p.part("effect " + p.name("own"), kind=p.rng.choice(("comit", "rocket", "Shell")), match="our-match")
    return [Expected("unexpected-value", line, 1)]


def a_number_where_a_word_is_due(p: Plot) -> list[Expected]:
    line = p.part("cable " + p.name("own"), gauge="18 awg", metal="12")
    return [Expected("unexpected-value", line, 2)]


def a_value_too_many(p: Plot) -> list[Expected]:
    p.rail.swap("spare 2", "spare 2 3")
    return [Expected("unexpected-value", p.rail)]


def a_decimal_comma(p: Plot) -> list[Expected]:
    line = p.add(f"position Shed{p.k} at {p.k * 200} m, 60 m, 1 m, 5 m")
    return [Expected("unexpected-value", line)]


def a_block_where_none_belongs(p: Plot) -> list[Expected]:
    p.comet.text += " { tilt 5 deg }"
    return [Expected("unexpected-value", p.comet)]


def a_thing_without_its_place(p: Plot) -> list[Expected]:
    k = p.k
    line, tail = p.rng.choice(((p.supply, f" at Yard{k}-1"), (p.rail, f" at Yard{k}-1"), (p.comet, f" at Yard{k}-3"), (p.gerbs, f" at Yard{k}-2")))
    line.swap(tail, "")
    return [Expected("missing-property", line)]


def a_thing_without_its_kind(p: Plot) -> list[Expected]:
    line, of = p.rng.choice(((p.supply, " of lead-acid-24"), (p.rail, " of dc-16"), (p.gerbs, " of our-gerb")))
    line.swap(of, "")
    return [Expected("missing-property", line)]


def several_that_say_not_how(p: Plot) -> list[Expected]:
    line = p.cue(30, 30.0, f"our-comet at Yard{p.k}-3 count 3")
    return [Expected("missing-property", line)]


def a_cue_without_a_time(p: Plot) -> list[Expected]:
    line = p.add(f"cue {p.k}30 our-comet at Yard{p.k}-3")
    return [Expected("missing-property", line)]


def a_value_that_cannot_be(p: Plot) -> list[Expected]:
    part, key, wrong = p.rng.choice((
        ("match", "bridge", "-1.6 ohm"), ("match", "bridge", "1.6 ohm +- 2 ohm"), ("module", "channels", "0"), ("module", "drop", "200 V"),
        ("module", "tick", "15 s"), ("battery", "voltage", "24 kV"), ("battery", "voltage", "21 .. 29 V nominal 12 V"),
        ("module", "at_once", "0"),
    ))  # fmt: skip
    stock = {"match": MATCH, "module": MODULE, "battery": BATTERY}[part]
    line = p.part(f"{part} {p.name('own')}", **stock | {key: wrong})
    return [Expected("out-of-range", line, 1 + list(stock).index(key))]


def a_feed_of_negative_length(p: Plot) -> list[Expected]:
    p.rail.swap("5 m", "-5 m")
    return [Expected("out-of-range", p.rail)]


def a_line_after_its_script_ends(p: Plot) -> list[Expected]:
    line = p.add(f"script {p.name('Scene')} from {p.at(20.0)} to {p.at(25.0)} {{\n    +0:01.0 our-mine at Yard{p.k}-3\n"
                 f"    +0:06.0 our-mine at Yard{p.k}-3\n}}")  # fmt: skip
    return [Expected("out-of-range", line, 2)]


def more_matches_than_gerbs(p: Plot) -> list[Expected]:
    line = p.add(f"falls Fall{p.k} of our-gerb at Yard{p.k}-3 {{ count 3 every 1 m; matches 4 }}")
    return [Expected("out-of-range", line)]


def a_limit_loosened_without_a_name(p: Plot) -> list[Expected]:
    what = p.rng.choice(("margin 1.2", "chase-step 3 s", "spare-least 1", "sun-heating 10 K", 'margin 1.2 because "the crew knows"'))
    line = p.add(f"limits {{ {what} }}")
    return [Expected("limit-loosened", line)]


def a_test_current_loosened_by_somebody(p: Plot) -> list[Expected]:
    line = p.add('limits { test-current 40 mA because "an old meter" by "the lead" }')
    return [Expected("limit-loosened", line)]


def a_limit_that_does_not_exist(p: Plot) -> list[Expected]:
    line = p.add(f"limits {{ {p.rng.choice(('margins 2', 'testcurrent 20 mA', 'chase 1 s'))} }}")
    return [Expected("unknown-property", line)]


def rules_that_do_not_exist(p: Plot) -> list[Expected]:
    p.draft.head.swap("    revision 1", '    revision 1\n    rules "strickt"')
    return [Expected("unknown-rules", p.draft.head, 2)]


def a_rule_set_like_none(p: Plot) -> list[Expected]:
    line = p.add('ruleset "harbour" like "stict" { margin 2 }')
    p.draft.head.swap("    revision 1", '    revision 1; rules "harbour"')
    return [Expected("unknown-rules", line)]


PLANTERS = (
    Planter("unknown-property", a_misspelt_property),
    Planter("unknown-property", a_property_of_another_kind),
    Planter("duplicate-property", a_property_said_twice),
    Planter("duplicate-property", a_cable_with_two_sizes),
    Planter("duplicate-property", a_channel_said_twice),
    *(Planter("wrong-dimension", another_dimension) for _ in range(2)),
    Planter("wrong-dimension", another_dimension_on_a_line),
    Planter("wrong-dimension", a_temperature_difference_for_a_temperature, "head"),
    Planter("missing-unit", no_unit),
    Planter("missing-unit", no_unit_in_a_part),
    Planter("unknown-unit", a_unit_that_is_none),
    Planter("bad-number", a_count_that_is_not_whole),
    Planter("bad-number", a_number_beyond_all_measure),
    Planter("bad-number", a_share_beyond_all_measure, "limits"),
    Planter("bad-number", a_cue_numbered_in_halves),
    Planter("bad-time", a_time_that_is_none),
    Planter("bad-time", an_offset_that_is_none),
    Planter("bad-time", a_day_that_is_none, "head"),
    Planter("missing-value", a_word_without_its_value),
    Planter("missing-value", legs_without_wire),
    Planter("unexpected-value", a_word_that_is_no_choice),
    Planter("unexpected-value", a_number_where_a_word_is_due),
    Planter("unexpected-value", a_value_too_many),
    Planter("unexpected-value", a_decimal_comma),
    Planter("unexpected-value", a_block_where_none_belongs),
    Planter("missing-property", a_thing_without_its_place),
    Planter("missing-property", a_thing_without_its_kind),
    Planter("missing-property", several_that_say_not_how),
    Planter("missing-property", a_cue_without_a_time),
    *(Planter("out-of-range", a_value_that_cannot_be) for _ in range(2)),
    Planter("out-of-range", a_feed_of_negative_length),
    Planter("out-of-range", a_line_after_its_script_ends),
    Planter("out-of-range", more_matches_than_gerbs),
    Planter("limit-loosened", a_limit_loosened_without_a_name, "limits"),
    Planter("limit-loosened", a_test_current_loosened_by_somebody, "limits"),
    Planter("unknown-property", a_limit_that_does_not_exist, "limits"),
    Planter("unknown-rules", rules_that_do_not_exist, "head"),
    Planter("unknown-rules", a_rule_set_like_none, "head"),
)
