"""Two hundred shows with one to ten planted mistakes from all rules: nothing missed, nothing made up, no echoes."""

from __future__ import annotations

from collections import Counter

import pytest

from compiler.checks import CHECKED, RAISED, severity_of

from .planter import BLINDS, Planter
from .planters import NOT_PLANTED, PLANTERS
from .study import chosen, outcome, score

SHOWS = 200
ALONE = tuple(dict.fromkeys(PLANTERS))


@pytest.mark.parametrize("seed", range(4))
def test_a_show_without_mistakes_gives_no_finding(seed: int) -> None:
    assert outcome([], seed).explained() == ""


def test_every_rule_is_planted_or_it_is_said_why_not() -> None:
    planted = {planter.rule for planter in PLANTERS}
    assert planted | set(NOT_PLANTED) == {*RAISED, *CHECKED}
    assert not planted & set(NOT_PLANTED)
    assert all(reason.strip() for reason in NOT_PLANTED.values())


@pytest.mark.parametrize("planter", ALONE, ids=[planter.name for planter in ALONE])
def test_a_mistake_alone_gives_its_findings_and_no_echo(planter: Planter) -> None:
    for seed in range(6):
        assert outcome([planter], seed).explained() == "", f"seed {seed}"


def test_200_shows_hold_one_to_ten_mistakes_each_and_every_planter_comes_up() -> None:
    shows = [chosen(seed) for seed in range(SHOWS)]
    assert set(map(len, shows)) == set(range(1, 11))
    assert {planter for show in shows for planter in show} == set(PLANTERS)


def test_200_shows_with_planted_mistakes_have_full_recall_and_precision(capsys: pytest.CaptureFixture[str]) -> None:
    outcomes = {seed: outcome(chosen(seed), seed) for seed in range(SHOWS)}
    total = score(outcomes.values())
    with capsys.disabled():
        print(f"\nplanted mistakes: {total}")
    wrong = Counter({seed: len(one.missed) + len(one.extra) for seed, one in outcomes.items()})
    worst = [f"show {seed}:\n{outcomes[seed].explained()}" for seed, count in wrong.most_common(5) if count]
    assert (total.recall(), total.precision()) == (1.0, 1.0), "\n".join(worst)


@pytest.mark.parametrize("blind", sorted(BLINDS))
def test_a_mistake_that_hides_others_is_an_error_itself(blind: str) -> None:
    assert severity_of(blind) == "error"
    assert all(severity_of(rule) in ("error", "warning") for rule in BLINDS[blind])
