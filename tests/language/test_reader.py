"""The recovering reader: every slip is told once, with its place, and nothing is lost around it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grammar.mend import DEEPEST
from grammar.reader import read
from grammar.source import Source, decode
from grammar.tree import Statement


def parsed(text: str) -> tuple[tuple[Statement, ...], list[tuple[str, str]]]:
    """Statements, and for each finding its rule and the text that it points at."""
    tree, findings = read(Source("t.show", text))
    return tree.statements, [(f.rule, text[f.at.start : f.at.end]) for f in findings]  # type: ignore[union-attr]


def words(statement: Statement) -> list[str]:
    """The items of a statement as written."""
    return [str(item) for item in statement.items]


def test_a_newline_or_a_semicolon_ends_a_statement() -> None:
    statements, found = parsed("revision 2; spare 3\nkey\n")
    assert [words(s) for s in statements] == [["revision", "2"], ["spare", "3"], ["key"]]
    assert not found


def test_a_statement_goes_on_after_a_comma_and_inside_parentheses() -> None:
    statements, found = parsed("serves Q1,  # near\n   Q2\nalong (1 m,\n 2 m\n)\n")
    assert len(statements) == 2
    assert not found


def test_a_block_holds_statements_and_blocks() -> None:
    statements, found = parsed("a { b { c 1 }\n d; }\ne")
    assert [words(s)[0] for s in statements] == ["a", "e"]
    inner = statements[0].block
    assert inner is not None
    assert [words(s) for s in inner] == [["b"], ["d"]]
    assert not found


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("48 m", ["NUMBER", "NAME"]),
        ("150ms", ["NUMBER", "NAME"]),
        ("-18 m", ["NUMBER", "NAME"]),
        ("5..30", ["NUMBER", "DOTS", "NUMBER"]),
        ("1.6 ohm ± 0.2", ["NUMBER", "NAME", "TOLERANCE", "NUMBER"]),
        ("24 V +- 10 %", ["NUMBER", "NAME", "TOLERANCE", "NUMBER", "PERCENT"]),
        ("0:06.0", ["TIME"]),
        ("+0:02.5", ["TIME"]),
        ("-0:10", ["TIME"]),
        ("01:00:00;02", ["TIME"]),
        ("2027-06-19 22:15:00", ["DATE", "TIME"]),
        ("Curtain.1..10", ["NAME"]),
        ("Q1..Q9", ["NAME"]),
        ("zip-14", ["NAME"]),
        ("trunk-2.5", ["NAME"]),
        ("mm²", ["NAME"]),
        ("ohm/km", ["NAME"]),
        ('"a # b"', ["TEXT"]),
    ],
)
def test_each_kind_of_token_is_seen_as_what_it_is(text: str, kinds: list[str]) -> None:
    statements, found = parsed(f"x {text}")
    assert [item.type for item in statements[0].items[1:]] == kinds
    assert not found


@pytest.mark.parametrize(
    ("text", "rule", "at"),
    [
        ('cue 1 "Maroon\nkey', "unclosed-text", '"Maroon'),
        ("a (1 m\nkey", "unclosed-bracket", "("),
        ("a 1 m)\nkey", "unmatched-bracket", ")"),
        ("a {\n b\n", "unclosed-bracket", "{"),
        ("a }\nkey", "unmatched-bracket", "}"),
        ("a { b } at Q1\nkey", "text-after-brace", "at"),
        ("cue 1 “Maroon”\nkey", "stray-character", "“Maroon”"),
        ("count = 30\nkey", "stray-character", "="),
        ("a\u00a01\nkey", "stray-character", "\u00a0"),
    ],
)
def test_a_slip_is_told_once_at_its_place(text: str, rule: str, at: str) -> None:
    _, found = parsed(text)
    assert found == [(rule, at)]


def test_a_missing_brace_is_told_at_the_block_that_lacks_it() -> None:
    text = "script A {\n    x {\n        y\n}\nz\n"
    statements, found = parsed(text)
    assert found == [("unclosed-bracket", "{")]
    assert [words(s)[0] for s in statements] == ["script", "z"]


def test_what_follows_a_slip_is_read_as_if_nothing_had_happened() -> None:
    statements, _ = parsed('cue 1 "Maroon\nrail A } x\nkey "ok"\n')
    assert words(statements[-1]) == ["key", '"ok"']


def test_blocks_deeper_than_the_bound_are_told_once() -> None:
    _, found = parsed("a {" * (DEEPEST + 5) + "}" * (DEEPEST + 5))
    assert [rule for rule, _ in found] == ["nested-too-deep"]


def test_bytes_that_are_no_utf8_are_told_with_their_place() -> None:
    text, bad = decode(b"abc\xff\n")
    assert (text[:3], bad) == ("abc", 3)
    assert decode("\ufeffabc".encode())[0] == "abc"


def test_line_and_column_count_from_one() -> None:
    source = Source("t", "ab\ncä\n")
    assert [source.line_column(offset) for offset in (0, 2, 3, 4, 6)] == [(1, 1), (1, 3), (2, 1), (2, 2), (3, 1)]


@given(st.text(alphabet='{}()";#,.\n a1:-+“\u00a0é±%=°Ω', max_size=120))
def test_any_text_becomes_a_tree_and_every_finding_lies_inside_it(text: str) -> None:
    tree, findings = read(Source("t", text))
    assert isinstance(tree.statements, tuple)
    for finding in findings:
        assert 0 <= finding.at.start <= finding.at.end <= len(text)  # type: ignore[union-attr]
