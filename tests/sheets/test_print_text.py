"""What becomes of a show's words before they are set, and which characters the faces hold."""

from __future__ import annotations

from pathlib import Path

from fontTools.ttLib import TTFont

from compiler.sheets import fonts
from compiler.sheets.typ import LONGEST_TEXT, settable, settable_text


def _characters(face: str) -> set[int]:
    with TTFont(fonts.FOLDER / face) as font:
        return set(font.getBestCmap())


def test_the_faces_hold_the_characters_an_independent_reader_finds_in_them() -> None:
    regular, bold = (_characters(face) for face in fonts.FACES)
    assert fonts.coverage() == regular & bold


def test_the_faces_may_be_embedded_and_their_licence_lies_beside_them() -> None:
    licence = (Path(fonts.FOLDER) / "LICENCE.txt").read_text(encoding="utf-8")
    assert "free of charge" in licence
    for face in fonts.FACES:
        with TTFont(fonts.FOLDER / face) as font:
            assert font["OS/2"].fsType == 0  # 0: installable embedding (OpenType, table OS/2)


def test_letters_units_and_signs_of_the_sheets_can_be_drawn() -> None:
    assert fonts.undrawable("Ωµ°–…×±≤≥·▸ÄÖÜßéñçøåŁžЖФΔΣ²") == set()


def test_characters_no_face_holds_are_told() -> None:
    assert fonts.undrawable("Pier 漢 🎆") == {"漢", "🎆"}


def test_characters_that_turn_the_reading_direction_are_told() -> None:
    assert fonts.undrawable("A\u202e1.\u2066x") == {"\u202e", "\u2066"}


def test_what_can_not_be_drawn_is_seen_to_be_missing() -> None:
    assert settable_text("Pier 漢") == "Pier \ufffd"
    assert settable_text("A\u202e1") == "A\ufffd1"
    assert settable_text("a\x00b\x1b[31m") == "a\ufffdb\ufffd[31m"


def test_line_ends_and_tabs_become_single_spaces() -> None:
    assert settable_text(" first\n\tsecond\r\n") == "first second"


def test_a_short_name_stays_as_it_is() -> None:
    assert settable_text("Q5-shell-75") == "Q5-shell-75"


def test_a_long_name_may_break_after_its_joints_and_inside_a_long_piece() -> None:
    assert settable_text("North-Tower-shells") == "North-\u200bTower-\u200bshells"
    pieces = settable_text("x" * 30).split("\u200b")
    assert "".join(pieces) == "x" * 30
    assert max(map(len, pieces)) <= 12


def test_a_text_without_end_is_cut_and_says_so() -> None:
    words = settable_text("word " * 400)
    assert words.endswith("[cut here: 1199 more characters]")
    assert len(words) < LONGEST_TEXT + 40


def test_texts_are_made_fit_wherever_they_stand_and_numbers_stay() -> None:
    data = {"sheets": [{"name": "A\u202e", "rows": [["\t1", 2, None, True]]}]}
    assert settable(data) == {"sheets": [{"name": "A\ufffd", "rows": [["1", 2, None, True]]}]}


def test_a_figure_and_its_unit_stay_on_one_line() -> None:
    assert settable_text("lead 52 m zip-14, 45 mm, 5 metres") == "lead 52\u00a0m zip-14, 45\u00a0mm, 5 metres"
