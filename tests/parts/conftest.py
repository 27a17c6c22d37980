"""What the tests of the parts share: the catalogue as read, and shows compiled once."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from compiler.compile import compile_show
from grammar.findings import Finding

ROOT = Path(__file__).resolve().parents[2]
PARTS = ROOT / "compiler" / "parts"
SHOWS = ROOT / "shows"


class Compiled(NamedTuple):
    """A plan and what was found; `serious` leaves the notes out."""

    plan: dict[str, Any]
    findings: tuple[Finding, ...]

    @property
    def serious(self) -> list[str]:
        """Errors and warnings as text, so that a failing test shows them."""
        return [f"{f.rule}: {f.headline}" for f in self.findings if f.severity != "note"]

    def rows(self, key: str, by: str = "name") -> dict[str, dict[str, Any]]:
        """A list of the plan by the names in it."""
        return {row[by]: row for row in self.plan[key]}


@cache
def compiled(path: Path) -> Compiled:
    """A show of the checkout, compiled once in each process."""
    plan, findings = compile_show(path)
    return Compiled(plan, tuple(findings))


@pytest.fixture(scope="session")
def first_show() -> Compiled:
    """The show that the README walks through."""
    return compiled(SHOWS / "first-show" / "first-show.show")


@pytest.fixture(scope="session")
def lantern_quay() -> Compiled:
    """The demo show."""
    return compiled(SHOWS / "lantern-quay" / "lantern-quay.show")


@pytest.fixture
def compile_text(tmp_path: Path) -> Any:
    """Compiles a text as a show of its own."""

    def run(text: str) -> Compiled:
        path = tmp_path / "made.show"
        path.write_text(text, encoding="utf-8")
        plan, findings = compile_show(path)
        return Compiled(plan, tuple(findings))

    return run
