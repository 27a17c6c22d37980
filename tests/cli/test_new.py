"""`new`: a show that works as it is, and never a file of somebody else's lost."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from compiler.compile import compile_show
from tests.cli.conftest import ROOT, Ran, environment

FILES = {".github/workflows/show.yml", ".gitignore", "README.md", "addresses.show", "ci/check", "weir-night.show"}


@pytest.fixture
def made(linstock: Callable[..., Ran], tmp_path: Path) -> Path:
    """A new show in a folder of its own."""
    assert linstock("new", "Weir Night").code == 0
    return tmp_path / "Weir Night"


def test_a_new_show_is_a_show_and_what_its_repository_needs(made: Path) -> None:
    assert {path.relative_to(made).as_posix() for path in made.rglob("*") if path.is_file()} == FILES
    assert len((made / "README.md").read_text().splitlines()) == 3
    assert all("@SHOW@" not in (made / name).read_text() for name in FILES)


def test_a_new_show_is_clean_and_every_finding_is_a_note(made: Path) -> None:
    plan, findings = compile_show(made / "weir-night.show")
    assert [f"{f.rule}: {f.headline}" for f in findings if f.severity != "note"] == []
    assert len(plan["cues"]) >= 8
    assert len(plan["rails"]) == 2


def test_a_new_show_is_laid_out_as_the_formatter_wants_it(linstock: Callable[..., Ran], made: Path) -> None:
    ran = linstock("format", "--check", *(str(path) for path in sorted(made.glob("*.show"))))
    assert (ran.code, ran.out) == (0, "")


def test_the_address_file_decides_an_address(made: Path) -> None:
    def address() -> tuple[str, int]:
        plan, _ = compile_show(made / "weir-night.show")
        circuit = next(c for c in plan["circuits"] if c["name"] == "W3-shell-75-gold-1")
        return circuit["rail"], circuit["channel"]

    assert address() == ("S", 1)
    path = made / "addresses.show"
    path.write_text(path.read_text().replace("to S.1", "to N.7"))
    assert address() == ("N", 7)


def test_the_ci_file_checks_prints_and_reports(made: Path, tmp_path: Path) -> None:
    assert (made / "ci" / "check").stat().st_mode & stat.S_IXUSR
    command = tmp_path / "bin" / "linstock"
    command.parent.mkdir()
    command.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m compiler "$@"\n')
    command.chmod(0o755)
    surroundings = environment(
        CI="true", GITHUB_ACTIONS="true", PATH=f"{command.parent}{os.pathsep}{os.environ['PATH']}"
    )
    done = subprocess.run(
        [made / "ci" / "check"], cwd=tmp_path, env=surroundings, capture_output=True, timeout=120, check=False
    )
    assert done.returncode == 0, done.stderr.decode()
    assert done.stdout.decode().startswith("::notice title=makers-data-missing,file=weir-night.show,")
    assert {path.name for path in (made / "reports").iterdir()} == {"findings.xml", "findings.sarif"}
    assert (made / "out" / "plan.json").exists()


def test_the_ci_file_fails_with_the_show(made: Path, tmp_path: Path) -> None:
    path = made / "weir-night.show"
    path.write_text(path.read_text().replace("12 m of zip-16", "12 m of zip-61"))
    command = tmp_path / "linstock"
    command.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m compiler "$@"\n')
    command.chmod(0o755)
    surroundings = environment(PATH=f"{tmp_path}{os.pathsep}{os.environ['PATH']}")
    done = subprocess.run([made / "ci" / "check"], env=surroundings, capture_output=True, timeout=120, check=False)
    assert done.returncode == 1
    assert b"there is no cable called `zip-61`" in done.stdout


def test_git_ignores_what_a_build_makes(made: Path) -> None:
    assert {"out/", "reports/"} <= set((made / ".gitignore").read_text().splitlines())


def test_an_empty_folder_is_taken_and_a_filled_one_left_alone(linstock: Callable[..., Ran], tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    assert linstock("new", "empty").code == 0
    (tmp_path / "filled").mkdir()
    (tmp_path / "filled" / ".hidden").write_text("mine")
    ran = linstock("new", "filled")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == "linstock: `filled` is not empty. Name a new folder, so that nothing of yours is lost.\n"
    assert [path.name for path in (tmp_path / "filled").iterdir()] == [".hidden"]


@pytest.mark.parametrize(("folder", "show"), [("addresses", "show.show"), ("…", "show.show"), ("Ünter", "nter.show")])
def test_a_folder_of_any_name_gives_a_show_of_a_plain_one(
    linstock: Callable[..., Ran], tmp_path: Path, folder: str, show: str
) -> None:
    assert linstock("new", folder).code == 0
    assert (tmp_path / folder / show).is_file()


def test_the_templates_are_part_of_the_package() -> None:
    assert {path.name for path in (ROOT / "compiler" / "templates").iterdir()} == {
        "README.md", "addresses.show", "check.sh", "gitignore", "show.show", "workflow.yml",
    }  # fmt: skip
