"""Formatting keeps what a text says, in every text that can be read, and twice is the same as once."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings

from grammar.formatter import format_text
from grammar.reader import lexed, read
from grammar.source import Source, decode
from tests.bench.generate import generate
from tests.format.generated import scraps, shows
from tests.format.laws import holds_to_the_laws
from tests.shows import compiled, plan_of

ROOT = Path(__file__).parents[2]
FILES = sorted(
    path for folder in ("shows", "compiler", "tests") for path in (ROOT / folder).rglob("*.show") if path.is_file()
)


@given(shows())
@settings(max_examples=300, deadline=None)
def test_a_generated_show_keeps_its_statements_comments_and_digits(text: str) -> None:
    holds_to_the_laws(text.removeprefix("\ufeff"))
    assert format_text(text) == format_text(text.removeprefix("\ufeff"))


@given(scraps)
@settings(max_examples=500, deadline=None)
def test_any_text_is_either_broken_or_keeps_what_it_says(text: str) -> None:
    broken = bool(read(Source("", text))[1])
    if broken:
        assert format_text(text) is None
    else:
        holds_to_the_laws(text)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_every_show_of_the_repository_keeps_what_it_says(path: Path) -> None:
    text, bad = decode(path.read_bytes())
    if lexed(Source("", text))[1]:
        assert format_text(text) is None
    elif bad is None:
        holds_to_the_laws(text)


def test_the_repository_has_broken_and_whole_shows() -> None:
    whole = [path for path in FILES if format_text(decode(path.read_bytes())[0]) is not None]
    assert len(whole) > 100
    assert len(FILES) - len(whole) > 3


@pytest.mark.parametrize("folder", ["shows", "compiler/parts"])
def test_the_shows_and_parts_that_we_ship_are_in_canonical_layout(folder: str) -> None:
    shipped = sorted((ROOT / folder).rglob("*.show"))
    assert shipped
    assert [path.name for path in shipped if format_text(path.read_text("utf-8")) != path.read_text("utf-8")] == []


def test_formatting_keeps_the_fingerprint_and_the_findings() -> None:
    text = generate(60)
    crooked = text.replace("    ", "\t").replace("; ", "\n").replace(" at ", "   at ").replace("\n", "  # why\r\n")
    formatted = format_text(crooked)
    assert formatted is not None
    assert formatted != crooked
    assert plan_of(formatted)["fingerprint"] == plan_of(crooked)["fingerprint"] == plan_of(text)["fingerprint"]
    assert [f.rule for f in compiled(formatted).findings] == [f.rule for f in compiled(crooked).findings]


@pytest.mark.parametrize("name", ["first-show/first-show.show", "lantern-quay/lantern-quay.show"])
def test_a_demo_show_keeps_its_fingerprint(name: str) -> None:
    main = ROOT / "shows" / name
    files = {path.relative_to(main.parent).as_posix(): path.read_bytes() for path in main.parent.rglob("*.*")}
    before = {name: data for name, data in files.items() if name.endswith(".show")}
    crooked = {
        name: data.decode().replace("    ", "  ").replace("\n", "\r\n").encode() for name, data in before.items()
    }
    after = {name: (format_text(data.decode()) or "").encode() for name, data in crooked.items()}
    crooked, after = files | crooked, files | after  # the tables stay as they are
    assert _fingerprint(main.name, crooked) == _fingerprint(main.name, after) == _fingerprint(main.name, files)


def _fingerprint(main: str, files: dict[str, bytes]) -> object:
    from compiler.compile import solve_files

    return solve_files(main, files.__getitem__).plan()["fingerprint"]
