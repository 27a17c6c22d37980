"""Numbers, times and lists as they are said in findings."""

from __future__ import annotations

from compiler.checks.lookups import feed_path, free_channel, move_words
from compiler.checks.words import against, clock, clock_us, figure, in_order, many, names, quantity
from tests.rules.builders import well


def test_a_figure_has_three_digits_and_no_exponent() -> None:
    assert [figure(value) for value in (12.345, 0.0012345, 123456.0, 10.0, 0.0, -0.0)] == [
        "12.3", "0.00123", "123000", "10", "0", "0",
    ]  # fmt: skip


def test_small_currents_are_said_in_milliamperes() -> None:
    assert (quantity(0.025, "A"), quantity(1.5, "A"), quantity(0.003, "A2s")) == ("25 mA", "1.5 A", "3 A2ms")


def test_a_value_just_above_its_limit_is_shown_with_digits_enough_to_differ() -> None:
    assert against(15.0004, 15.0, "A") == ("15.0004 A", "15 A")


def test_a_value_and_its_limit_are_shown_in_one_unit() -> None:
    assert against(0.2, 0.025, "A") == ("200 mA", "25 mA")


def test_times_read_as_the_language_writes_them() -> None:
    assert [clock(s) for s in (6.0, 185.25, 3723.5, -10.0, 59.9999996)] == [
        "0:06.0", "3:05.25", "1:02:03.5", "-0:10.0", "1:00.0",
    ]  # fmt: skip
    assert clock_us(1_500) == "0:00.0015"


def test_long_lists_end_in_a_count() -> None:
    assert names(["A", "B", "C"]) == "A, B and C"
    assert names([f"Q{n}" for n in range(1, 10)]) == "Q1, Q2, Q3, Q4, Q5 and 4 more"
    assert names([]) == ""


def test_counts_agree_with_their_noun() -> None:
    assert [many(1, "match"), many(2, "match"), many(3, "circuit")] == ["1 match", "2 matches", "3 circuits"]


def test_natural_order_puts_two_before_ten() -> None:
    assert in_order(["Q10", "Q2", "A"]) == ["A", "Q2", "Q10"]


def test_a_hint_offers_a_channel_that_is_free() -> None:
    assert free_channel(well(), besides="A") == "B.2"
    assert move_words(well(), "First") == "write `bind First to B.2`"


def test_a_feed_is_followed_back_to_its_supply() -> None:
    feeds, supply = feed_path(well(), "A")
    assert ([feed.name for feed in feeds], supply) == (["Pack-1>A"], "Pack-1")
