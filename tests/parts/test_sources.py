"""Every built-in part and every limit says where its numbers come from."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

PARTS = Path(__file__).resolve().parents[2] / "compiler" / "parts"
SEEN = re.compile(r"confirmed|computed|common practice|from memory")
PART = re.compile(r"^(match|cable|module|battery|effect) ([\w.-]+) \{(.*?)\}$", re.MULTILINE | re.DOTALL)
RULESET = re.compile(r'^ruleset "([^"]+)"(?: like "[^"]+")? \{(.*?)^\}$', re.MULTILINE | re.DOTALL)


def parts() -> Iterator[tuple[str, str]]:
    """Every part as (name, text of its block), by the text alone and not by the reader under test."""
    for path in sorted(PARTS.glob("*.show")):
        for kind, name, block in PART.findall(path.read_text(encoding="utf-8")):
            yield f"{kind} {name}", block


def limits() -> Iterator[tuple[str, str]]:
    """Every limit of every rule set as (set and id, its line)."""
    for name, block in RULESET.findall((PARTS / "rules.show").read_text(encoding="utf-8")):
        for line in block.strip().splitlines():
            word = line.split()[0]
            if word != "dated":
                yield f"{name} {word}", line


def test_the_catalogue_holds_every_kind_of_part() -> None:
    kinds = [name.split()[0] for name, _ in parts()]
    assert {kind: kinds.count(kind) for kind in set(kinds)} == {
        "match": 2,
        "cable": 28,
        "module": 3,
        "battery": 4,
        "effect": 159,
    }


@pytest.mark.parametrize(("name", "block"), list(parts()), ids=lambda text: text.split("\n")[0])
def test_a_part_has_a_source_and_says_how_far_it_was_seen(name: str, block: str) -> None:
    source = re.search(r'source +"([^"]+)"', block)
    confidence = re.search(r'confidence +"([^"]+)"', block)
    assert source is not None, name
    assert confidence is not None, name
    assert SEEN.search(confidence.group(1)), confidence.group(1)


@pytest.mark.parametrize(("name", "line"), list(limits()), ids=lambda text: text[:30])
def test_a_limit_has_a_source_and_says_how_far_it_was_seen(name: str, line: str) -> None:
    source = re.search(r' source "([^"]+)"', line)
    confidence = re.search(r' confidence "([^"]+)"', line)
    assert source is not None, name
    assert confidence is not None, name
    assert SEEN.search(confidence.group(1)), confidence.group(1)


def test_every_rule_set_has_a_date() -> None:
    sets = RULESET.findall((PARTS / "rules.show").read_text(encoding="utf-8"))
    assert [name for name, _ in sets] == ["strict", "wac-212-17", "sprengv"]
    for name, block in sets:
        assert re.search(r"^ +dated +\d{4}-\d\d-\d\d$", block, re.MULTILINE), name


def test_only_stand_ins_of_this_catalogue_are_called_generic() -> None:
    generic = [name for name, block in parts() if re.search(r"^ +generic$", block, re.MULTILINE)]
    assert generic == ["match generic-match", "match generic-match-u"]
