"""Mistakes of the hand: characters, quotes, brackets, heads, files."""

from __future__ import annotations

from .draft import MAIN, Expected, Plot
from .planter import Planter


def a_byte_of_another_encoding(p: Plot) -> list[Expected]:
    p.comet.swap("Comet", "Com\udce9te")
    return [Expected("not-utf8", p.comet)]


def a_character_without_meaning(p: Plot) -> list[Expected]:
    line = p.rng.choice((p.comet, p.mine, p.places, p.supply))
    line.text += " " + p.rng.choice("$=!?*^&|")
    return [Expected("stray-character", line)]


def curly_quotes(p: Plot) -> list[Expected]:
    p.shell.text += " “bang”"
    return [Expected("stray-character", p.shell)]


def a_quote_left_open(p: Plot) -> list[Expected]:
    line = p.comet.swap('Comet"', "Comet")
    return [Expected("unclosed-text", line)]


def a_quote_left_open_before_a_brace(p: Plot) -> list[Expected]:
    line = p.part("cable " + p.name("odd"), gauge="18 awg", source='"found in the van')
    return [Expected("unclosed-text", line, 2)]


def a_block_left_open(p: Plot) -> list[Expected]:
    p.rail.swap(" }", "")
    return [Expected("unclosed-bracket", p.rail)]


def a_long_block_left_open(p: Plot) -> list[Expected]:
    line = p.part("cable " + p.name("odd"), gauge="18 awg", metal="copper")
    line.text = line.text.removesuffix("\n}")
    return [Expected("unclosed-bracket", line)]


def an_inner_block_left_open(p: Plot) -> list[Expected]:
    p.circuit.text = (f"circuit Row{p.k} on Rail{p.k}.1 {{\n    lead 25 m of zip-18\n    series spaced 2 m of zip-18 {{\n"
                      f"        parallel Gerb{p.k}-1\n        parallel Gerb{p.k}-2\n}}")  # fmt: skip
    return [Expected("unclosed-bracket", p.circuit, 2)]


def a_parenthesis_left_open(p: Plot) -> list[Expected]:
    p.mine.swap(" on ", " ( on ")
    return [Expected("unclosed-bracket", p.mine)]


def a_brace_too_many(p: Plot) -> list[Expected]:
    p.rail.text += " }"
    return [Expected("unmatched-bracket", p.rail)]


def a_parenthesis_too_many(p: Plot) -> list[Expected]:
    p.shell.text += ")"
    return [Expected("unmatched-bracket", p.shell)]


def words_after_a_brace(p: Plot) -> list[Expected]:
    p.rail.swap("; spare 2 }", " } spare 2")
    return [Expected("text-after-brace", p.rail)]


def a_statement_after_a_brace(p: Plot) -> list[Expected]:
    p.rail.text += f" position {p.name('Shed')} at {p.k * 200} m, 50 m"
    return [Expected("text-after-brace", p.rail)]


def blocks_beyond_all_depth(p: Plot) -> list[Expected]:
    depth = p.rng.randrange(60, 300)
    nested = "parallel { series " * depth + f"Gerb{p.k}-1, Gerb{p.k}-2" + " }" * depth
    p.circuit.text = f"circuit Row{p.k} on Rail{p.k}.1 {{ lead 25 m of zip-18; {nested} }}"
    return [Expected("nested-too-deep", p.circuit)]


def a_misspelt_head(p: Plot) -> list[Expected]:
    line, head, slip = p.rng.choice((
        (p.places, "position", "postion"), (p.supply, "supply", "suply"), (p.rail, "rail", "rial"), (p.comet, "cue", "que"),
        (p.circuit, "circuit", "ciruit"), (p.gerbs, "device", "devise"), (p.mine, "cue", "Cue"),
    ))  # fmt: skip
    line.text = slip + line.text.removeprefix(head)
    return [Expected("unknown-statement", line)]


def a_line_of_a_script_outside_one(p: Plot) -> list[Expected]:
    line = p.add(f"+0:02.0 our-comet at Yard{p.k}-3")
    return [Expected("unknown-statement", line)]


def a_line_without_offset_in_a_script(p: Plot) -> list[Expected]:
    line = p.add(f"script {p.name('Scene')} from {p.at(20.0)} numbered {p.k}20 {{\n    +0:00.0 our-mine at Yard{p.k}-3\n"
                 f"    our-comet at Yard{p.k}-3\n}}")  # fmt: skip
    return [Expected("unknown-statement", line, 2)]


def a_file_that_is_not_there(p: Plot) -> list[Expected]:
    line = p.add(f'use "parts/not-there-{p.k}.show"')
    return [Expected("use-missing", line)]


def a_file_outside_the_folder(p: Plot) -> list[Expected]:
    line = p.add(f'use "{p.rng.choice(("../other/parts.show", "/etc/parts.show", "parts/../../x.show", "~/parts.show"))}"')
    return [Expected("use-outside", line)]


def the_show_uses_itself(p: Plot) -> list[Expected]:
    line = p.add(f'use "{MAIN}"')
    return [Expected("use-cycle", line)]


PLANTERS = (
    Planter("not-utf8", a_byte_of_another_encoding, "not-utf8"),
    Planter("stray-character", a_character_without_meaning),
    Planter("stray-character", curly_quotes),
    Planter("unclosed-text", a_quote_left_open),
    Planter("unclosed-text", a_quote_left_open_before_a_brace),
    Planter("unclosed-bracket", a_block_left_open),
    Planter("unclosed-bracket", a_long_block_left_open),
    Planter("unclosed-bracket", an_inner_block_left_open),
    Planter("unclosed-bracket", a_parenthesis_left_open),
    Planter("unmatched-bracket", a_brace_too_many),
    Planter("unmatched-bracket", a_parenthesis_too_many),
    Planter("text-after-brace", words_after_a_brace),
    Planter("text-after-brace", a_statement_after_a_brace),
    Planter("nested-too-deep", blocks_beyond_all_depth),
    Planter("unknown-statement", a_misspelt_head),
    Planter("unknown-statement", a_line_of_a_script_outside_one),
    Planter("unknown-statement", a_line_without_offset_in_a_script),
    Planter("use-missing", a_file_that_is_not_there),
    Planter("use-outside", a_file_outside_the_folder),
    Planter("use-cycle", the_show_uses_itself, "use-cycle"),
)
