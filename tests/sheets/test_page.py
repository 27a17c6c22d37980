"""The one HTML page: whole, self-contained, and deaf to what a show's texts would have it do."""

from __future__ import annotations

import copy
import json
import re
from collections import Counter
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from compiler.sheets.page import page_html

Plan = dict[str, Any]
SAMPLE = Path(__file__).parent / "sample_plan.json"

HOSTILE = (
    "<script>alert(1)</script>",
    "</script><img src=x onerror=alert(1)>",
    '" onmouseover="alert(1)',
    "' autofocus onfocus='alert(1)",
    "{{ v.head.title }}{% raw %}",
    "</style></title><!--",
    "=HYPERLINK(1)",
    "javascript:alert(1)",
)
# words that the plan itself sets, that are looked up, or that the language confines (a cue's number): all else is a show's text
WORDS = frozenset(
    [
        "fingerprint",
        "number",
        "topology",
        "what",
        "unit",
        "severity",
        "by",
        "use",
        "kind",
        "metal",
        "id",
        "corner",
        "limit_id",
    ]
)


@pytest.fixture
def plan() -> Plan:
    """The sample plan."""
    made: Plan = json.loads(SAMPLE.read_text(encoding="utf-8"))
    return made


class Reader(HTMLParser):
    """Reads a page into its tags, attributes and texts."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: Counter[str] = Counter()
        self.attributes: Counter[tuple[str, str]] = Counter()
        self.values: list[tuple[str, str | None]] = []
        self.text: list[str] = []
        self.scripts: list[str] = []
        self._open = ""
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags[tag] += 1
        self.attributes.update((tag, name) for name, _ in attrs)
        self.values.extend(attrs)
        self._open = tag

    def handle_endtag(self, tag: str) -> None:
        self._open = ""

    def handle_data(self, data: str) -> None:
        (self.scripts if self._open in ("script", "style") else self.text).append(data)

    @property
    def words(self) -> str:
        """All text on one line."""
        return re.sub(r"\s+", " ", " ".join(self.text))


def spiked(value: Any, spike: str, key: str = "") -> Any:
    """The plan with a spike at the end of every text that a show could have chosen."""
    if isinstance(value, dict):
        return {name: spiked(item, spike, name) for name, item in value.items()}
    if isinstance(value, list):
        return [spiked(item, spike, key) for item in value]
    return value + spike if isinstance(value, str) and key not in WORDS else value


# --- hostile text -------------------------------------------------------------------------------


@pytest.mark.parametrize("spike", HOSTILE)
def test_text_of_a_show_adds_no_tag_and_no_attribute(plan: Plan, spike: str) -> None:
    plain = Reader(page_html(spiked(plan, "zz")))
    hostile = Reader(page_html(spiked(plan, spike)))
    assert hostile.tags == plain.tags
    assert hostile.attributes == plain.attributes
    assert hostile.scripts == plain.scripts
    assert spike in hostile.words


def test_a_mark_that_turns_the_line_round_is_shown_and_not_obeyed(plan: Plan) -> None:
    page = page_html(spiked(plan, "\u202egnitser"))
    assert "\u202e" not in page
    assert "\N{REPLACEMENT CHARACTER}gnitser" in page


# --- self-contained -----------------------------------------------------------------------------


def test_the_page_loads_nothing_from_anywhere(plan: Plan) -> None:
    page = page_html(plan)
    reader = Reader(page)
    assert not {name for _, name in reader.attributes} & {"src", "srcset", "action", "data"}
    assert not reader.tags.keys() & {"link", "iframe", "object", "embed", "img", "base"}
    assert all(value and value.startswith("#") for name, value in reader.values if name == "href")
    style_and_script = "".join(reader.scripts)
    assert not re.search(r"url\(|@import|fetch|XMLHttp|WebSocket|https?:", style_and_script)
    assert "default-src 'none'" in page


def test_links_lead_to_sections_that_exist(plan: Plan) -> None:
    values = Reader(page_html(plan)).values
    ids = [value for name, value in values if name == "id"]
    assert len(ids) == len(set(ids))
    assert {value[1:] for name, value in values if name == "href" and value} <= set(ids)


def test_two_pages_of_one_plan_are_the_same_bytes(plan: Plan) -> None:
    assert page_html(plan) == page_html(copy.deepcopy(plan))


# --- what is on it ------------------------------------------------------------------------------


def test_every_channel_circuit_cue_limit_waiver_and_finding_is_on_the_page(plan: Plan) -> None:
    words = Reader(page_html(plan)).words
    for rail in plan["rails"]:
        for channel in range(1, rail["channels"] + 1):
            assert f" {rail['name']}.{channel} " in words
    wanted = [
        *(circuit["name"] for circuit in plan["circuits"]),
        *(circuit["label"] for circuit in plan["circuits"]),
        *(cue["text"] for cue in plan["cues"]),
        *(limit["source"] for limit in plan["rules"]["limits"]),
        *(waiver["because"] for waiver in plan["waivers"]),
        *(finding["headline"] for finding in plan["findings"]),
        *(finding["hint"] for finding in plan["findings"]),
        *(note for rail in plan["rails"] for note in rail["notes"]),
    ]
    assert len(wanted) >= 100
    assert [text for text in wanted if text not in words] == []


def test_every_page_says_what_comes_first_and_what_is_not_computed(plan: Plan) -> None:
    words = Reader(page_html(plan)).words
    assert "the licensed operator come first" in words
    assert "Not computed: induction, static, radio." in words


def test_a_plan_with_an_error_says_on_every_sheet_that_it_is_not_for_the_field(plan: Plan) -> None:
    told = "do not wire or fire from it"
    sheets = len(plan["rails"]) + 3
    assert Reader(page_html(plan)).words.count(told) == sheets
    plan["findings"] = [f for f in plan["findings"] if f["severity"] != "error"]
    assert told not in Reader(page_html(plan)).words


def test_what_was_not_computed_is_said_and_no_number_stands_for_it(plan: Plan) -> None:
    plan["circuits"] = [c for c in plan["circuits"] if c["name"] == "Q9-wheel-green-1"]
    words = Reader(page_html(plan)).words
    assert words.count("not computed") >= 5
    assert "None" not in words.replace("None.", "")


def test_the_search_field_is_named_and_every_table_row_can_be_found(plan: Plan) -> None:
    page = page_html(plan)
    assert '<label for="find">' in page
    body_rows = re.findall(r"<tbody>(.*?)</tbody>", page, re.DOTALL)
    rows = [tag for body in body_rows for tag in re.findall(r"<tr[^>]*>", body)]
    assert len(rows) > 100
    assert all('class="row' in tag for tag in rows)
