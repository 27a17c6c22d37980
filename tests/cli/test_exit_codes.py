"""The exit codes as a contract: 0 clean, 1 findings of the failing severity, 2 wrong use."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import ROOT, Ran, environment

TABLE = [
    ("check clean.show", 0),
    ("check clean.show --fail-on warning", 0),
    ("check clean.show --fail-on note", 1),
    ("check warned.show", 0),
    ("check warned.show --fail-on warning", 1),
    ("check broken.show", 1),
    ("check broken.show --fail-on error", 1),
    ("check broken.show --report json", 1),
    ("check clean.show --report json", 0),
    ("check broken.show --report junit=x.xml", 1),
    ("check", 2),
    ("check clean.show warned.show", 2),
    ("check missing.show", 2),
    ("check folder", 2),
    ("check loop.show", 2),
    ("check clean.show --fail-on never", 2),
    ("check clean.show --report pdf", 2),
    ("check clean.show --report json=", 2),
    ("check clean.show --report json --report text", 2),
    ("check clean.show --report json=x.json --report text=./x.json", 2),
    ("check clean.show --report json=clean.show", 2),
    ("check clean.show --report json=folder", 2),
    ("check clean.show --no-such-option", 2),
    ("build clean.show", 2),
    ("build clean.show --out filled", 2),
    ("build clean.show --out out --report json=out/x.json", 2),
    ("build missing.show --out out", 2),
    ("format clean.show", 0),
    ("format --check clean.show", 0),
    ("format --check messy.show", 1),
    ("format torn.show", 1),
    ("format", 2),
    ("format clean.show folder", 2),
    ("format clean.show missing.show", 2),
    ("explain firing-current", 0),
    ("explain --all", 0),
    ("explain", 2),
    ("explain firing-current --all", 2),
    ("explain no-such-rule", 2),
    ("parts zip 18", 0),
    ("parts no-such-part", 1),
    ("parts --kind cabel", 2),
    ("new fresh/show", 0),
    ("new filled", 2),
    ("new clean.show", 2),
    ("schema", 0),
    ("schema findings", 0),
    ("schema sheets", 2),
    ("completion bash", 0),
    ("completion tcsh", 2),
    ("--version", 0),
    ("--help", 0),
    ("launch", 2),
]


@pytest.mark.parametrize(("line", "code"), TABLE, ids=[line for line, _ in TABLE])
def test_the_exit_code_is_as_promised(linstock: Callable[..., Ran], shows: Path, line: str, code: int) -> None:
    (shows / "folder").mkdir()
    (shows / "filled").mkdir()
    (shows / "loop.show").symlink_to("loop.show")
    (shows / "filled" / "mine.txt").write_text("keep me")
    (shows / "messy.show").write_text("position   Q1 at 0 m,0 m\n")
    (shows / "torn.show").write_text("position Q1 {\n")
    ran = linstock(*line.split())
    assert ran.code == code, ran.err
    assert "Traceback" not in ran.err
    assert (shows / "filled" / "mine.txt").read_text() == "keep me"


@pytest.mark.parametrize("name", ["clean", "warned", "broken"])
def test_a_build_has_the_exit_code_of_its_check(linstock: Callable[..., Ran], shows: Path, name: str) -> None:
    assert (
        linstock("check", f"{name}.show").code == linstock("build", f"{name}.show", "--out", "o", "--paper", "a4").code
    )
    assert (shows / "o" / "plan.json").exists()


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("check", "folder"), "linstock: `folder` is a folder. Name the show's file, as in `folder/a.show`."),
        (("check", "claen.show"), "linstock: There is no file `claen.show`. Did you mean `clean.show`?"),
        (
            ("explain", "fireing-current"),
            "linstock: There is no rule called `fireing-current`. Did you mean `firing-current`?",
        ),
        (
            ("check", "clean.show", "--report", "sarif", "--report", "junit"),
            "linstock: Standard output holds one report, not 2. Give the others a file, as in `--report junit=PATH`.",
        ),
        (
            ("check", "clean.show", "--report", "json=clean.show"),
            "linstock: `clean.show` is a file of the show. Name another file for the json report.",
        ),
    ],
)
def test_wrong_use_is_told_in_one_line_with_what_to_do(
    linstock: Callable[..., Ran], shows: Path, arguments: tuple[str, ...], said: str
) -> None:
    (shows / "folder").mkdir()
    (shows / "folder" / "a.show").write_text("")
    ran = linstock(*arguments)
    assert (ran.code, ran.out, ran.err) == (2, "", said + "\n")


def test_a_file_that_cannot_be_read_is_a_finding(linstock: Callable[..., Ran], shows: Path) -> None:
    (shows / "outside").mkdir()
    (shows / "inside").mkdir()
    (shows / "outside" / "real.show").write_text("")
    (shows / "inside" / "link.show").symlink_to(shows / "outside" / "real.show")
    ran = linstock("check", "inside/link.show")
    assert ran.code == 1
    assert ran.out.startswith("error[bad-file] `link.show` cannot be read")


def test_a_build_of_nothing_readable_leaves_the_earlier_build(linstock: Callable[..., Ran], shows: Path) -> None:
    assert linstock("build", "clean.show", "--out", "out", "--paper", "a4").code == 0
    before = (shows / "out" / "plan.json").read_bytes()
    (shows / "folder").mkdir()
    (shows / "folder" / "link.show").symlink_to(shows / "clean.show")
    ran = linstock("build", "folder/link.show", "--out", "out", "--paper", "a4")
    assert ran.code == 1
    assert "bad-file" in ran.out
    assert (shows / "out" / "plan.json").read_bytes() == before


def test_a_reader_that_leaves_the_pipe_is_no_error(shows: Path) -> None:
    (shows / "many.show").write_text("spam\n" * 20_000)
    command = [sys.executable, "-m", "compiler", "check", "many.show"]
    with subprocess.Popen(
        command, cwd=shows, env=environment(), stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        assert process.stdout.read(10)
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait(timeout=60) == 1


@pytest.mark.parametrize("redirect", ["> /dev/full", ">&-"])
def test_an_output_that_cannot_be_written_is_never_a_traceback(shows: Path, redirect: str) -> None:
    line = f"{sys.executable} -m compiler check clean.show {redirect}"
    done = subprocess.run(line, shell=True, cwd=shows, env=environment(), capture_output=True, timeout=60, check=False)
    said = done.stderr.decode()
    assert "Traceback" not in said
    assert (done.returncode, said.count("\n")) == ((2, 1) if "full" in redirect else (0, 0))


INTERRUPTED = """
import os, signal, sys
import compiler.cli.run as run
run.solve = lambda path: os.kill(os.getpid(), signal.SIGINT)
from compiler.cli import entry
sys.argv = ["linstock", "check", "clean.show"]
entry()
"""


def test_an_interrupt_ends_quietly_with_130(shows: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-c", INTERRUPTED], cwd=shows, env=environment(), capture_output=True, timeout=60, check=False
    )
    assert done.returncode == 130
    assert done.stdout == b""
    assert done.stderr.strip() == b""


IMPORTED = """
import sys
from contextlib import suppress
import click
before = set(sys.modules)
from compiler.cli import main
with suppress(SystemExit):
    main(sys.argv[1:])
print("\\n".join(sorted(set(sys.modules) - before)), file=sys.stderr)
"""


def test_help_imports_nothing_but_click_and_its_own_module() -> None:
    done = subprocess.run(
        [sys.executable, "-c", IMPORTED, "--help"],
        cwd=ROOT,
        env=environment(),
        capture_output=True,
        timeout=60,
        check=True,
    )
    loaded = done.stderr.decode().split()
    ours = {name for name in loaded if name.split(".")[0] in {"compiler", "grammar"}}
    assert ours == {"compiler", "compiler.cli"}
    foreign = {name.split(".")[0] for name in loaded} - {"compiler", "click"} - set(sys.stdlib_module_names)
    assert foreign == set()
    assert b"Usage:" in done.stdout
