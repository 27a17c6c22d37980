"""Data that is not there: what cannot be computed is said, and never passes."""

from __future__ import annotations

from .bench import bench
from .draft import MATCH, Expected, Plot
from .planter import Planter


def a_match_without_its_data(p: Plot) -> list[Expected]:
    made = bench(p, match={p.rng.choice(("bridge", "impulse", "series")): None})
    return [Expected("missing-firing-data", made.match)]


def a_match_without_several_data(p: Plot) -> list[Expected]:
    made = bench(p, match={"bridge": None, "impulse": None, "series": None})
    return [Expected("missing-firing-data", made.match)]


def a_lone_match_without_its_current(p: Plot) -> list[Expected]:
    made = bench(p, match={"alone": None}, wires="series {a}", count=1)
    return [Expected("missing-firing-data", made.match)]


def a_match_without_no_fire(p: Plot) -> list[Expected]:
    made = bench(p, match={"no_fire": None})
    return [Expected("missing-no-fire", made.match)]


def a_module_without_its_data(p: Plot) -> list[Expected]:
    made = bench(p, module={p.rng.choice(("driver", "channel_limit", "rail_limit", "pulse", "recovery", "circuit")): None})
    return [Expected("missing-module-data", made.module)]


def a_trunk_without_a_limit(p: Plot) -> list[Expected]:
    line = p.add(f"cable trunk{p.k} {{ area 2.5 mm2 }}")
    made = bench(p, feed=f"3 m of trunk{p.k}")
    del line
    return [Expected("missing-cable-data", made.rail)]


def a_battery_without_its_data(p: Plot) -> list[Expected]:
    made = bench(p, battery={p.rng.choice(("voltage", "inner", "limit")): None})
    return [Expected("supply-missing-data", made.battery)]


def a_battery_without_a_fuse(p: Plot) -> list[Expected]:
    made = bench(p, battery={"fuse": None})
    return [Expected("fuse-missing", made.battery)]


def a_test_of_unknown_current(p: Plot) -> list[Expected]:
    made = bench(p, module={"test_current": None})
    return [Expected("test-current-unknown", made.module)]


def a_match_of_a_class(p: Plot) -> list[Expected]:
    line = p.cue(30, 30.0, f"comet-gold at Yard{p.k}-3")
    return [Expected("makers-data-missing", line)]


def a_generic_match_of_our_own(p: Plot) -> list[Expected]:
    made = bench(p, match=MATCH | {"generic": ""})
    return [Expected("makers-data-missing", made.circuit)]


def a_supply_below_the_drop(p: Plot) -> list[Expected]:
    made = bench(p, module={"drop": "15 V", "channel_limit": "25 A"}, battery={"voltage": "10.5 .. 14.7 V nominal 12 V"})
    return [Expected("not-computed", made.rail)]


PLANTERS = (
    *(Planter("missing-firing-data", a_match_without_its_data) for _ in range(2)),
    Planter("missing-firing-data", a_match_without_several_data),
    Planter("missing-firing-data", a_lone_match_without_its_current),
    Planter("missing-no-fire", a_match_without_no_fire),
    *(Planter("missing-module-data", a_module_without_its_data) for _ in range(3)),
    Planter("missing-cable-data", a_trunk_without_a_limit),
    *(Planter("supply-missing-data", a_battery_without_its_data) for _ in range(2)),
    Planter("fuse-missing", a_battery_without_a_fuse),
    Planter("test-current-unknown", a_test_of_unknown_current),
    Planter("makers-data-missing", a_match_of_a_class, "generic-match"),
    Planter("makers-data-missing", a_generic_match_of_our_own),
    Planter("not-computed", a_supply_below_the_drop),
)
