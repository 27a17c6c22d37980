"""Too much or too little current, too much test current, too little impulse."""

from __future__ import annotations

from .bench import bench
from .draft import Expected, Plot
from .planter import Planter


def too_many_channels_at_once(p: Plot) -> list[Expected]:
    made = bench(p, module={"at_once": "2"})
    made.devices.text += f"\ndevice Pot{p.k}-3..Pot{p.k}-4 of pot{p.k} at Yard{p.k}-2"
    for number in (3, 4):
        made.circuit.text += f"\ncircuit Pots{p.k}-{number} on Deck{p.k}.{number} {{ lead 25 m of zip-18; series Pot{p.k}-{number} }}"
    made.cue.text += f", Pots{p.k}-3, Pots{p.k}-4"
    return [Expected("too-many-at-once", made.rail)]


def a_test_that_is_too_strong(p: Plot) -> list[Expected]:
    change = p.rng.choice(({"test_current": "40 mA"}, {"test_current": None, "test_resistor": "500 ohm"}))
    made = bench(p, module=change)
    return [Expected("test-current", made.rail)]


def a_test_too_strong_for_its_match(p: Plot) -> list[Expected]:
    made = bench(p, match={"no_fire": "30 mA"})
    return [Expected("test-current", made.rail)]


def a_test_that_one_part_makes_safe(p: Plot) -> list[Expected]:
    made = bench(p, module={"test_fault": p.rng.choice(("200 mA", "51 mA"))})
    return [Expected("test-fault", made.rail)]


def a_test_fault_that_is_not_stated(p: Plot) -> list[Expected]:
    made = bench(p, module={"test_fault": None})
    return [Expected("test-fault", made.rail)]


def a_channel_that_carries_too_much(p: Plot) -> list[Expected]:
    made = bench(p, module={"channel_limit": "3 A"})
    return [Expected("channel-overload", made.circuit)]


def a_row_in_parallel_on_a_weak_channel(p: Plot) -> list[Expected]:
    made = bench(p, module={"channel_limit": "14 A"}, battery={"voltage": "42 .. 58.8 V"}, wires="parallel {a}, {b}")
    return [Expected("channel-overload", made.circuit)]


def a_driver_that_stands_no_short(p: Plot) -> list[Expected]:
    made = bench(p, module={"channel_limit": "8 A"})
    return [Expected("driver-short", made.circuit)]


def a_rail_that_carries_too_much(p: Plot) -> list[Expected]:
    made = bench(p, module={"rail_limit": "9 A"})
    return [Expected("rail-overload", made.rail)]


def a_feed_too_thin(p: Plot) -> list[Expected]:
    made = bench(p, feed="3 m of bell-24")
    return [Expected("feed-overload", made.rail)]


def a_supply_that_gives_too_much(p: Plot) -> list[Expected]:
    made = bench(p, battery={"limit": "9 A"})
    return [Expected("supply-overload", made.supply)]


def a_fuse_too_small(p: Plot) -> list[Expected]:
    made = bench(p, battery={"fuse": "9 A"})
    return [Expected("fuse-overload", made.supply)]


def a_lead_too_thin(p: Plot) -> list[Expected]:
    made = bench(p, lead="100 m of bell-24")
    return [Expected("firing-current", made.circuit)]


def too_many_side_by_side(p: Plot) -> list[Expected]:
    made = bench(p, wires="parallel {all}", count=8)
    return [Expected("firing-current", made.circuit)]


def a_match_that_asks_for_more(p: Plot) -> list[Expected]:
    made = bench(p, match={"series": "4 A"})
    return [Expected("firing-current", made.circuit)]


def a_battery_too_low(p: Plot) -> list[Expected]:
    made = bench(p, battery={"voltage": "8.5 .. 16 V nominal 12 V"})
    return [Expected("firing-current", made.circuit)]


def a_match_that_asks_for_more_impulse(p: Plot) -> list[Expected]:
    made = bench(p, match={"impulse": "8 .. 900 A2ms"})
    return [Expected("firing-impulse", made.circuit)]


def a_pulse_too_short(p: Plot) -> list[Expected]:
    made = bench(p, module={"pulse": "0.2 ms"})
    return [Expected("firing-impulse", made.circuit)]


def a_string_too_long_for_the_module(p: Plot) -> list[Expected]:
    made = bench(p, module={"circuit": "0.5 .. 3 ohm"})
    return [Expected("circuit-resistance", made.circuit)]


def a_line_too_short_for_the_module(p: Plot) -> list[Expected]:
    made = bench(p, module={"circuit": "20 .. 60 ohm"})
    return [Expected("circuit-resistance", made.circuit)]


PLANTERS = (
    Planter("too-many-at-once", too_many_channels_at_once),
    Planter("test-current", a_test_that_is_too_strong),
    Planter("test-current", a_test_too_strong_for_its_match),
    Planter("test-fault", a_test_that_one_part_makes_safe),
    Planter("test-fault", a_test_fault_that_is_not_stated),
    Planter("channel-overload", a_channel_that_carries_too_much),
    Planter("channel-overload", a_row_in_parallel_on_a_weak_channel),
    Planter("driver-short", a_driver_that_stands_no_short),
    Planter("rail-overload", a_rail_that_carries_too_much),
    Planter("feed-overload", a_feed_too_thin),
    Planter("supply-overload", a_supply_that_gives_too_much),
    Planter("fuse-overload", a_fuse_too_small),
    Planter("firing-current", a_lead_too_thin),
    Planter("firing-current", too_many_side_by_side),
    Planter("firing-current", a_match_that_asks_for_more),
    Planter("firing-current", a_battery_too_low),
    Planter("firing-impulse", a_match_that_asks_for_more_impulse),
    Planter("firing-impulse", a_pulse_too_short),
    Planter("circuit-resistance", a_string_too_long_for_the_module),
    Planter("circuit-resistance", a_line_too_short_for_the_module),
)
