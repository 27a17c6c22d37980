"""Findings as text: the exact place underlined, whatever stands in the line."""

from __future__ import annotations

import unicodedata
from itertools import pairwise
from textwrap import dedent

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compiler.reports.excerpt import cells, shown
from compiler.reports.text import document, summary
from grammar.findings import Edit, Finding, Related
from tests.reports.told import hostile, span, told_from, told_of


def _text(source: str, *findings: Finding) -> str:
    return document(told_of(source, *findings))


def _columns(text: str) -> int:
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


def _under(text: str) -> list[str]:
    """What stands above each underline, by columns."""
    lines = text.splitlines()
    found = []
    for above, below in pairwise(lines):
        if set(below.strip()) == {"‾"}:
            start, end = len(below) - len(below.lstrip()), len(below)
            ends = [_columns(above[:index]) for index in range(len(above) + 1)]
            found.append(above[ends.index(start) : len(ends) - 1 - ends[::-1].index(end)])
    return found


def test_the_exact_span_is_underlined() -> None:
    assert _text("one bad two\n", Finding("unknown-name", "no bad", span(4, 7))) == dedent(
        """\
        error[unknown-name] no bad
          main.show:1:5
             1 │ one bad two
                     ‾‾‾

        1 error
        """
    )


@pytest.mark.parametrize(
    "before", ["", "\t", "a\tb\t", "日本語 ", "e\u0301e\u0301 ", "😀 ", "x" * 500 + " ", "日本" * 200 + "\t"]
)
@pytest.mark.parametrize("after", ["", " tail", "\t日本", "y" * 500])
def test_an_underline_stands_below_its_text(before: str, after: str) -> None:
    text = _text(f"{before}bad{after}\n", Finding("unknown-name", "no bad", span(len(before), len(before) + 3)))
    assert _under(text) == ["bad"]
    assert max(_columns(line) for line in text.splitlines()[2:4]) <= 112


@given(st.text(max_size=300), st.integers(0, 300), st.integers(0, 40))
def test_a_mark_lies_within_the_line_that_is_shown(line: str, start: int, length: int) -> None:
    line = line.replace("\n", " ").replace("\r", " ")
    start = min(start, len(line))
    row = shown(line, start, min(len(line), start + length))
    assert row.text.isprintable()
    assert row.marked >= 1
    assert (
        row.before + row.marked
        <= sum(cell.columns for cell in cells(row.text)) + max(1, len(line) - len(line.rstrip())) * 4
    )


def test_a_tab_reaches_the_next_stop() -> None:
    assert "".join(cell.text for cell in cells("a\tb\tc")) == "a   b   c"


def test_a_span_of_several_lines_is_underlined_in_each() -> None:
    source = "circuit Row {\n    series D1,\n      D2\n}\n"
    text = _text(source, Finding("unknown-name", "x", span(8, source.index("D2") + 2)))
    assert _under(text) == ["Row {", "series D1,", "D2"]


def test_of_a_long_span_the_ends_are_shown() -> None:
    source = "".join(f"line {number}\n" for number in range(1, 21))
    text = _text(source, Finding("unknown-name", "x", span(0, len(source))))
    assert _under(text) == ["line 1", "line 2", "line 20"]
    assert "     ⋮\n" in text
    assert "line 3\n" not in text


def test_a_related_place_is_shown_with_its_word() -> None:
    text = _text("one two\n", Finding("unknown-name", "x", span(4, 7), related=(Related(span(0, 3), "first here"),)))
    assert "  main.show:1:1: first here\n" in text
    assert _under(text) == ["two", "one"]


def test_of_many_related_places_the_rest_is_counted() -> None:
    related = tuple(Related(span(0, 3), f"place {number}") for number in range(20))
    text = _text("one two\n", Finding("unknown-name", "x", span(4, 7), related=related))
    assert text.count(": place ") == 6
    assert "and 14 more places" in text


def test_an_edit_is_shown_as_a_line_to_paste_unless_the_hint_holds_it() -> None:
    edit = Edit(span(4, 7), "good")
    text = _text("one bad two\n", Finding("unknown-name", "x", span(4, 7), hint="Mend it.", edit=edit))
    assert "       + one good two\n" in text
    held = _text("one bad two\n", Finding("unknown-name", "x", span(4, 7), hint="Write `good`.", edit=edit))
    assert "+ one" not in held


def test_a_deletion_is_shown_as_the_line_that_is_left() -> None:
    text = _text(
        "one bad two\n", Finding("unknown-name", "x", span(4, 8), hint="Take it out.", edit=Edit(span(4, 8), ""))
    )
    assert "       + one two\n" in text


def test_hostile_text_moves_no_cursor_and_makes_no_line_of_its_own() -> None:
    text = document(hostile())
    assert all(character.isprintable() or character == "\n" for character in text)
    assert not any(line.startswith("::") for line in text.splitlines())


def test_the_last_line_counts() -> None:
    assert _text("x").splitlines() == ["clean"]
    told = told_from("position Q1 at 0 m, 0 m\nposition Q2 at 0 m, 0 m\nspam\n")
    assert document(told).splitlines()[-1] == "1 cue: 1 error, 1 warning"
    assert summary(hostile().findings) == "1 error, 1 waived"


def test_a_finding_at_the_end_of_an_empty_file_has_a_place() -> None:
    text = _text("", Finding("bad-file", "nothing here", span(0, 0)))
    assert text.startswith("error[bad-file] nothing here\n  main.show:1:1\n")
