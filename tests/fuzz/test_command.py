"""The command on odd files: its exit code says clean (0), found (1) or wrong use (2), and there is never a traceback."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from .test_any_input import HARD

ROOT = Path(__file__).resolve().parents[2]


def _check(path: Path, *options: str) -> tuple[int, str, str]:
    done = subprocess.run(
        (sys.executable, "-m", "compiler", "check", str(path), *options), cwd=ROOT, capture_output=True, check=False, timeout=60,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    out, err = done.stdout.decode(), done.stderr.decode()
    assert "Traceback" not in out + err
    return done.returncode, out, err


@pytest.mark.parametrize(
    ("data", "code", "said"),
    [
        (b"", 0, "clean"),
        (b"# only a remark\n", 0, "clean"),
        (b"\xff\xfe\x00", 1, "error[not-utf8]"),
        (b"\x00", 1, "error[stray-character]"),
        (b"rial A of dc-16\n", 1, "error[unknown-statement]"),
        (b'use "made.show"\n', 1, "error[use-cycle]"),
        (b'use "."\n', 1, "error[use-missing]"),
        (b'show "\x1b[2J\x1b[31m" { revision 1.5 }\n', 1, "error[bad-number]"),
    ],
)
def test_a_small_odd_file_gets_its_exit_code(data: bytes, code: int, said: str, tmp_path: Path) -> None:
    path = tmp_path / "made.show"
    path.write_bytes(data)
    returned, out, err = _check(path)
    assert (returned, err) == (code, "")
    assert said in out
    assert "\x1b" not in out


@pytest.mark.parametrize("name", ["quotes without end", "nothing but NUL", "every stray character", "numbers beyond all measure"])
def test_a_hard_file_gives_findings_on_the_command_line(name: str, tmp_path: Path) -> None:
    path = tmp_path / "made.show"
    path.write_bytes(HARD[name])
    returned, out, err = _check(path)
    assert (returned, err) == (1, "")
    assert "error[" in out


def test_a_folder_is_wrong_use(tmp_path: Path) -> None:
    returned, out, err = _check(tmp_path)
    assert (returned, out) == (2, "")
    assert tmp_path.name in err


def test_a_file_that_is_not_there_is_wrong_use(tmp_path: Path) -> None:
    returned, out, err = _check(tmp_path / "none.show")
    assert (returned, out) == (2, "")
    assert "none.show" in err


def test_a_file_that_cannot_be_opened_is_a_finding(tmp_path: Path) -> None:
    """A link to itself: nobody can open it, whoever runs this."""
    path = tmp_path / "made.show"
    path.write_text('use "loop.show"\n', encoding="utf-8")
    (tmp_path / "loop.show").symlink_to("loop.show")
    returned, out, err = _check(path)
    assert (returned, err) == (1, "")
    assert "error[use-missing]" in out


def test_a_file_without_the_right_to_read_it_is_no_traceback(tmp_path: Path) -> None:
    """As a person without rights; as root, who may read everything, another user is taken."""
    path = tmp_path / "made.show"
    path.write_text("# nothing\n", encoding="utf-8")
    path.chmod(0o000)
    if os.geteuid() != 0:
        returned, out, err = _check(path)
        assert returned in (1, 2)
        assert "made.show" in out + err
        return
    from compiler.compile import solve_files

    def refused(name: str) -> bytes:
        raise PermissionError(13, "Permission denied", name)

    findings = solve_files("made.show", refused).findings
    assert [finding.rule for finding in findings] == ["bad-file"]
    assert "Permission denied" in findings[0].headline


def test_a_file_far_too_large_is_a_finding(tmp_path: Path) -> None:
    path = tmp_path / "made.show"
    with path.open("wb") as file:
        file.truncate(30_000_000)
    returned, out, err = _check(path)
    assert (returned, err) == (1, "")
    assert "error[bad-file]" in out
