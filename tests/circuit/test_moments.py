"""Stretches of time with one set of circuits alive, and what is least over all of them."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from making import Bench, single

from compiler.circuit.moments import moments


def told(*alive: tuple[int, int, str]) -> list[tuple[int, int, str]]:
    """Moments as (from, to, circuits joined)."""
    return [(m.from_us, m.to_us, "".join(m.circuits)) for m in moments(alive)]


def test_circuits_apart_in_time_are_moments_of_their_own() -> None:
    """Between them nothing is alive and there is no moment."""
    assert told((0, 10, "a"), (20, 30, "b")) == [(0, 10, "a"), (20, 30, "b")]


def test_an_overlap_is_a_moment_between_two_others() -> None:
    """Alone, both, alone."""
    assert told((0, 10, "a"), (5, 15, "b")) == [(0, 5, "a"), (5, 10, "ab"), (10, 15, "b")]


def test_touching_counts_as_both_alive_for_an_instant() -> None:
    """Closed intervals: a stretch of no length where one ends as another begins."""
    assert told((0, 10, "a"), (10, 20, "b")) == [(0, 10, "a"), (10, 10, "ab"), (10, 20, "b")]


def test_one_that_begins_as_another_ends_joins_what_goes_on() -> None:
    """Three are alive at that instant, two before and after."""
    assert told((0, 30, "a"), (0, 10, "b"), (10, 20, "c")) == [
        (0, 10, "ab"),
        (10, 10, "abc"),
        (10, 20, "ac"),
        (20, 30, "a"),
    ]


def test_a_circuit_alive_twice_without_a_gap_is_one_stretch() -> None:
    """Two cues of one circuit (an error of its own) do not count it twice."""
    assert told((0, 10, "a"), (10, 20, "a"), (15, 25, "a")) == [(0, 25, "a")]


def test_a_pulse_of_no_length_is_a_moment() -> None:
    """Alone or in the middle of another."""
    assert told((5, 5, "a")) == [(5, 5, "a")]
    assert told((0, 9, "a"), (5, 5, "b")) == [(0, 5, "a"), (5, 5, "ab"), (5, 9, "a")]


@given(st.lists(st.tuples(st.integers(0, 30), st.integers(0, 9), st.sampled_from("abcdef"))))
def test_at_every_time_some_moment_has_exactly_what_is_alive(
    drawn: list[tuple[int, int, str]],
) -> None:
    """Checked at whole and at half microseconds; no moment has more than was ever alive at once."""
    alive = [(start, start + length, name) for start, length, name in drawn]
    found = moments(alive)
    for half in range(82):
        at = half / 2
        true = tuple(sorted({name for start, end, name in alive if start <= at <= end}))
        sets = [m.circuits for m in found if m.from_us <= at <= m.to_us]
        assert true in sets or (not true and not sets)
        assert all(set(each) <= set(true) for each in sets)
    for one, two in pairwise(found):
        assert one.to_us <= two.from_us
        assert one.circuits != two.circuits or one.to_us < two.from_us


def two_supplies() -> Bench:
    """A rail on each of two supplies."""
    bench = Bench()
    for supply, rail in (("P", "A"), ("S", "B")):
        bench.supply(supply, 24.0, 0.5)
        bench.rail(rail, supply)
    return bench


def test_circuits_on_other_supplies_do_not_share_a_moment() -> None:
    """Moments are per supply, in order of time, then supply."""
    bench = two_supplies()
    bench.circuit("b", single("mb", 5.0), "B", (0, 10))
    bench.circuit("a", single("ma", 5.0), "A", (0, 10))
    found = bench.solve().instants
    assert [(each.supply, each.circuits) for each in found] == [("P", ("a",)), ("S", ("b",))]


def test_least_is_taken_where_most_is_alive_and_nominal_with_it() -> None:
    """Over three moments the middle one counts; the greatest is alone."""
    bench = two_supplies()
    bench.circuit("a", single("ma", 5.0), "A", (0, 10))
    bench.circuit("b", single("mb", 5.0), "A", (5, 15))
    solution = bench.solve()
    alone = two_supplies()
    alone.circuit("a", single("ma", 5.0), "A", (0, 10))
    apart = alone.solve().circuits["a"].matches["ma"].current_a
    shared = solution.circuits["a"].matches["ma"]
    assert shared.least_instant == 1
    assert solution.instants[1].circuits == ("a", "b")
    assert shared.current_a is not None
    assert apart is not None
    assert shared.current_a.least < apart.least
    assert shared.current_a.nominal < apart.nominal
    assert shared.current_a.greatest == apart.greatest
    assert "beside" in shared.least_corner


def test_touching_pulses_already_sag_the_supply() -> None:
    """The instant of no length counts for the least."""
    bench = two_supplies()
    bench.circuit("a", single("ma", 5.0), "A", (0, 10))
    bench.circuit("b", single("mb", 5.0), "A", (10, 20))
    solution = bench.solve()
    assert [each.least_instant for c in "ab" for each in solution.circuits[c].matches.values()] == [
        1,
        1,
    ]


def test_a_circuit_that_is_never_fired_is_solved_as_if_alone() -> None:
    """No instant, but its currents are known."""
    bench = two_supplies()
    bench.circuit("a", single("ma", 5.0), "A")
    solution = bench.solve()
    result = solution.circuits["a"]
    assert solution.instants == ()
    assert result.current_a == result.alone_current_a
    match = result.matches["ma"]
    assert match.least_instant is None
    assert match.current_a is not None
    assert match.current_a.least == pytest.approx(24.0 / (0.5 + 0.12 + 1.8 + 0.3 * 1.13755))


def test_the_loads_of_a_moment_with_one_circuit_are_its_own() -> None:
    """Supply, rail and feed carry the same; the greatest is the short."""
    bench = two_supplies()
    bench.circuit("a", single("ma", 5.0), "A", (0, 10))
    solution = bench.solve()
    (instant,) = solution.instants
    result = solution.circuits["a"]
    assert result.current_a is not None
    assert instant.supply_a is not None
    assert instant.supply_a[:2] == result.current_a[:2]
    assert instant.supply_a.greatest == result.shorted_current_a
    (rail,) = instant.rails
    assert (rail.rail, rail.amps, rail.count) == ("A", instant.supply_a, 1)
    assert instant.feeds == {"P>A": instant.supply_a}
