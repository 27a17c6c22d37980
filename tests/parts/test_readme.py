"""The README says what is so: its commands, its show, its rules."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def blocks(language: str) -> list[str]:
    """The fenced blocks of one language, in order."""
    return [text for word, text in FENCE.findall(README) if word == language]


def test_the_first_two_blocks_are_the_two_commands_and_do_their_own_set_up() -> None:
    build, test = FENCE.findall(README)[:2]
    assert (build[0], test[0]) == ("sh", "sh")
    for command in (build[1], test[1]):
        assert command.startswith("python3 -m venv .venv && .venv/bin/pip install ")
        assert len(command.strip().splitlines()) == 1
    assert "linstock build shows/lantern-quay/lantern-quay.show --out out/" in build[1]
    assert "-m pytest" in test[1]


def test_the_blocks_of_the_walk_are_one_clean_show(compile_text: Any) -> None:
    made = compile_text("\n".join(blocks("show")))
    assert made.serious == []
    assert len(made.plan["cues"]) == 11


def test_the_walk_and_the_first_show_are_the_same_plan(compile_text: Any, first_show: Any) -> None:
    made = compile_text("\n".join(blocks("show")))
    assert made.plan["fingerprint"] == first_show.plan["fingerprint"]


def test_the_slip_that_the_readme_shows_is_found_as_it_says(compile_text: Any) -> None:
    slip = "\n".join(blocks("show")).replace("lead   60 ft of zip-18", "lead   60 ft of bell-26")
    made = compile_text(slip)
    (error,) = [finding for finding in made.findings if finding.severity == "error"]
    (shown,) = blocks("text")
    assert shown.splitlines() == [f"error[{error.rule}] {error.headline}", f"  {error.working}"]


def test_every_rule_that_the_readme_names_has_a_manual_page() -> None:
    from compiler.checks import manual

    section = README.split("## What is checked")[1].split("\n## ")[0]
    slugs = re.findall(r"`([a-z]+(?:-[a-z]+)+)`", section)
    assert len(slugs) > 40
    assert [slug for slug in slugs if manual(slug) is None] == []


def test_the_readme_lists_the_files_that_a_build_leaves(tmp_path: Path) -> None:
    from click.testing import CliRunner

    from compiler.cli import main

    out = tmp_path / "out"
    show = ROOT / "shows" / "first-show" / "first-show.show"
    result = CliRunner().invoke(main, ["build", str(show), "--out", str(out)])
    assert result.exit_code == 0, result.output
    section = README.split("## What is printed")[1].split("\n## ")[0]
    listed = {
        name
        for row in section.splitlines()
        if row.startswith("| `")
        for name in re.findall(r"`([^`]+)`", row.split("|")[1])
    }
    assert {path.name for path in out.iterdir()} == listed


def listed_in(section: str) -> list[str]:
    """The first cells of a section's table, without its head."""
    text = README.split(f"## {section}\n")[1].split("\n## ")[0]
    rows = [row.split("|")[1].strip() for row in text.splitlines() if row.startswith("|")]
    return rows[2:]


def test_the_readme_lists_the_commands_that_there_are() -> None:
    from compiler.cli import main

    named = [re.sub(r"`linstock (\w+).*", r"\1", cell) for cell in listed_in("Commands")]
    assert sorted(named) == sorted(main.commands)


def test_the_readme_lists_the_exit_codes_that_there_are() -> None:
    from compiler.cli import CLEAN, FOUND, INTERRUPTED, WRONG_USE

    assert listed_in("Exit codes") == [str(code) for code in (CLEAN, FOUND, WRONG_USE, INTERRUPTED)]


def test_the_hooks_that_the_readme_shows_are_those_of_the_hook_file() -> None:
    hooks = (ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8")
    (shown,) = blocks("yaml")
    assert re.findall(r"^- id: (\S+)$", shown, re.MULTILINE) == re.findall(r"^- id: (\S+)$", hooks, re.MULTILINE)


def test_the_rules_about_people_are_named_in_the_readme() -> None:
    from compiler.checks import slugs

    section = README.split("## What is checked")[1].split("\n## ")[0]
    about = re.compile(r"^(crowd|hold|zone|press|hand|control|tube|waiver)-")
    rules = [slug for slug in slugs() if about.match(slug)]
    assert len(rules) > 10
    assert [slug for slug in rules if f"`{slug}`" not in section] == []
