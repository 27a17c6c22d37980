"""The canonical layout by example: what comes in crooked, and how it goes out."""

from __future__ import annotations

from textwrap import dedent

import pytest

from grammar.formatter import format_source, format_text
from grammar.source import Source
from tests.format.laws import holds_to_the_laws


def laid_out(text: str) -> str:
    """A text in canonical layout, held to the laws on the way."""
    return holds_to_the_laws(dedent(text))


@pytest.mark.parametrize(
    ("crooked", "straight"),
    [
        ("a  b\t c", "a b c\n"),
        ("pulse 150ms", "pulse 150 ms\n"),
        ("a 5..30 degC", "a 5 .. 30 degC\n"),
        ("a 1.60ohm+-0.20", "a 1.60 ohm +- 0.20\n"),
        ("a 1.6 ohm±10%", "a 1.6 ohm ± 10 %\n"),
        ("serves Q1 ,Q2,Q3", "serves Q1, Q2, Q3\n"),
        ("along ( -90 m,-110 m ) ,(90 m , -110 m)", "along (-90 m, -110 m), (90 m, -110 m)\n"),
        ("play Pair(mine-red,3 s)", "play Pair(mine-red, 3 s)\n"),
        ("along (1 m,2 m)", "along (1 m, 2 m)\n"),
        ("a;b ;; c;", "a\nb\nc\n"),
        ('a"x  y"b', 'a "x  y" b\n'),
        ("a {b 1;c}", "a { b 1; c }\n"),
        ("a {b{c;};}", "a { b { c } }\n"),
        ("a {\n\n}", "a { }\n"),
        ("", ""),
        ("\n\n", ""),
        ("# only", "# only\n"),
        ("\ufeffa\r\n\r\nb\r\n", "a\n\nb\n"),
    ],
)  # fmt: skip
def test_one_space_between_items_and_none_before_a_comma(crooked: str, straight: str) -> None:
    assert holds_to_the_laws(crooked.removeprefix("\ufeff")) == straight
    assert format_text(crooked) == straight


def test_a_decimal_comma_is_not_set_apart_because_a_reader_must_still_see_the_slip() -> None:
    assert laid_out("lead 2,5 m of zip-14\nat 2, 5 m") == "lead 2,5 m of zip-14\nat 2, 5 m\n"


def test_a_block_on_one_line_stays_there_and_an_open_one_stays_open() -> None:
    assert laid_out("""
        rail A of dc-16 at Q1 {feed Pack through 3m of trunk-2.5;serves Q1..Q5}
        rail B of dc-16 at Q1 {
        spare 2
        }
    """) == dedent("""\
        rail A of dc-16 at Q1 { feed Pack through 3 m of trunk-2.5; serves Q1..Q5 }
        rail B of dc-16 at Q1 {
            spare 2
        }
    """)


def test_a_block_that_does_not_fit_on_its_line_is_opened_and_the_blocks_in_it_are_not() -> None:
    name = "a-name-that-is-rather-long-for-what-it-is"
    assert laid_out(f"circuit A on A.1 {{ lead 52 m of {name}; parallel {{ series {name}1; series {name}2 }} }}") == (
        f"circuit A on A.1 {{\n    lead     52 m of {name}\n    parallel {{ series {name}1; series {name}2 }}\n}}\n"
    )


def test_the_edge_is_120_columns() -> None:
    fits = "a { " + "b" * 114 + " }"
    assert len(fits) == 120
    assert format_text(fits) == fits + "\n"
    assert format_text(fits.replace(" }", "b }")) == "a {\n    " + "b" * 115 + "\n}\n"


def test_values_in_a_block_stand_below_one_another() -> None:
    assert laid_out("""
        match m {
          bridge 1.6 ohm
          no-fire 0.18 A
          # the class
          generic
          confidence "low"

          alone 1 A
          legs none
        }
    """) == dedent("""\
        match m {
            bridge     1.6 ohm
            no-fire    0.18 A
            # the class
            generic
            confidence "low"

            alone 1 A
            legs  none
        }
    """)


def test_the_lines_of_a_script_are_a_table() -> None:
    assert laid_out("""
        script Opening from 0:10 to 0:40 {
            +0:00.0 comet-gold at Q1..Q9 every 150 ms
            +0:00.0 comet-gold at Q10..Q18 every 150 ms
            +0:02.0 Bow "Sparks"
            +0:04.0 shell-100-silver at Q1
        }
    """) == dedent("""\
        script Opening from 0:10 to 0:40 {
            +0:00.0 comet-gold       at Q1..Q9   every 150 ms
            +0:00.0 comet-gold       at Q10..Q18 every 150 ms
            +0:02.0 Bow "Sparks"
            +0:04.0 shell-100-silver at Q1
        }
    """)


def test_statements_of_one_kind_are_a_table_and_their_first_coordinates_have_their_points_below_one_another() -> None:
    assert laid_out("""
        position Left at -15.5 m, 0 m
        position Centre at 0 m, 0 m
        position Right at 15 m, 0 m
        supply Pack of lead-acid-24 at Centre
        rail A of dc-16 at Left { feed Pack through 3 m of trunk-4; serves Left }
        rail B2 of dc-16 at Centre { feed A through 12 m of trunk-4; serves Centre }
    """) == dedent("""\
        position Left   at -15.5 m, 0 m
        position Centre at   0 m, 0 m
        position Right  at  15 m, 0 m
        supply Pack of lead-acid-24 at Centre
        rail A  of dc-16 at Left   { feed Pack through 3 m of trunk-4;  serves Left }
        rail B2 of dc-16 at Centre { feed A    through 12 m of trunk-4; serves Centre }
    """)


def test_one_long_name_does_not_push_a_table_apart() -> None:
    assert laid_out("""
        device A of comet-gold at Q1
        device Bow of comet-gold at Q1
        device A-name-of-thirty-letters-or-so of comet-gold at Q1
    """) == dedent("""\
        device A   of comet-gold at Q1
        device Bow of comet-gold at Q1
        device A-name-of-thirty-letters-or-so of comet-gold at Q1
    """)


def test_a_table_pushes_no_block_over_the_edge() -> None:
    short = "rail A at Q1 { serves " + "q" * 95 + " }"
    assert len(short) <= 120
    text = f"{short}\nrail Bbbbbbbbbb at Q1 {{ serves Q }}\n"
    assert laid_out(text) == text


def test_a_statement_that_goes_on_after_a_comma_keeps_its_line_break() -> None:
    assert laid_out("""
        circuit A on A.1 {
        series D1,D2,

         D3,  # why
         # alone
         D4
        }
        along (1 m,
        2 m
        ), (3 m, 4 m)
    """) == dedent("""\
        circuit A on A.1 {
            series D1, D2,
                    D3,  # why
                    # alone
                    D4
        }
        along (1 m,
                2 m), (3 m, 4 m)
    """)


def test_a_semicolon_after_a_comma_stays_or_the_next_line_would_belong_to_it() -> None:
    assert laid_out("a,;b\nc,\n;\nd") == "a,;\nb\nc,\n        ;\nd\n"


def test_comments_stay_at_their_places() -> None:
    assert laid_out("""
        # head


        # group
        show "S" {# opens
                # inside
          revision 1 # one
          meter 0.1 ohm    # two
                           # goes on
          rules "strict"

          # last
        } # closed
        a
        # end
    """) == dedent("""\
        # head

        # group
        show "S" {  # opens
            # inside
            revision 1        # one
            meter    0.1 ohm  # two
                              # goes on
            rules    "strict"

            # last
        }  # closed
        a
        # end
    """)


def test_comments_of_very_unlike_lines_share_no_column() -> None:
    assert laid_out(f'a  # one\nb "{"x" * 60}"  # two\n') == f'a  # one\nb "{"x" * 60}"  # two\n'


def test_wide_letters_take_two_columns() -> None:
    assert laid_out('a "宽" # one\nb "xyz" # two') == 'a "宽"   # one\nb "xyz"  # two\n'


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("a {\n b", "unclosed-bracket"),
        ("a }\n", "unmatched-bracket"),
        ('a "b\n', "unclosed-text"),
        ("a (b\n", "unclosed-bracket"),
        ("a = b", "stray-character"),
        ("a\u00a0b", "stray-character"),
        ("a } b", "unmatched-bracket"),
        ("a { b } c", "text-after-brace"),
        ("a \ufffd b", "not-utf8"),
        ("{" * 60 + "}" * 60, "nested-too-deep"),
    ],
)
def test_a_broken_text_is_left_alone_and_says_why(text: str, rule: str) -> None:
    assert format_text(text) is None
    _, findings = format_source(Source("t.show", text))
    assert rule in {finding.rule for finding in findings}
