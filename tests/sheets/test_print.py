"""The printed sheets, read back from the PDF with poppler's tools; a missing tool fails the test."""

from __future__ import annotations

import copy
import hashlib
import itertools
import json
import re
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from compiler.sheets.glyphs import missing_glyphs
from compiler.sheets.print import PAPERS_MM, TYPE_PT, WRITING_BOX_MM, print_pdf
from compiler.sheets.views import views
from tests.tools import need

Json = dict[str, Any]
SAMPLE = Path(__file__).parent / "sample_plan.json"
POINTS_PER_MM = 72 / 25.4
DOCUMENTS = ("wiring-sheets", "load-table", "cue-sheet")
HOSTILE = (
    '#panic("x")',
    "$ x^2 $ *bold* _under_ `raw`",
    "\\ \" ' ] ) } [ ( { ; <label> @ref ~ // /* */",
    '#import "/etc/passwd": *',
    "#read(sys.inputs)",
    "= heading - list + 1.",
)


class Word(NamedTuple):
    """A word on a page; places in points from the top left corner."""

    page: int
    left: float
    top: float
    right: float
    bottom: float
    text: str


def sample() -> Json:
    """A fresh copy of the sample plan, without its planted error."""
    plan: Json = copy.deepcopy(_stored())
    plan["findings"] = []
    return plan


@cache
def _stored() -> Json:
    stored: Json = json.loads(SAMPLE.read_text(encoding="utf-8"))
    return stored


@cache
def printed(paper: str) -> dict[str, bytes]:
    return print_pdf(sample(), paper)


def text(pdf: bytes) -> str:
    """What a reader can copy out of the PDF."""
    need("pdftotext", "poppler-utils")
    run = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True, check=True)
    return run.stdout.decode("utf-8")


def pages(pdf: bytes) -> list[str]:
    return text(pdf).split("\f")[:-1]


def words(pdf: bytes) -> list[Word]:
    need("pdftotext", "poppler-utils")
    run = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=pdf, capture_output=True, check=True)
    return list(_words(run.stdout.decode("utf-8")))


def _words(html: str) -> Iterator[Word]:
    page = 0
    for line in html.splitlines():
        page += "<page " in line
        found = re.search(r'xMin="(.+?)" yMin="(.+?)" xMax="(.+?)" yMax="(.+?)">(.*)</word>', line)
        if found:
            left, top, right, bottom = (float(found[n]) for n in range(1, 5))
            yield Word(page, left, top, right, bottom, found[5])


def info(pdf: bytes) -> dict[str, str]:
    run = subprocess.run(["pdfinfo", "-"], input=pdf, capture_output=True, check=True)
    pairs = (line.split(":", 1) for line in run.stdout.decode("utf-8").splitlines())
    return {key: value.strip() for key, value in pairs}


def flat(value: str) -> str:
    """Words without the spaces that wrapping moves."""
    return "".join(value.split())


# --- what is there ------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", sorted(PAPERS_MM))
def test_three_documents_are_printed_on_the_paper_asked_for(paper: str) -> None:
    made = printed(paper)
    assert sorted(made) == sorted(f"{name}-{paper}.pdf" for name in DOCUMENTS)
    for name, pdf in made.items():
        sides = [float(part) for part in re.findall(r"[\d.]+", info(pdf)["Page size"])[:2]]
        expected = [side * POINTS_PER_MM for side in PAPERS_MM[paper]]
        turned = expected[::-1] if name.startswith("load") else expected
        assert sides == pytest.approx(turned, abs=0.1)


def test_progress_is_told_before_each_file() -> None:
    told: list[str] = []
    made = print_pdf(sample(), "a4", told.append)
    assert told == list(made)


def test_an_unknown_paper_is_the_callers_mistake() -> None:
    with pytest.raises(KeyError):
        print_pdf(sample(), "a5")


@pytest.mark.parametrize("paper", sorted(PAPERS_MM))
def test_every_page_says_show_revision_date_fingerprints_and_where_it_belongs(paper: str) -> None:
    plan = sample()
    shown = views(plan)
    sheets = {
        "wiring-sheets": {sheet["fingerprint"] for sheet in shown["wiring"]},
        "load-table": {shown["load"]["fingerprint"]},
        "cue-sheet": {shown["cues"]["fingerprint"]},
    }
    for name, own in sheets.items():
        for page in pages(printed(paper)[f"{name}-{paper}.pdf"]):
            for fact in (
                shown["head"]["title"],
                "revision 4",
                plan["show"]["zero"].replace("T", " "),
            ):
                assert fact in page
            assert f"plan {shown['head']['fingerprint']}" in page
            assert set(re.findall(r"sheet ([0-9a-f]{4} [0-9a-f]{4})", page)) <= own
            assert re.search(r"sheet [0-9a-f]{4} [0-9a-f]{4}", page)
            assert re.search(r"page \d+ of \d+", page)


@pytest.mark.parametrize("paper", sorted(PAPERS_MM))
def test_pages_of_one_rail_count_from_one_to_its_own_last(paper: str) -> None:
    counted: dict[str, list[tuple[int, int]]] = {}
    for page in pages(printed(paper)[f"wiring-sheets-{paper}.pdf"]):
        found = re.search(r"page (\d+) of (\d+)", page)
        sheet = re.search(r"sheet ([0-9a-f]{4} [0-9a-f]{4})", page)
        assert found is not None
        assert sheet is not None
        counted.setdefault(sheet[1], []).append((int(found[1]), int(found[2])))
    assert len(counted) == len(sample()["rails"])
    for numbers in counted.values():
        assert numbers == [(page + 1, len(numbers)) for page in range(len(numbers))]


def test_every_page_carries_the_cautions_of_its_work_and_the_standing_words() -> None:
    cautions = views(sample())["cautions"]
    kinds = {"wiring-sheets": "wiring", "load-table": "load", "cue-sheet": "cues"}
    for name, kind in kinds.items():
        for number, _ in enumerate(pages(printed("a4")[f"{name}-a4.pdf"]), 1):
            found = "".join(w.text for w in words(printed("a4")[f"{name}-a4.pdf"]) if w.page == number)
            for caution in cautions[kind] + cautions["standing"]:
                for word in caution.replace("'", "&apos;").split():
                    assert word.strip(".,;:") in found.replace("&#39;", "&apos;").replace("'", "&apos;")


def test_a_wiring_sheet_says_all_that_is_known_of_each_channel() -> None:
    copied = flat(text(printed("a4")["wiring-sheets-a4.pdf"]))
    for sheet in views(sample())["wiring"]:
        for row in sheet["rows"]:
            for fact in (row["spare"], row["reading"], row["shape"]):
                assert flat(fact) in copied
            for fact in (
                *row["cable"],
                *row["label"].split(),
                *row["device"].split(),
                *row["marks"],
            ):
                assert all(flat(part) in copied for part in fact.split())
        assert all(flat(words_) in copied for words_ in (*sheet["notes"], *sheet["waivers"], sheet["missing"]))


def test_missing_makers_data_is_told_on_every_page_and_on_rows_where_it_sets_them_apart() -> None:
    told = "maker's data missing"
    sheets = views(sample())["wiring"]
    some = pages(printed("a4")["wiring-sheets-a4.pdf"])
    lacking = {sheet["fingerprint"] for sheet in sheets if sheet["missing"]}
    bearing = [page for page in some if f"{told}:" in page]
    assert bearing == [page for page in some if any(f"sheet {own}" in page for own in lacking)]
    rows = sum(told in row["marks"] for sheet in sheets for row in sheet["rows"])
    assert sum(flat(page).count(flat(told)) for page in some) == rows + len(bearing)
    plan = sample()
    for circuit in plan["circuits"]:
        circuit["makers_data_missing"] = True
    every = pages(print_pdf(plan, "a4")["wiring-sheets-a4.pdf"])
    assert [flat(page).count(flat(told)) for page in every] == [1] * len(every)


def test_a_plan_with_errors_says_on_every_page_that_nobody_works_from_it() -> None:
    plan = copy.deepcopy(_stored())
    told = views(plan)["head"]["unfit"]
    assert told
    for pdf in print_pdf(plan, "a4").values():
        assert all(told in page for page in pages(pdf))
    assert all(told not in page for pdf in printed("a4").values() for page in pages(pdf))


def test_the_load_table_says_figures_limits_and_their_sources() -> None:
    copied = flat(text(printed("a4")["load-table-a4.pdf"]))
    shown = views(sample())
    for row in shown["load"]["rows"]:
        for match in row["matches"]:
            for fact in (
                row["address"],
                match["least"],
                match["greatest"],
                match["required"],
                row["test"],
            ):
                assert flat(fact) in copied
    for limit in shown["limits"]:
        assert flat(limit["id"]) in copied
        assert flat(limit["source"]) in copied


def test_the_cue_sheet_lists_every_cue_in_firing_order() -> None:
    rows = [row for row in views(sample())["cues"]["rows"] if row["kind"] != "hold"]
    times = {w.text for w in words(printed("a4")["cue-sheet-a4.pdf"])}
    assert {row["fired"] for row in rows} <= times
    found = [w for w in words(printed("a4")["cue-sheet-a4.pdf"]) if w.bottom - w.top == pytest.approx(TYPE_PT["time"])]
    assert [w.text for w in found] == [row["fired"] for row in rows]


# --- for the field ------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", sorted(PAPERS_MM))
@pytest.mark.parametrize("name", DOCUMENTS)
def test_nothing_is_smaller_than_nine_points(paper: str, name: str) -> None:
    smallest = min(w.bottom - w.top for w in words(printed(paper)[f"{name}-{paper}.pdf"]))
    assert smallest == pytest.approx(9.0, abs=0.01)


def test_channel_numbers_readings_and_rail_names_are_large() -> None:
    found = words(printed("a4")["wiring-sheets-a4.pdf"])
    channels = [w for w in found if _is_channel(w)]
    assert len(channels) == sum(len(sheet["rows"]) for sheet in views(sample())["wiring"])
    assert min(w.bottom - w.top for w in channels) >= 14
    names = [w for w in found if w.text in ("A", "B", "C") and w.bottom - w.top > 20]
    assert {w.text for w in names} == {"A", "B", "C"}
    assert min(w.bottom - w.top for w in names) >= 40


def test_the_sizes_written_down_are_what_the_field_needs() -> None:
    assert min(TYPE_PT.values()) >= 9
    assert TYPE_PT["channel"] >= 14
    assert WRITING_BOX_MM >= 10


@pytest.mark.parametrize("paper", sorted(PAPERS_MM))
def test_a_row_stands_whole_on_one_page_under_its_headings(paper: str) -> None:
    found = words(printed(paper)[f"wiring-sheets-{paper}.pdf"])
    for number in range(1, max(w.page for w in found) + 1):
        page = [w for w in found if w.page == number]
        heads = [w for w in page if w.text == "initials"]
        channels = [w for w in page if _is_channel(w)]
        rows = [w.top for w in channels]
        assert len(heads) == 1
        assert heads[0].bottom < rows[0]
        assert all(b - a >= WRITING_BOX_MM * POINTS_PER_MM - 0.5 for a, b in itertools.pairwise(rows))
        assert _tags(page) == [w.text for w in channels]


@pytest.mark.parametrize("paper", sorted(PAPERS_MM))
@pytest.mark.parametrize("name", ["wiring-sheets", "cue-sheet"])
def test_a_tall_row_is_never_split_between_two_pages(paper: str, name: str) -> None:
    plan = sample()
    alone = [device for device in plan["devices"] if len(device["matches"]) == 1 and "-" in device["name"]]
    for number, device in enumerate(alone):
        device["text"] = f"begin{number} {'of a long text ' * 20} end{number}"
    where: dict[str, set[int]] = {}
    for word in words(print_pdf(plan, paper)[f"{name}-{paper}.pdf"]):
        found = re.fullmatch(r"(?:begin|end)(\d+),?", word.text)
        if found:
            where.setdefault(found[1], set()).add(word.page)
    assert len(where) > 20
    assert all(len(stands) == 1 for stands in where.values())


def _is_channel(word: Word) -> bool:
    return word.text.isdigit() and word.bottom - word.top == pytest.approx(TYPE_PT["channel"])


def _tags(page: list[Word]) -> list[str]:
    """Channels whose label or spare mark is on the page, by the label's own address."""
    large = [w.text for w in page if w.bottom - w.top == pytest.approx(TYPE_PT["label"])]
    tags = [word.split(".")[1] for word in large if re.fullmatch(r"[ABC]\.\d+", word)]
    spare = [w for w in page if w.text == "spare," and w.left < 150]
    beside = [w.text for mark in spare for w in page if _is_channel(w) and w.top < mark.bottom and w.bottom > mark.top]
    return sorted(tags + beside, key=int)


@pytest.mark.parametrize("paper", sorted(PAPERS_MM))
@pytest.mark.parametrize("name", DOCUMENTS)
def test_every_word_stays_inside_the_page(paper: str, name: str) -> None:
    width, height = (side * POINTS_PER_MM for side in PAPERS_MM[paper])
    if name == "load-table":
        width, height = height, width
    edge = 7.5 * POINTS_PER_MM
    for word in words(printed(paper)[f"{name}-{paper}.pdf"]):
        assert edge <= word.left <= word.right <= width - edge, word
        assert edge <= word.top <= word.bottom <= height - edge, word


def test_the_sheets_are_black_and_white() -> None:
    for pdf in printed("a4").values():
        need("pdftoppm", "poppler-utils")
        run = subprocess.run(["pdftoppm", "-r", "30", "-"], input=pdf, capture_output=True, check=True)
        assert _grey(run.stdout)


def _grey(stream: bytes) -> bool:
    """Whether every pixel of the pictures (binary PPM) has three equal parts."""
    while stream:
        head = re.match(rb"P6\s(\d+)\s(\d+)\s255\s", stream)
        assert head
        end = head.end() + 3 * int(head[1]) * int(head[2])
        pixels = stream[head.end() : end]
        if not pixels[0::3] == pixels[1::3] == pixels[2::3]:
            return False
        stream = stream[end:]
    return True


# --- hostile and large --------------------------------------------------------------------------


def _everywhere(words_: str) -> Json:
    """The sample with `words_` as title, note, label, cue text and places."""
    plan = sample()
    plan["show"]["title"] = words_
    plan["show"]["notes"] = [words_]
    for rail in plan["rails"]:
        rail["notes"] = [words_]
    for circuit in plan["circuits"]:
        circuit["label"] = words_
        circuit["notes"] = [words_]
    for device in plan["devices"]:
        device["text"] = words_
    for cue in plan["cues"]:
        cue["text"] = words_
    return plan


@pytest.mark.parametrize("words_", HOSTILE)
def test_text_that_looks_like_markup_is_printed_as_it_is(words_: str) -> None:
    for pdf in print_pdf(_everywhere(words_), "a4").values():
        assert flat(words_) in flat(text(pdf))


@pytest.mark.parametrize("words_", ["W" * 3000, "Wide words " * 300, "漢" * 50, "\u202eA\x00\x1b[2J"])
def test_names_without_end_or_without_glyphs_wrap_and_stay_on_the_page(words_: str) -> None:
    for name, pdf in print_pdf(_everywhere(words_), "us-letter").items():
        width, height = (side * POINTS_PER_MM for side in PAPERS_MM["us-letter"])
        width, height = (height, width) if name.startswith("load") else (width, height)
        for word in words(pdf):
            assert 0 <= word.left <= word.right <= width, word
            assert 0 <= word.top <= word.bottom <= height, word


@pytest.mark.parametrize("label", ["Waterfall123", "Pylon-West-7", "Quay-12", "W" * 9, "W" * 40])
@pytest.mark.parametrize("paper", sorted(PAPERS_MM))
def test_a_label_stays_in_its_own_column(label: str, paper: str) -> None:
    plan = sample()
    for circuit in plan["circuits"]:
        circuit["label"] = label
    found = words(print_pdf(plan, paper)[f"wiring-sheets-{paper}.pdf"])
    next_column = min(w.left for w in found if w.text == "place,")
    pieces = [w for w in found if w.bottom - w.top == pytest.approx(TYPE_PT["label"]) and w.text[:3] in label]
    assert pieces
    assert all(w.right < next_column for w in pieces if w.left > 50 and w.left < next_column)


def test_a_long_address_stays_in_its_own_column_of_the_load_table() -> None:
    plan = sample()
    for circuit in plan["circuits"]:
        circuit["rail"] = "Roof-West" if circuit["rail"] == "A" else circuit["rail"]
    plan["rails"][0]["name"] = "Roof-West"
    found = words(print_pdf(plan, "a4")["load-table-a4.pdf"])
    next_column = min(w.left for w in found if w.text == "circuit,")
    addresses = [w for w in found if w.text.startswith("Roof-West.")]
    assert addresses
    assert all(w.right < next_column for w in addresses)


def test_a_rail_with_a_very_long_name_still_shows_all_of_it() -> None:
    plan = sample()
    name = "North-Tower-of-the-Swing-Bridge-above-the-Lock-7"
    plan["rails"][0]["name"] = name
    for circuit in plan["circuits"]:
        circuit["rail"] = name if circuit["rail"] == "A" else circuit["rail"]
    assert name in flat(text(print_pdf(plan, "a4")["wiring-sheets-a4.pdf"]))


def test_missing_glyphs_names_what_can_not_be_printed() -> None:
    plan = sample()
    assert missing_glyphs(plan) == []
    plan["show"]["title"] = "Pier 漢"
    plan["rails"][0]["notes"] = ["ends\u202ehere"]
    assert missing_glyphs(plan) == [
        "notes 'ends\ufffdhere' lacks U+202E",
        "title 'Pier \ufffd' lacks U+6F22",
    ]


def _wide(channels: int) -> Json:
    """The sample with a rail of many channels, all wired like one of its own."""
    plan = sample()
    pattern = next(c for c in plan["circuits"] if c["rail"] == "A" and c["channel"] == 1)
    rail = copy.deepcopy(plan["rails"][0])
    rail |= {"name": "Z", "channels": channels, "spare_channels": []}
    plan["rails"].append(rail)
    for channel in range(1, channels + 1):
        made = copy.deepcopy(pattern)
        plan["circuits"].append(
            made | {"name": f"Z{channel}", "rail": "Z", "channel": channel, "label": f"Z.{channel}"}
        )
    return plan


def test_a_rail_of_two_hundred_channels_is_printed_in_order() -> None:
    pdf = print_pdf(_wide(200), "a4")["wiring-sheets-a4.pdf"]
    labels = [w.text for w in words(pdf) if re.fullmatch(r"Z\.\d+", w.text)]
    assert labels == [f"Z.{channel}" for channel in range(1, 201)]


def test_a_plan_without_rails_and_cues_prints_what_there_is() -> None:
    plan = sample()
    for part in ("rails", "circuits", "cues", "instants", "supplies", "feeds", "devices"):
        plan[part] = []
    assert sorted(print_pdf(plan, "a4")) == ["cue-sheet-a4.pdf", "load-table-a4.pdf"]


def test_a_channel_without_a_match_is_not_left_out_of_the_load_table() -> None:
    plan = sample()
    plan["circuits"][0]["matches"] = []
    copied = text(print_pdf(plan, "a4")["load-table-a4.pdf"])
    assert plan["circuits"][0]["name"] in copied
    assert "no match" in copied


# --- the same bytes -----------------------------------------------------------------------------


def test_the_same_plan_gives_the_same_bytes_in_another_process() -> None:
    here = print_pdf(sample(), "a4")
    assert here == print_pdf(sample(), "a4")
    program = (
        "import hashlib, json, sys; from compiler.sheets.print import print_pdf\n"
        "plan = json.load(sys.stdin)\n"
        "for name, pdf in print_pdf(plan, 'a4').items(): print(name, hashlib.sha256(pdf).hexdigest())"
    )
    run = subprocess.run(
        [sys.executable, "-c", program],
        input=json.dumps(sample()).encode(),
        capture_output=True,
        check=True,
        cwd=SAMPLE.parents[2],
        env={"TZ": "Pacific/Auckland", "LC_ALL": "C", "PYTHONHASHSEED": "7"},
    )
    expected = [f"{name} {hashlib.sha256(pdf).hexdigest()}" for name, pdf in here.items()]
    assert run.stdout.decode().split("\n")[:-1] == expected


def test_a_pdf_holds_no_time_is_tagged_and_has_a_title() -> None:
    for pdf in printed("a4").values():
        facts = info(pdf)
        assert not any("Date" in key and facts[key] for key in facts)
        assert facts["Tagged"] == "yes"
        assert facts["Title"].startswith("Sample evening, ")


def test_every_face_is_embedded() -> None:
    for pdf in printed("a4").values():
        need("pdffonts", "poppler-utils")
        run = subprocess.run(["pdffonts", "-"], input=pdf, capture_output=True, check=True)
        lines = run.stdout.decode().splitlines()[2:]
        assert lines
        assert all(re.search(r"\syes yes yes\s", line) for line in lines)
        assert all("DejaVu" in line for line in lines)


def test_importing_the_printer_does_not_import_the_typesetter() -> None:
    program = "import sys, compiler.sheets.print; sys.exit('typst' in sys.modules)"
    subprocess.run([sys.executable, "-c", program], check=True, cwd=SAMPLE.parents[2])
