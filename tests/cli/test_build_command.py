"""`build`: the compiler's version stands in the plan, outside the fingerprint."""

from __future__ import annotations

import json
from collections.abc import Callable
from importlib.metadata import version
from pathlib import Path

from jsonschema import Draft202012Validator

from compiler.plan import schema_text
from compiler.plan.fingerprint import fingerprint
from tests.cli.conftest import Ran


def test_the_plan_names_the_version_of_the_compiler_outside_its_fingerprint(
    linstock: Callable[..., Ran], shows: Path
) -> None:
    assert linstock("build", "clean.show", "--out", "out", "--paper", "a4").code == 0
    plan = json.loads((shows / "out" / "plan.json").read_text(encoding="utf-8"))
    assert plan["tool_version"] == version("linstock")
    Draft202012Validator(json.loads(schema_text())).validate(plan)
    other = {**plan, "tool_version": "99"}
    assert fingerprint(other) == fingerprint(plan) == plan["fingerprint"]


def test_two_builds_are_the_same_bytes(linstock: Callable[..., Ran], shows: Path) -> None:
    for out in ("one", "two"):
        assert linstock("build", "clean.show", "--out", out, "--paper", "a4").code == 0
    one, two = ({path.name: path.read_bytes() for path in (shows / out).iterdir()} for out in ("one", "two"))
    assert one == two
    assert len(one) > 4
