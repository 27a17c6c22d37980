"""`linstock format` on files: in place, all or nothing, and never a broken one."""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path

import pytest

from compiler.cli.format import format_files

CROOKED = "a   1\nb {c;d}\n"
STRAIGHT = "a 1\nb { c; d }\n"
BROKEN = 'a "never closed\n'


def saved(folder: Path, name: str, text: str | bytes) -> Path:
    """A file with a text, bytes as they are."""
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def test_a_file_is_laid_out_in_place_and_keeps_its_mode(tmp_path: Path) -> None:
    path = saved(tmp_path, "a.show", CROOKED)
    path.chmod(0o640)
    assert format_files([path], check=False, diff=False) == 0
    assert path.read_bytes() == STRAIGHT.encode()
    assert path.stat().st_mode & 0o777 == 0o640
    assert [one.name for one in tmp_path.iterdir()] == ["a.show"]


def test_a_file_in_canonical_layout_is_not_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = saved(tmp_path, "a.show", STRAIGHT)
    before = path.stat()
    assert format_files([path], check=False, diff=False) == 0
    after = path.stat()
    assert (after.st_mtime_ns, after.st_ino) == (before.st_mtime_ns, before.st_ino)
    assert capsys.readouterr().out == ""


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    path = saved(tmp_path, "a.show", CROOKED)
    link = tmp_path / "link.show"
    link.symlink_to(path)
    assert format_files([link], check=False, diff=False) == 0
    assert link.is_symlink()
    assert path.read_text() == STRAIGHT


@pytest.mark.parametrize(
    "data", [STRAIGHT.replace("\n", "\r\n").encode(), b"\xef\xbb\xbf" + STRAIGHT.encode(), STRAIGHT.rstrip().encode()]
)
def test_line_ends_become_line_feeds_and_a_mark_goes(tmp_path: Path, data: bytes) -> None:
    path = saved(tmp_path, "a.show", data)
    assert format_files([path], check=True, diff=False) == 1
    assert path.read_bytes() == data
    assert format_files([path], check=False, diff=False) == 0
    assert path.read_bytes() == STRAIGHT.encode()


def test_check_names_what_would_change_and_writes_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    crooked, straight = saved(tmp_path, "a.show", CROOKED), saved(tmp_path, "b.show", STRAIGHT)
    assert format_files([crooked, straight], check=True, diff=False) == 1
    assert capsys.readouterr().out == f"{crooked}: would change\n"
    assert crooked.read_text() == CROOKED
    assert format_files([straight], check=True, diff=False) == 0


def test_a_diff_shows_line_ends_too_and_writes_nothing(tmp_path: Path, capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    path = saved(tmp_path, "a.show", "a   1\r\nb  2\nc")
    assert format_files([path], check=False, diff=True) == 0
    assert path.read_bytes() == b"a   1\r\nb  2\nc"
    difference = capsysbinary.readouterr().out
    assert difference.startswith(f"--- {path}\n+++ {path}\n".encode())
    lines = difference.split(b"\n")
    removed = [line[1:] for line in lines[2:] if line.startswith(b"-")]
    added = [line[1:] for line in lines[2:] if line.startswith(b"+")]
    assert removed == [b"a   1\r", b"b  2", b"c"]
    assert added == [b"a 1", b"b 2", b"c"]
    assert lines[lines.index(b"-c") + 1] == b"\\ No newline at end of file"
    assert lines[-2:] == [b"+c", b""]


def test_a_diff_with_check_gives_the_exit_code(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = saved(tmp_path, "a.show", CROOKED)
    assert format_files([path], check=True, diff=True) == 1
    told = capsys.readouterr()
    assert told.out.startswith("---")
    assert "would change" in told.err


def test_a_broken_file_is_told_and_left_alone_and_the_others_are_done(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    broken, crooked = saved(tmp_path, "a.show", BROKEN), saved(tmp_path, "b.show", CROOKED)
    assert format_files([broken, crooked], check=False, diff=False) == 1
    assert broken.read_text() == BROKEN
    assert crooked.read_text() == STRAIGHT
    told = capsys.readouterr().err
    assert "error[unclosed-text]" in told
    assert f"{broken}:1:3" in told


def test_a_file_that_is_no_text_is_told_and_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = saved(tmp_path, "a.show", b'a   "\xff"\n')
    assert format_files([path], check=False, diff=False) == 1
    assert path.read_bytes() == b'a   "\xff"\n'
    assert "not-utf8" in capsys.readouterr().err


def test_a_file_that_is_not_there_is_told_and_the_others_are_done(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    crooked = saved(tmp_path, "b.show", CROOKED)
    assert format_files([tmp_path / "none.show", tmp_path, crooked], check=False, diff=False) == 1
    assert crooked.read_text() == STRAIGHT
    assert "none.show" in capsys.readouterr().err


def test_a_file_that_cannot_be_replaced_stays_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = saved(tmp_path, "a.show", CROOKED)

    def full(_self: Path, _target: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    assert format_files([path], check=False, diff=False) == 1
    assert [one.name for one in tmp_path.iterdir()] == ["a.show"]
    assert path.read_text() == CROOKED
    assert "No space left" in capsys.readouterr().err


def test_standard_input_goes_to_standard_output(
    monkeypatch: pytest.MonkeyPatch, capsysbinary: pytest.CaptureFixture[bytes]
) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(CROOKED.replace("\n", "\r\n").encode())))
    assert format_files(["-"], check=False, diff=False) == 0
    assert capsysbinary.readouterr().out == STRAIGHT.encode()


def test_broken_standard_input_gives_no_output(
    monkeypatch: pytest.MonkeyPatch, capsysbinary: pytest.CaptureFixture[bytes]
) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(BROKEN.encode())))
    assert format_files(["-"], check=False, diff=False) == 1
    told = capsysbinary.readouterr()
    assert told.out == b""
    assert b"standard input:1:3" in told.err


def test_formatting_loads_nothing_heavy(tmp_path: Path) -> None:
    path = saved(tmp_path, "a.show", CROOKED)
    code = (
        "import sys; from compiler.cli.format import format_files; format_files([sys.argv[1]], False, False); "
        "print(sorted({'pint', 'networkx', 'numpy', 'jinja2', 'typst'} & set(sys.modules)))"
    )
    run = subprocess.run([sys.executable, "-c", code, str(path)], capture_output=True, text=True, check=True)
    assert run.stdout.splitlines()[-1] == "[]"
