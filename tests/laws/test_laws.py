"""What no show may break: order, layout and comments say nothing; what is out moves nothing; a pattern is what it writes."""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from compiler.checks import RAISED
from compiler.compile import Compiled
from grammar.formatter import format_text
from tests.format.laws import parsed
from tests.laws.making import Made, joined, shows
from tests.shows import compiled

some = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
COMMENTS = ("", "", "  # why", '  # "so" { ; , (', "\n# a line of its own", "\n\n    # two\n# lines\n")


def told(made: Compiled) -> list[tuple[str, str, str]]:
    """Findings without their places."""
    return sorted((one.severity, one.rule, one.headline) for one in made.findings)


def fingerprint(text: str) -> str:
    """Fingerprint of a show's plan."""
    return str(compiled(text).plan()["fingerprint"])


@some
@given(shows())
def test_a_generated_show_is_read_without_a_slip(made: Made) -> None:
    result = compiled(made.text)
    allowed = {"no-free-channel", "tube-missing"}
    assert [(f.rule, f.headline) for f in result.findings if f.rule in RAISED and f.rule not in allowed] == []
    assert result.plan()["cues"]


@some
@given(shows(), st.randoms(use_true_random=False))
def test_shuffled_statements_are_the_same_plan(made: Made, rng: Any) -> None:
    statements = list(made.statements)
    rng.shuffle(statements)
    first, second = compiled(made.text), compiled(joined(statements))
    assert told(second) == told(first)
    assert second.plan()["fingerprint"] == first.plan()["fingerprint"]


@some
@given(shows(), st.randoms(use_true_random=False))
def test_shuffled_lines_of_a_script_are_the_same_plan(made: Made, rng: Any) -> None:
    statements = []
    for one in made.statements:
        rows = one.split("\n")
        if one.startswith(("script", "pattern")):
            inner = rows[1:-1]
            rng.shuffle(inner)
            rows = [rows[0], *inner, rows[-1]]
        statements.append("\n".join(rows))
    assert fingerprint(joined(statements)) == fingerprint(made.text)


@some
@given(shows())
def test_a_formatted_show_says_the_same_and_is_the_same_plan(made: Made) -> None:
    formatted = format_text(made.text)
    assert formatted is not None
    assert parsed(formatted) == parsed(made.text)
    assert fingerprint(formatted) == fingerprint(made.text)


@some
@given(shows(), st.randoms(use_true_random=False))
def test_comments_and_blank_lines_change_nothing(made: Made, rng: Any) -> None:
    commented = "".join(f"{row}{rng.choice(COMMENTS)}\n" for row in made.text.split("\n"))
    first, second = compiled(made.text), compiled(commented)
    assert told(second) == told(first)
    assert second.plan()["fingerprint"] == first.plan()["fingerprint"]


@some
@given(shows().filter(lambda made: made.plays > 0))
def test_a_pattern_played_is_the_pattern_written_out(made: Made) -> None:
    first, second = compiled(made.text), compiled(joined(made.written_out))
    assert told(second) == told(first)
    assert second.plan()["fingerprint"] == first.plan()["fingerprint"]


@some
@given(shows(), st.data())
def test_what_is_out_moves_no_time_no_number_and_no_address_of_anything_else(made: Made, data: st.DataObject) -> None:
    things = (*made.places, "A", "B", *(f"cue {number}" for number in made.cues), "cue 100", "cue 100.2")
    thing = data.draw(st.sampled_from(things))
    whole = compiled(made.text).plan()
    less = compiled(f'{made.text}out {thing} because "soft ground" by "the lead"\n').plan()
    gone = {one["circuit"] for one in less["outs"]}
    assert {
        **addresses(less),
        **{one["circuit"]: addresses(whole)[one["circuit"]] for one in less["outs"]},
    } == addresses(whole)
    assert {one["circuit"]: (one["rail"], one["channel"]) for one in less["outs"]} == {
        name: addresses(whole)[name] for name in gone
    }
    assert moments(less).items() <= moments(whole).items()
    fired = {cue["number"] for cue in whole["cues"] if set(cue["circuits"]) - gone}
    assert fired <= {cue["number"] for cue in less["cues"]}
    tubes, kept = tubes_of(whole), tubes_of(less)
    assert kept == {name: tubes[name] for name in kept}


def addresses(plan: dict[str, Any]) -> dict[str, Any]:
    """Rail and channel of every circuit."""
    return {one["name"]: (one["rail"], one["channel"]) for one in plan["circuits"]}


def moments(plan: dict[str, Any]) -> dict[str, Any]:
    """When every cue is seen and fired, and after which press."""
    return {cue["number"]: (cue["seen_s"], cue["fired_s"], cue["press"]) for cue in plan["cues"]}


def tubes_of(plan: dict[str, Any]) -> dict[str, Any]:
    """The tubes that every device is shot from."""
    return {one["name"]: one["tubes"] for one in plan["devices"]}
