"""Mistakes with names: unknown, given twice, looking alike, ranges and lists that do not fit."""

from __future__ import annotations

from .draft import MATCH, Expected, Plot
from .planter import Planter


def a_misspelt_name(p: Plot) -> list[Expected]:
    k = p.k
    line, right, wrong = p.rng.choice((
        (p.comet, "our-comet", "our-commet"), (p.comet, f"Yard{k}-3", f"Yrad{k}-3"), (p.mine, f"Rail{k}.5", f"Rial{k}.5"),
        (p.rail, "dc-16", "dc-17"), (p.rail, "trunk-4", "trunk-44"), (p.rail, f"Pack{k}", f"Pakc{k}"),
        (p.supply, "lead-acid-24", "lead-acid-25"), (p.gerbs, "our-gerb", "our-grb"), (p.fire, f"Row{k}", f"Roww{k}"),
        (p.circuit, f"Rail{k}.1", f"Raill{k}.1"), (p.shell, f"Yard{k}-4", f"Yard{k}-44"),
    ))  # fmt: skip
    line.swap(right, wrong)
    return [Expected("unknown-name", line)]


def an_unknown_match_of_an_effect(p: Plot) -> list[Expected]:
    line = p.add(f"effect {p.name('own')} {{ kind comet; match our-mtach }}")
    return [Expected("unknown-name", line)]


def a_member_that_is_not_there(p: Plot) -> list[Expected]:
    p.circuit.swap(f"Gerb{p.k}-1..Gerb{p.k}-2", f"Gerb{p.k}-1, Gerb{p.k}-2, Gerb{p.k}-3")
    return [Expected("unknown-name", p.circuit)]


def a_note_for_nothing(p: Plot) -> list[Expected]:
    line = p.add(f'note "Plug from the wall side" for Rall{p.k}')
    return [Expected("unknown-name", line)]


def a_bind_of_no_circuit(p: Plot) -> list[Expected]:
    line = p.add(f"bind Yard{p.k}-3-our-comet-2 to Rail{p.k}.7")
    return [Expected("unknown-name", line)]


def a_name_given_twice(p: Plot) -> list[Expected]:
    k = p.k
    first, second = p.rng.choice((
        (f"position Shed{k} at {k * 200} m, 60 m", f"position Shed{k} at {k * 200} m, 70 m"),
        (f"cable own{k} {{ gauge 18 awg }}", f"cable own{k} {{ gauge 16 awg }}"),
        (f"effect own{k} {{ match our-match }}", f"effect own{k} {{ kind comet; match our-match }}"),
        (f"battery own{k} {{ limit 20 A }}", f"battery own{k} {{ limit 30 A }}"),
    ))  # fmt: skip
    one = p.add(f"{first}\n{second}")
    return [Expected("duplicate-name", one, 1)]


def a_name_of_the_catalogue(p: Plot) -> list[Expected]:
    line = p.add("cable zip-16 { gauge 16 awg }")
    return [Expected("duplicate-name", line)]


def a_cue_number_used_twice(p: Plot) -> list[Expected]:
    line = p.mine
    line.text += f"\ncue {p.k}03 at {p.at(30.0)} our-comet at Yard{p.k}-3"
    return [Expected("duplicate-name", line, 1)]


def names_that_look_alike(p: Plot) -> list[Expected]:
    k = p.k
    one, other = p.rng.choice((("Hill", "Hi1l"), ("Dock-O", "Dock-0"), ("Mill1", "Milll"), ("Hut", "hut"), ("Pier", "Рier")))
    line = p.add(f"position {one}{k} at {k * 200} m, 60 m\nposition {other}{k} at {k * 200} m, 70 m")
    return [Expected("look-alike-name", line, 1)]


def a_place_that_reads_like_a_channel(p: Plot) -> list[Expected]:
    line = p.add(f"rail Bus{p.k}x of dc-16 at Yard{p.k}-1 {{ feed Pack{p.k} through 5 m of trunk-4; serves Yard{p.k}-1 }}\n"
                 f"position Bus{p.k}x1 at {p.k * 200} m, 60 m")  # fmt: skip
    return [Expected("look-alike-name", line, 1)]


def two_places_at_one_point(p: Plot) -> list[Expected]:
    line = p.add(f"position Shed{p.k} at {p.k * 200} m, 60 m\nposition Hut{p.k} at {p.k * 200} m, 60000 mm, 0 ft")
    return [Expected("same-place", line, 1)]


def a_range_of_two_stems(p: Plot) -> list[Expected]:
    line = p.cue(30, 30.0, f"our-comet at Yard{p.k}-1..Rail{p.k}-4")
    return [Expected("empty-range", line)]


def an_interval_that_runs_backwards(p: Plot) -> list[Expected]:
    line = p.part("match " + p.name("own"), **MATCH | {"impulse": "3 .. 0.8 A2ms"})
    return [Expected("empty-range", line, 7)]


def the_even_ones_of_one(p: Plot) -> list[Expected]:
    k = p.k
    line = p.add(f"falls Fall{k} of our-gerb at Yard{k}-3 {{ count 3 every 1 m; matches 1 }}\n"
                 f"circuit Fall{k}-A {{ lead 20 m of zip-16; series Fall{k}.even }}")  # fmt: skip
    p.cue(30, 30.0, f"Fall{k}-A")
    return [Expected("empty-range", line, 1)]


def a_list_one_short(p: Plot) -> list[Expected]:
    p.gerbs.text = f"device Gerb{p.k}-1, Gerb{p.k}-2 of our-gerb at Yard{p.k}-1, Yard{p.k}-2, Yard{p.k}-3"
    return [Expected("list-mismatch", p.gerbs)]


def a_range_with_a_digit_too_many(p: Plot) -> list[Expected]:
    line = p.add(f"position Post{p.k}-1..Post{p.k}-99999999 from {p.k * 200} m, 80 m every 1 mm")
    return [Expected("too-many", line)]


def more_shots_than_any_show(p: Plot) -> list[Expected]:
    line = p.add(f"position Post{p.k}-1..Post{p.k}-1800 from {p.k * 200} m, 80 m every 1 mm, 1 mm\n"
                 f"cue {p.k}30 at {p.at(30.0)} our-comet at Post{p.k}-1..Post{p.k}-1800 count 200 in series")  # fmt: skip
    return [Expected("too-many", line, 1)]


def a_name_that_no_face_can_draw(p: Plot) -> list[Expected]:
    line = p.add(f"position Quay{p.k}-一 at {p.k * 200} m, 60 m")
    return [Expected("glyph-missing", line)]


PLANTERS = (
    *(Planter("unknown-name", a_misspelt_name) for _ in range(3)),
    Planter("unknown-name", an_unknown_match_of_an_effect),
    Planter("unknown-name", a_member_that_is_not_there),
    Planter("unknown-name", a_note_for_nothing),
    Planter("unknown-name", a_bind_of_no_circuit),
    Planter("duplicate-name", a_name_given_twice),
    Planter("duplicate-name", a_name_of_the_catalogue, "zip-16"),
    Planter("duplicate-name", a_cue_number_used_twice),
    Planter("look-alike-name", names_that_look_alike),
    Planter("look-alike-name", a_place_that_reads_like_a_channel),
    Planter("same-place", two_places_at_one_point),
    Planter("empty-range", a_range_of_two_stems),
    Planter("empty-range", an_interval_that_runs_backwards),
    Planter("empty-range", the_even_ones_of_one),
    Planter("list-mismatch", a_list_one_short),
    Planter("too-many", a_range_with_a_digit_too_many),
    Planter("too-many", more_shots_than_any_show),
    Planter("glyph-missing", a_name_that_no_face_can_draw),
)
