"""The JSON report keeps to its published schema and holds every finding."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from compiler.reports import rendered
from compiler.reports.findings import schema_text
from tests.reports.told import BAD, hostile, told_from
from tests.rules.test_registry import SAMPLES

SCHEMA = Draft202012Validator(json.loads(schema_text()))


def _json(told: Any) -> Any:
    value = json.loads(rendered("json", told))
    SCHEMA.validate(value)
    return value


def test_the_schema_is_a_schema_and_lets_nothing_else_pass() -> None:
    Draft202012Validator.check_schema(json.loads(schema_text()))
    value = _json(told_from(BAD))
    assert SCHEMA.is_valid(value)
    for path in ((), ("findings", 0), ("findings", 0, "place"), ("tool",)):
        other = json.loads(json.dumps(value))
        inner = other
        for key in path:
            inner = inner[key]
        inner["strange"] = 1
        assert not SCHEMA.is_valid(other), path


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*-breaks.show")), ids=lambda path: path.stem)
def test_the_findings_of_every_sample_fit_the_schema(path: Path) -> None:
    if path.is_dir():
        path = path / "main.show"
    text = path.read_bytes().decode("utf-8", "replace") if path.is_file() else ""
    told = told_from(text)
    value = _json(told)
    assert [finding["rule"] for finding in value["findings"]] == [finding.rule for finding in told.findings]


def test_a_finding_tells_its_place_its_related_places_and_its_edit() -> None:
    value = _json(told_from(BAD))
    by_rule = {finding["rule"]: finding for finding in value["findings"]}
    twice = by_rule["duplicate-name"]
    assert twice["place"] == {"file": "shows/main.show", "line": 2, "column": 10, "end_line": 2, "end_column": 12}
    assert twice["related"] == [
        {
            "word": "declared first here",
            "place": {"file": "shows/main.show", "line": 1, "column": 10, "end_line": 1, "end_column": 12},
        }
    ]
    assert by_rule["unclosed-text"]["edit"]["text"] == '"'
    assert value["counts"]["error"] == len(by_rule) == len(value["findings"])
    assert (value["failed"], value["show"], value["tool"]) == (
        True,
        "shows/main.show",
        {"name": "linstock", "version": "1.2"},
    )


def test_a_note_fails_a_run_only_where_notes_do() -> None:
    text = "position Q1 at 0 m, 0 m\nposition Q2 at 0 m, 0 m\n"
    assert _json(told_from(text))["counts"] == {"error": 0, "warning": 1, "note": 0}
    assert [_json(told_from(text, fail_on=least))["failed"] for least in ("error", "warning", "note")] == [
        False,
        True,
        True,
    ]


def test_what_somebody_answers_for_fails_no_run() -> None:
    value = _json(hostile())
    assert [finding["waived_by"] is None for finding in value["findings"]] == [True, False]
    assert value["failed"] is True


def test_hostile_text_comes_through_as_it_is() -> None:
    text = rendered("json", hostile())
    assert all(character.isprintable() or character in "\n\u202e\u2028\ud800" for character in text)
    value = json.loads(text)
    assert value["findings"][0]["headline"] == hostile().findings[0].headline
