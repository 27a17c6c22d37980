"""Values as the language reads them, and the words for every way they can be wrong."""

from __future__ import annotations

from typing import Any

import pytest

from compiler.model.quantities import Given
from compiler.vocabulary.forms import Clause, Form, Record, decode_statement
from compiler.vocabulary.kinds import KINDS, LINE_KIND
from compiler.vocabulary.quantities import Point, Quantity
from compiler.vocabulary.shapes import Count, Names
from compiler.vocabulary.times import Moment, Time
from grammar.findings import Finding
from grammar.reader import read
from grammar.source import Source

FORM = Form(
    (),
    (
        Clause("len", Quantity("length")),
        Clause("ohm", Quantity("resistance", spread=True)),
        Clause("volt", Quantity("voltage", spread=True)),
        Clause("temp", Quantity("temperature", spread=True)),
        Clause("pitch", Quantity("resistance per length", spread=True)),
        Clause("gauge", Quantity("gauge")),
        Clause("count", Count(0, 99)),
        Clause("time", Time()),
        Clause("plus", Time(offset=True)),
        Clause("when", Moment()),
        Clause("place", Point()),
        Clause("names", Names(("position",))),
        Clause("in", Names((), many=False)),
    ),
)


def decoded(text: str) -> tuple[Record, list[Finding]]:
    """One statement read by the form above."""
    findings: list[Finding] = []
    tree, mended = read(Source("t", f"head {text}"))
    assert not mended
    return decode_statement(FORM, tree.statements[0], findings, what="head"), findings


@pytest.mark.parametrize(
    ("text", "key", "value"),
    [
        ("len 48 m", "len", 48.0),
        ("len 160 ft", "len", 48.768),
        ("len 1.75 in", "len", 0.04445),
        ("len 150mm", "len", 0.15),
        ("ohm 1.6 ohm ± 0.2", "ohm", Given(1.4, 1.6, 1.8)),
        ("ohm 1.6 ohm +- 0.2 ohm", "ohm", Given(1.4, 1.6, 1.8)),
        ("ohm 0.8 .. 2.0 ohm", "ohm", Given(0.8, 1.4, 2.0)),
        ("volt 24 V +- 10 %", "volt", Given(21.6, 24.0, 26.4)),
        ("volt 21 .. 29.4 V nominal 25.2 V", "volt", Given(21.0, 25.2, 29.4)),
        ("temp 5 .. 30 degC", "temp", Given(5.0, 17.5, 30.0)),
        ("temp 32 .. 212 degF", "temp", Given(0.0, 50.0, 100.0)),
        ("temp 20 degC ± 5 K", "temp", Given(15.0, 20.0, 25.0)),
        ("pitch 26 ohm per km", "pitch", Given.exact(0.026)),
        ("pitch 6.4 ohm per 1000 ft", "pitch", Given.exact(6.4 / 304.8)),
        ("pitch 26 ohm/km", "pitch", Given.exact(0.026)),
        ("gauge 18 awg", "gauge", 18.0),
        ("count 30", "count", 30),
        ("time 0:06.0", "time", 6.0),
        ("time 3:05", "time", 185.0),
        ("time 1:02:03.5", "time", 3723.5),
        ("time -0:10", "time", -10.0),
        ("time 0:00.000001", "time", 0.000001),
        ("plus +0:02.5", "plus", 2.5),
        ("when 2027-06-19 22:15:00", "when", "2027-06-19 22:15:00"),
        ("place -18 m, 12 m, 14 m", "place", (-18.0, 12.0, 14.0)),
        ("place -40 m, 0 m", "place", (-40.0, 0.0, 0.0)),
    ],
)
def test_a_value_comes_out_in_si(text: str, key: str, value: Any) -> None:
    record, findings = decoded(text)
    assert not findings
    assert record.get(key) == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "rule", "said"),
    [
        ("len 48", "missing-unit", "48 has no unit"),
        ("len 48 metres", "unknown-unit", "`metres`"),
        ("len 48 V", "wrong-dimension", "a voltage"),
        ("len 1 .. 2 m", "unexpected-value", "one value"),
        ("ohm 3 .. 1 ohm", "empty-range", "backwards"),
        ("ohm 1 .. 2 ohm nominal 3 ohm", "out-of-range", "outside"),
        ("ohm 1 ohm ±", "missing-value", "tolerance"),
        ("temp 20 K", "wrong-dimension", "a temperature difference"),
        ("pitch 26 ohm per V", "wrong-dimension", "per voltage"),
        ("count 1.5", "bad-number", "1.5"),
        ("count 500", "out-of-range", "500"),
        ("time 0:6", "bad-time", "0:6"),
        ("time 0:75", "bad-time", "59"),
        ("time 01:00:00:00", "bad-time", "01:00:00:00"),
        ("time +0:05", "bad-time", "an offset"),
        ("plus 0:05", "bad-time", "a show time"),
        ("when 2027-02-30 22:15:00", "bad-time", "2027-02-30"),
        ("place 1 m", "unexpected-value", "1 coordinates"),
        ("place 2,5 m", "bad-number", "decimal comma"),
        ("names Q1..R2", "empty-range", "Q1..R2"),
        ("in a, b", "unexpected-value", "one name"),
        ("len", "missing-value", "nothing"),
        ("lenn 4 m", "unknown-property", "lenn"),
        ("len 4 m len 5 m", "duplicate-property", "twice"),
        ("len 4 m 7", "unexpected-value", "`7`"),
    ],
)
def test_a_wrong_value_is_told_once_and_says_what_is_due(text: str, rule: str, said: str) -> None:
    _, findings = decoded(text)
    assert [f.rule for f in findings] == [rule]
    assert said in findings[0].headline
    assert findings[0].hint


def test_a_count_before_the_word_in_is_not_taken_for_inches() -> None:
    record, findings = decoded("count 3 in series")
    assert not findings
    assert record.get("count") == 3


def test_a_word_of_the_vocabulary_can_be_a_name_after_the_head() -> None:
    findings: list[Finding] = []
    tree, _ = read(Source("t", "battery source { voltage 24 V }"))
    record = decode_statement(KINDS["battery"].form, tree.statements[0], findings, what="battery")
    assert not findings
    assert record.get("name")[0].text == "source"


@pytest.mark.parametrize("word", [*KINDS, "line"])
def test_the_example_of_every_kind_reads_without_a_finding(word: str) -> None:
    kind = KINDS.get(word, LINE_KIND)
    findings: list[Finding] = []
    tree, mended = read(Source("t", kind.example))
    decode_statement(kind.form, tree.statements[0], findings, skip_head=word != "line", what=word)
    assert not mended
    assert not findings


def test_the_language_reference_is_what_the_vocabulary_says() -> None:
    from pathlib import Path

    from compiler.vocabulary.reference import reference_text

    page = Path(__file__).parents[2] / "grammar" / "REFERENCE.md"
    assert page.read_text("utf-8") == reference_text(), "make it anew: python -m compiler.vocabulary.reference"
