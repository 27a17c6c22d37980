"""Fingerprints change with what is printed, and with nothing else."""

from __future__ import annotations

import copy
import hashlib
import json
from types import ModuleType
from typing import Any

import pytest

from compiler.plan.build import build_plan
from compiler.plan.fingerprint import fingerprint, sheet_fingerprint, short


@pytest.fixture
def plan(sample: ModuleType) -> dict[str, Any]:
    """The sample show's plan."""
    return build_plan(sample.solved(), sample.FINDINGS, sample.place)


def stripped(value: Any) -> Any:
    """The value without places, as a reader would write it down from the rule."""
    if isinstance(value, dict):
        return {key: stripped(item) for key, item in value.items() if key != "place"}
    return [stripped(item) for item in value] if isinstance(value, list) else value


def test_it_is_the_sha_256_of_the_canonical_plan(plan: dict[str, Any]) -> None:
    rest = {key: item for key, item in plan.items() if key not in ("fingerprint", "tool_version")}
    text = json.dumps(stripped(rest), sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    assert plan["fingerprint"] == hashlib.sha256(text.encode("utf-8")).hexdigest()


def test_places_and_the_tool_do_not_count(plan: dict[str, Any]) -> None:
    other = copy.deepcopy(plan)
    other["tool_version"] = "9.9"
    other["fingerprint"] = "something else"
    for finding in other["findings"]:
        finding["place"] = {"file": "other.show", "line": 99, "column": 9}
    assert fingerprint(other) == plan["fingerprint"]


def test_a_place_far_inside_does_not_count_either() -> None:
    assert fingerprint({"a": [{"b": {"place": 1, "c": 2}}]}) == fingerprint({"a": [{"b": {"c": 2}}]})
    assert fingerprint({"a": "place"}) != fingerprint({"a": ""})


def test_one_digit_of_one_current_counts(plan: dict[str, Any]) -> None:
    other = copy.deepcopy(plan)
    other["circuits"][0]["matches"][0]["current_a"]["least"] += 1e-9
    assert fingerprint(other) != plan["fingerprint"]


def test_the_order_of_keys_does_not_count(plan: dict[str, Any]) -> None:
    other = dict(reversed(list(plan.items())))
    assert fingerprint(other) == plan["fingerprint"]


def test_a_sheet_has_a_fingerprint_of_its_own() -> None:
    assert sheet_fingerprint({"a": 1, "b": "é"}) == sheet_fingerprint({"b": "é", "a": 1})
    assert sheet_fingerprint({"a": 1}) != sheet_fingerprint({"a": 2})


def test_people_read_eight_digits_in_two_groups() -> None:
    assert short("3f9a07c1" + "0" * 56) == "3f9a 07c1"
