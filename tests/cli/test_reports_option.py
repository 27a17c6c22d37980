"""`--report`: several formats in one run, one document on standard output, files whole or not at all."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from compiler import cli, reports
from compiler.reports import told
from tests.cli.conftest import Ran, environment


def test_the_command_offers_the_formats_that_exist() -> None:
    assert cli.FORMATS == reports.FORMATS
    assert cli.SEVERITIES == told.SEVERITIES


def test_text_is_printed_where_no_other_report_is(linstock: Callable[..., Ran], shows: Path) -> None:
    plain = linstock("check", "broken.show")
    beside = linstock("check", "broken.show", "--report", "json=found.json", "--report", "junit=deep/er/found.xml")
    assert beside.out == plain.out
    assert plain.out.startswith("note[makers-data-missing]")
    assert json.loads((shows / "found.json").read_text())["failed"] is True
    assert ET.parse(shows / "deep" / "er" / "found.xml").getroot().tag == "testsuites"


@pytest.mark.parametrize("command", [("check",), ("build", "--out", "out", "--paper", "a4")])
def test_standard_output_holds_exactly_one_document(
    linstock: Callable[..., Ran], shows: Path, command: tuple[str, ...]
) -> None:
    ran = linstock(command[0], "broken.show", *command[1:], "--report", "json", "--report", "text=found.txt")
    assert json.loads(ran.out)["counts"]["error"] == 1
    assert "error[unknown-name]" in (shows / "found.txt").read_text()
    assert ("files in out" in ran.err) == (command[0] == "build")


def test_a_dash_is_standard_output(linstock: Callable[..., Ran], shows: Path) -> None:
    ran = linstock("check", "clean.show", "--report", "json=-")
    assert json.loads(ran.out)["show"] == "clean.show"


def test_a_report_takes_the_place_of_the_earlier_one_and_leaves_nothing_beside_it(
    linstock: Callable[..., Ran], shows: Path
) -> None:
    (shows / "found.json").write_text("old")
    before = set(shows.iterdir())
    assert linstock("check", "clean.show", "--report", "json=found.json").code == 0
    assert set(shows.iterdir()) == before
    assert json.loads((shows / "found.json").read_text())["failed"] is False


def test_a_report_that_cannot_be_written_leaves_the_earlier_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from compiler.cli.output import write_whole

    target = tmp_path / "found.json"
    target.write_text("old")

    def full(self: Path, data: bytes) -> int:
        with self.open("wb") as file:
            file.write(data[:3])
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(OSError, match="No space left"):
        write_whole(target, b"new text")
    assert target.read_text() == "old"
    assert list(tmp_path.iterdir()) == [target]


def test_a_device_is_written_to_and_never_replaced(linstock: Callable[..., Ran], shows: Path) -> None:
    assert linstock("check", "clean.show", "--report", "json=/dev/null").code == 0
    assert Path("/dev/null").is_char_device()


def test_a_linked_report_stays_a_link(linstock: Callable[..., Ran], shows: Path) -> None:
    (shows / "kept.json").write_text("")
    (shows / "link.json").symlink_to("kept.json")
    assert linstock("check", "clean.show", "--report", "json=link.json").code == 0
    assert (shows / "link.json").is_symlink()
    assert json.loads((shows / "kept.json").read_text())["failed"] is False


def test_paths_are_told_from_where_the_command_runs(linstock: Callable[..., Ran], shows: Path) -> None:
    (shows / "deep").mkdir()
    (shows / "broken.show").rename(shows / "deep" / "broken.show")
    for name in ("deep/broken.show", str(shows / "deep" / "broken.show"), "deep/../deep/broken.show"):
        found = json.loads(linstock("check", name, "--report", "json").out)
        assert {finding["place"]["file"] for finding in found["findings"]} == {"deep/broken.show"}
        assert str(shows) not in json.dumps(found)


def test_two_runs_write_the_same_bytes(linstock: Callable[..., Ran], shows: Path) -> None:
    for form in reports.FORMATS:
        first = linstock("check", "broken.show", "--report", form, PYTHONHASHSEED="1")
        second = linstock("check", "broken.show", "--report", form, PYTHONHASHSEED="2")
        assert first == second
        assert first.out


@pytest.mark.parametrize(
    ("surroundings", "start"),
    [
        ({"GITHUB_ACTIONS": "true"}, "::notice title="),
        ({"TF_BUILD": "True"}, "##vso[task.logissue type=warning;"),
        ({"TEAMCITY_VERSION": "2026.1"}, "##teamcity[inspectionType "),
        ({}, "clean.show:6:1: note: "),
    ],
)
def test_annotations_suit_the_service_that_the_command_runs_in(
    linstock: Callable[..., Ran], shows: Path, surroundings: dict[str, str], start: str
) -> None:
    ran = linstock("check", "clean.show", "--report", "annotations", **surroundings)
    assert ran.code == 0
    assert ran.out.startswith(start), ran.out


@pytest.mark.parametrize(
    ("surroundings", "coloured"),
    [({}, True), ({"NO_COLOR": "1"}, False), ({"NO_COLOR": ""}, True), ({"TERM": "dumb"}, False)],
)
def test_a_terminal_gets_colours_unless_it_wants_none(
    shows: Path, surroundings: dict[str, str], *, coloured: bool
) -> None:
    ours, theirs = os.openpty()
    command = [sys.executable, "-m", "compiler", "check", "clean.show"]
    with subprocess.Popen(command, cwd=shows, env=environment(**surroundings), stdout=theirs) as process:
        assert process.wait(timeout=60) == 0
    text = os.read(ours, 100_000).decode()
    os.close(ours)
    os.close(theirs)
    assert "makers-data-missing" in text
    assert ("\x1b[" in text) == coloured


def test_colours_are_for_terminals_and_for_those_who_ask(linstock: Callable[..., Ran], shows: Path) -> None:
    plain = linstock("check", "broken.show")
    always = linstock("check", "broken.show", "--color", "always", NO_COLOR="1")
    assert "\x1b" not in plain.out
    assert "\x1b[31m" in always.out
    assert plain == linstock("check", "broken.show", "--color", "never")


def test_a_text_report_in_a_file_has_no_colours(linstock: Callable[..., Ran], shows: Path) -> None:
    linstock("check", "broken.show", "--color", "always", "--report", "text=found.txt")
    assert "\x1b" not in (shows / "found.txt").read_text()


def test_an_output_that_holds_only_ascii_gets_question_marks(linstock: Callable[..., Ran], shows: Path) -> None:
    ran = linstock("check", "broken.show", PYTHONIOENCODING="ascii")
    assert ran.code == 1
    assert "? Did you mean `shell-75`?" in ran.out


def test_a_document_is_utf8_whatever_the_locale_says(linstock: Callable[..., Ran], shows: Path) -> None:
    (shows / "warm.show").write_text("# \u00e9\nspam \u00e9\u00e9\n", encoding="utf-8")
    ran = linstock("check", "warm.show", "--report", "sarif", PYTHONIOENCODING="ascii")
    assert json.loads(ran.out)["version"] == "2.1.0"
