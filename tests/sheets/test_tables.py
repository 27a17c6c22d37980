"""The load table as CSV: every match, numbers as numbers, and no formula from a show's text."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest

from compiler.sheets.tables import load_table_csv

Plan = dict[str, Any]
SAMPLE = Path(__file__).parent / "sample_plan.json"


@pytest.fixture
def plan() -> Plan:
    """The sample plan."""
    made: Plan = json.loads(SAMPLE.read_text(encoding="utf-8"))
    return made


def rows(plan: Plan) -> list[dict[str, str]]:
    """The table read back."""
    return list(csv.DictReader(io.StringIO(load_table_csv(plan), newline="")))


def test_lines_end_as_rfc_4180_says(plan: Plan) -> None:
    text = load_table_csv(plan)
    assert text.endswith("\r\n")
    assert text.count("\n") == text.count("\r\n")


def test_there_is_one_row_for_every_match(plan: Plan) -> None:
    matches = {(c["name"], m["name"]) for c in plan["circuits"] for m in c["matches"]}
    found = [(row["circuit"], row["match"]) for row in rows(plan)]
    outs = [(out["circuit"], "") for out in plan["outs"]]
    assert len(found) == len(matches) + len(outs)
    assert set(found) == matches | set(outs)


def test_headings_name_the_unit_of_every_number(plan: Plan) -> None:
    heading = next(csv.reader([load_table_csv(plan).splitlines()[0]]))
    assert len(heading) == len(set(heading))
    amps = [h for h in heading if "current" in h or "load greatest" in h or "limit (" in h]
    assert len(amps) >= 10
    assert all(h.endswith("(A)") for h in amps)
    assert all(h.endswith("(ohm)") for h in heading if h.startswith(("resistance", "meter")))
    assert all(h.endswith("(s)") for h in heading if "load at" in h)


def test_numbers_stay_the_numbers_of_the_plan(plan: Plan) -> None:
    by_match = {m["name"]: m for c in plan["circuits"] for m in c["matches"]}
    compared = 0
    for row in rows(plan):
        match = by_match.get(row["match"], {"current_a": None})
        if match["current_a"] is not None:
            compared += 1
            assert float(row["current least (A)"]) == match["current_a"]["least"]
            assert float(row["margin"]) == match["margin"]
    assert compared > 30


def test_what_was_not_computed_is_an_empty_cell(plan: Plan) -> None:
    row = next(row for row in rows(plan) if row["circuit"] == "Q9-wheel-green-1")
    assert (row["current least (A)"], row["margin"], row["current required (A)"]) == ("", "", "")


def test_a_negative_number_stays_a_number(plan: Plan) -> None:
    plan["circuits"][0]["matches"][0]["margin"] = -1.5
    assert "-1.5" in {row["margin"] for row in rows(plan)}


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t=", "\r=", " =", "\u00a0@", "\uff1d"])
def test_text_that_a_spreadsheet_would_run_gets_an_apostrophe(plan: Plan, start: str) -> None:
    for circuit in plan["circuits"]:
        circuit["label"] = f"{start}1+1"
    for out in plan["outs"]:
        out["label"] = f"{start}1+1"
    assert all(row["label"].startswith("'") for row in rows(plan))


def test_ordinary_text_gets_none(plan: Plan) -> None:
    assert {row["label"][0] for row in rows(plan)} == {"A", "B", "C"}


def test_quotes_commas_and_line_ends_stay_inside_their_cell(plan: Plan) -> None:
    plan["circuits"][0]["label"] = 'a "b", c\r\nd,e'
    found = rows(plan)
    assert 'a "b", c  d,e' in {row["label"] for row in found}
    assert len(found) == sum(len(c["matches"]) for c in plan["circuits"]) + len(plan["outs"])


def test_a_circuit_without_a_match_still_has_its_row(plan: Plan) -> None:
    plan["circuits"][0]["matches"] = []
    name = plan["circuits"][0]["name"]
    assert [row["match"] for row in rows(plan) if row["circuit"] == name] == [""]
