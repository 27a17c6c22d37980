"""Mistakes about people and plausibility: holds, crowds, zones, presses, tubes, waivers, values that cannot be meant."""

from __future__ import annotations

from .bench import bench, row
from .draft import BATTERY, Expected, Line, Plot
from .planter import ALONE, Planter

TIDE = "hold and press"
"""A hold or an armed zone beside a press anywhere in the show is told: such planters never meet."""


def stage(p: Plot) -> None:
    """A place with a supply, a rail and a rack that nothing fires by the clock."""
    k = p.k
    p.add(f"position Stage{k} at {k * 200} m, 60 m\nsupply Hand{k} of lead-acid-24 at Stage{k}")
    p.add(f"rail Desk{k} of dc-16 at Stage{k} {{ feed Hand{k} through 5 m of trunk-4; serves Stage{k}; spare 2 }}")
    p.add(f"rack Tubes{k} of 2 tubes 75 mm at Stage{k}")


def hold(p: Plot) -> Line:
    """A hold near the end of the plot's minute."""
    return p.add(f'hold Tide{p.k} from {p.at(45.0)} to {p.at(50.0)} because "a boat passes"')


# --- people ---


def a_comet_inside_a_hold(p: Plot) -> list[Expected]:
    hold(p)
    line = p.cue(45, p.rng.choice((45.0, 47.5)), f"our-comet at Yard{p.k}-3")
    return [Expected("hold-broken", line)]


def a_gerb_that_burns_into_a_hold(p: Plot) -> list[Expected]:
    hold(p)
    line = p.cue(30, 30.0, f"our-gerb at Yard{p.k}-3")
    return [Expected("hold-broken", line)]


def a_shell_that_flies_through_a_hold(p: Plot) -> list[Expected]:
    hold(p)
    line = p.cue(51, 51.0, f"our-shell at Yard{p.k}-4")
    return [Expected("hold-broken", line)]


def a_fountain_of_unknown_length(p: Plot) -> list[Expected]:
    p.add(f"effect mist{p.k} {{ kind fountain; match our-match }}")
    p.cue(30, 30.0, f"mist{p.k} at Yard{p.k}-3")
    return [Expected("burn-unknown", hold(p))]


def a_press_beside_a_hold(p: Plot) -> list[Expected]:
    stage(p)
    hold(p)
    line = p.add(f"cue {p.k}60 by hand our-comet at Stage{p.k}")
    return [Expected("press-unchecked", line)]


def a_press_beside_an_armed_zone(p: Plot) -> list[Expected]:
    stage(p)
    p.add(f"zone West{p.k} {{ rails Rail{p.k}, Rail{p.k + 1}, Desk{p.k}; armed from clock 21:40 }}")
    line = p.add(f"cue {p.k}60 by hand our-comet at Stage{p.k}")
    return [Expected("press-unchecked", line)]


def a_shell_that_has_to_precede_its_press(p: Plot) -> list[Expected]:
    stage(p)
    p.add(f"cue {p.k}60 by hand our-comet at Stage{p.k}")
    line = p.add(f"cue {p.k}61 at {p.rng.choice(('2 s', '500 ms'))} after {p.k}60 our-shell at Stage{p.k}")
    return [Expected("press-early", line)]


def a_press_on_a_supply_of_the_clock(p: Plot) -> list[Expected]:
    p.add(f"cue {p.k}60 by hand our-comet at Yard{p.k}-3")
    return [Expected("hand-overlap", p.supply)]


def two_presses_that_outlast_each_other(p: Plot) -> list[Expected]:
    stage(p)
    k = p.k
    line = p.add(f"supply Torch{k} of lead-acid-24 at Stage{k}")
    p.add(f"rail Lamp{k} of dc-16 at Stage{k} {{ feed Torch{k} through 5 m of trunk-4; serves Stage{k}; spare 2 }}")
    p.add(f"cue {k}60 by hand our-comet at Stage{k} on Lamp{k}.1")
    p.add(f"cue {k}61 at 1.5 s after {k}60 our-comet at Stage{k} on Lamp{k}.2")
    p.add(f"cue {k}62 by hand our-comet at Stage{k} on Lamp{k}.3")
    return [Expected("hand-overlap", line)]


def a_place_beyond_the_crowd_line(p: Plot) -> list[Expected]:
    k = p.k
    p.add(f"crowd Kerb{k} along ({k * 200 - 50} m, -20 m), ({k * 200 + 50} m, -20 m)\nfiring-point Hut{k} at {k * 200} m, -10 m")
    line = p.add(f"position Low{k} at {k * 200} m, {p.rng.choice(('-20 m', '-26 m', '-90 ft'))}")
    p.rail.swap(f"Yard{k}-4;", f"Yard{k}-4, Low{k};")
    p.cue(30, 30.0, f"our-comet at Low{k}")
    return [Expected("crowd-side", line)]


def a_row_that_reaches_over_the_crowd_line(p: Plot) -> list[Expected]:
    k = p.k
    p.add(f"crowd Kerb{k} along ({k * 200 - 50} m, -20 m), ({k * 200 + 50} m, -20 m)\nfiring-point Hut{k} at {k * 200} m, -10 m")
    p.add(f"position Pole{k}-1 at {k * 200} m, -10 m\nposition Pole{k}-2 at {k * 200} m, 4 m")  # its middle is at -3 m
    line = p.add(f"falls Veil{k} of our-gerb from Pole{k}-1 to Pole{k}-2 {{ count 36 every 1 m; matches 2 }}")
    p.add(f"circuit Veil{k}-A {{ lead 40 m of zip-16; series Veil{k}.1..2 }}")
    p.rail.swap(f"Yard{k}-4;", f"Yard{k}-4, Pole{k}-1;")
    p.cue(30, 30.0, f"Veil{k}-A")
    return [Expected("crowd-side", line)]


def a_crowd_line_without_a_firing_point(p: Plot) -> list[Expected]:
    line = p.add(f"crowd Kerb{p.k} along ({p.k * 200 - 50} m, -20 m), ({p.k * 200 + 50} m, -20 m)")
    return [Expected("crowd-side-unknown", line)]


def a_crowd_line_between_two_firing_points(p: Plot) -> list[Expected]:
    k = p.k
    p.add(f"firing-point Hut{k} at {k * 200} m, -10 m\nfiring-point Tent{k} at {k * 200} m, -30 m")
    return a_crowd_line_without_a_firing_point(p)


def a_zone_that_is_armed_late(p: Plot) -> list[Expected]:
    line = p.add(f"zone West {{ rails Rail{p.k}; armed from clock {p.rng.choice(('22:30', '22:02'))} }}")
    p.add(f"zone East {{ rails Rail{p.k + 1} }}")
    return [Expected("zone-late", line)]


def a_rail_in_two_zones(p: Plot) -> list[Expected]:
    p.add(f"zone East {{ rails Rail{p.k}, Rail{p.k + 1} }}")
    line = p.add(f"zone West {{ rails Rail{p.k} }}")
    return [Expected("zone-twice", line)]


def a_rail_in_no_zone(p: Plot) -> list[Expected]:
    p.add(f"zone East {{ rails Rail{p.k + 1} }}")
    return [Expected("zone-none", p.rail)]


def a_rail_without_its_control_line(p: Plot) -> list[Expected]:
    k = p.k
    p.add(f"firing-point Hut at {k * 200} m, -60 m\n"
          f"rail Bus{k} of dc-16 at Yard{k}-1 {{ feed Pack{k} through 5 m of trunk-4; serves Yard{k}-1; control Hut through 80 m of zip-18 }}")  # fmt: skip
    return [Expected("control-missing", p.rail)]


def control_lines_in_a_ring(p: Plot) -> list[Expected]:
    k = p.k
    p.rail.swap("spare 2", f"spare 2; control Bus{k} through 10 m of zip-18")
    line = p.add(f"rail Bus{k} of dc-16 at Yard{k}-1 {{ feed Pack{k} through 5 m of trunk-4; serves Yard{k}-1; control Rail{k} through 10 m of zip-18 }}\n"
                 f"rail Bus{k + 1} of dc-16 at Yard{k}-1 {{ feed Pack{k} through 5 m of trunk-4; serves Yard{k}-1 }}")  # fmt: skip
    return [Expected("control-cycle", line), Expected("control-missing", line, 1)]


# --- tubes, waivers, labels, numbers ---


def a_rack_of_another_calibre(p: Plot) -> list[Expected]:
    p.rack.swap("75 mm", p.rng.choice(("100 mm", "2.5 in", "7 cm")))
    return [Expected("tube-missing", p.shell)]


def a_shell_where_no_rack_stands(p: Plot) -> list[Expected]:
    line = p.cue(30, 30.0, f"our-shell at Yard{p.k}-3")
    return [Expected("tube-missing", line)]


def a_rack_with_too_few_tubes(p: Plot) -> list[Expected]:
    p.rack.swap("5 tubes", "1 tube")
    line = p.cue(30, 30.0, f"our-shell at Yard{p.k}-4")
    return [Expected("tube-missing", line)]


def a_waiver_of_nothing(p: Plot) -> list[Expected]:
    k = p.k
    rule, thing = p.rng.choice((("fuse-missing", f"Pack{k}"), ("never-fired", f"Row{k}"), ("rail-recovery", f"Rail{k}")))
    line = p.add(f'waive {rule} on {thing} because "as last year" by "the lead"')
    return [Expected("waiver-unused", line)]


def a_waiver_of_what_is_never_waived(p: Plot) -> list[Expected]:
    rule = p.rng.choice(("firing-current", "test-current", "hold-broken", "crowd-side"))
    line = p.add(f'waive {rule} on Row{p.k} because "as last year" by "the lead"')
    return [Expected("waiver-refused", line)]


def labels_of_places_alone(p: Plot) -> list[Expected]:
    label = p.rng.choice(("{place}", "{rail} {place}", "{rail}"))
    p.draft.head.swap("lead zip-18", f'lead zip-18; label "{label}"')
    return [Expected("label-twice", p.draft.head, 5)]


def a_cue_moved_before_its_number(p: Plot) -> list[Expected]:
    line = p.cue(5, p.rng.choice((3.0, 8.0)), f"our-comet at Yard{p.k}-2")
    return [Expected("number-order", line)]


# --- values that cannot be meant ---


def a_prefire_with_its_point_astray(p: Plot) -> list[Expected]:
    line = p.part(f"effect own{p.k}", kind="shell", match="our-match", calibre="75 mm", burn="1.5 s", prefire=p.rng.choice(("0.27 s", "9.7 s")))
    p.cue(30, 30.0, f"own{p.k} at Yard{p.k}-4")
    return [Expected("prefire-implausible", line, 5)]


def a_shell_without_prefire(p: Plot) -> list[Expected]:
    line = p.part(f"effect own{p.k}", kind="shell", match="our-match", calibre="3 in", burn="1.5 s")
    p.cue(30, 30.0, f"own{p.k} at Yard{p.k}-4")
    return [Expected("prefire-implausible", line)]


def a_calibre_in_inches(p: Plot) -> list[Expected]:
    line = p.part(f"effect own{p.k}", kind="comet", match="our-match", calibre=p.rng.choice(("45 in", "75 cm")), burn="2 s")
    p.cue(30, 30.0, f"own{p.k} at Yard{p.k}-3")
    return [Expected("calibre-implausible", line, 3)]


def a_rack_in_inches(p: Plot) -> list[Expected]:
    line = p.add(f"rack Wide{p.k} of 5 tubes 75 in at Yard{p.k}-3")
    return [Expected("calibre-implausible", line)]


def a_voltage_with_a_slip(p: Plot) -> list[Expected]:
    made = bench(p, battery={"voltage": "14 .. 29.4 V nominal 25.2 V"})
    return [Expected("voltage-implausible", made.battery, row(BATTERY, "voltage"))]


def fahrenheit_written_as_celsius(p: Plot) -> list[Expected]:
    p.draft.head.swap("5 .. 30 degC", "41 .. 58 degC")
    return [Expected("temperature-implausible", p.draft.head, 3)]


PLANTERS = (
    Planter("hold-broken", a_comet_inside_a_hold, TIDE),
    Planter("hold-broken", a_gerb_that_burns_into_a_hold, TIDE),
    Planter("hold-broken", a_shell_that_flies_through_a_hold, TIDE),
    Planter("burn-unknown", a_fountain_of_unknown_length, TIDE),
    Planter("press-unchecked", a_press_beside_a_hold, TIDE),
    Planter("press-unchecked", a_press_beside_an_armed_zone, ALONE),
    Planter("press-early", a_shell_that_has_to_precede_its_press, TIDE),
    Planter("hand-overlap", a_press_on_a_supply_of_the_clock, TIDE),
    Planter("hand-overlap", two_presses_that_outlast_each_other, TIDE),
    Planter("crowd-side", a_place_beyond_the_crowd_line, "crowd"),
    Planter("crowd-side", a_row_that_reaches_over_the_crowd_line, "crowd"),
    Planter("crowd-side-unknown", a_crowd_line_without_a_firing_point, "crowd"),
    Planter("crowd-side-unknown", a_crowd_line_between_two_firing_points, "crowd"),
    Planter("zone-late", a_zone_that_is_armed_late, ALONE),
    Planter("zone-twice", a_rail_in_two_zones, ALONE),
    Planter("zone-none", a_rail_in_no_zone, ALONE),
    Planter("control-missing", a_rail_without_its_control_line, ALONE),
    Planter("control-cycle", control_lines_in_a_ring, ALONE),
    Planter("tube-missing", a_rack_of_another_calibre),
    Planter("tube-missing", a_shell_where_no_rack_stands),
    Planter("tube-missing", a_rack_with_too_few_tubes),
    Planter("waiver-unused", a_waiver_of_nothing),
    Planter("waiver-refused", a_waiver_of_what_is_never_waived),
    Planter("label-twice", labels_of_places_alone, "head"),
    Planter("number-order", a_cue_moved_before_its_number, "numbers"),
    Planter("prefire-implausible", a_prefire_with_its_point_astray),
    Planter("prefire-implausible", a_shell_without_prefire),
    Planter("calibre-implausible", a_calibre_in_inches),
    Planter("calibre-implausible", a_rack_in_inches),
    Planter("voltage-implausible", a_voltage_with_a_slip),
    Planter("temperature-implausible", fahrenheit_written_as_celsius, "head"),
)
