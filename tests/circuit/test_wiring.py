"""From wiring as written to elements and a tree."""

from __future__ import annotations

from typing import Any

import pytest
from making import FACTS, MATCH, Bench, single

from compiler.circuit import build_wiring
from compiler.model.quantities import Given
from compiler.model.solved import Parallel, Series, Wiring
from compiler.model.types import Group, Run
from compiler.model.values import replace


def bench(**match: Any) -> Bench:
    """A bench with joints and legs; keywords change the match."""
    made = Bench(facts=replace(FACTS, joint_ohm=Given(0.0, 0.005, 0.01)))
    made.matches["match"] = replace(MATCH, leg_length_m=3.0, leg_cable="wire", **match)
    return made


def plain() -> Bench:
    """A bench whose matches are bare bridges without joints."""
    return Bench()


def wired(made: Bench, group: Group) -> Wiring:
    """The wiring of one circuit."""
    made.circuit("C", group)
    return made.wirings()["C"]


def test_a_lone_match_is_lead_joints_legs_and_bridge_in_a_row() -> None:
    """Both conductors count everywhere; two joints make one splice element."""
    wiring = wired(bench(), single("M", 40.0))
    assert wiring.tree == Series(("lead", "splice:M", "leg:M", "bridge:M"))
    assert wiring.topology == "single"
    lead, splice, leg, bridge = (wiring.elements[key] for key in wiring.tree.parts)
    assert lead.ohm_20 == pytest.approx((2.4, 2.4, 2.4))
    assert (lead.length_m, lead.part, lead.metal, lead.match) == (40.0, "wire", "copper", None)
    assert splice.ohm == splice.ohm_20 == (0.0, 0.010, 0.020)
    assert leg.ohm_20 == pytest.approx((0.18, 0.18, 0.18))
    assert (leg.what, leg.length_m, leg.match) == ("leg", 3.0, "M")
    assert bridge.ohm == bridge.ohm_20 == MATCH.bridge_ohm
    assert (bridge.part, bridge.metal, bridge.length_m) == ("match", None, None)


def test_cable_is_coldest_at_its_low_end_and_sun_hot_at_its_high_end() -> None:
    """Ambient 5 to 30 degC, 25 K for cable in the sun, alpha 0.00393 per K (IEC 60028)."""
    wiring = wired(plain(), single("M", 40.0))
    lead = wiring.elements["lead"]
    assert lead.ohm.low == pytest.approx(2.4 * (1 - 0.00393 * 15))
    assert lead.ohm.nominal == lead.ohm_20.nominal
    assert lead.ohm.high == pytest.approx(2.4 * (1 + 0.00393 * 35))


def test_a_summer_show_still_has_its_nominal_inside_the_range() -> None:
    """Nominal is at 20 degC even where it is never as cold as that."""
    made = plain()
    made.facts = replace(FACTS, ambient_c=(28.0, 40.0))
    low, nominal, high = wired(made, single("M", 40.0)).elements["lead"].ohm
    assert low == nominal < high


def test_a_match_without_legs_or_joints_is_a_bridge_alone() -> None:
    """What has no length or no resistance is no element."""
    wiring = wired(plain(), Group("single", ("M",), lead=Run(0.0, None)))
    assert wiring.tree == "bridge:M"
    assert list(wiring.elements) == ["bridge:M"]


def test_both_conductors_of_every_gap_of_a_series_count() -> None:
    """One is cut at each match, the current returns on the other."""
    wiring = wired(plain(), Group("series", ("a", "b", "c"), Run(6.6, "wire"), lead=Run(10.0, "wire")))
    assert wiring.topology == "series"
    gaps = [e for e in wiring.elements.values() if e.what == "segment"]
    assert [e.id for e in gaps] == ["segment:a>b", "segment:b>c"]
    assert [e.ohm_20.nominal for e in gaps] == pytest.approx([2 * 6.6 * 0.03] * 2)
    assert isinstance(wiring.tree, Series)


def test_a_parallel_with_wire_between_is_a_ladder() -> None:
    """Never a lumped parallel."""
    wiring = wired(plain(), Group("parallel", ("a", "b", "c"), Run(2.0, "wire"), lead=Run(9.0, "wire")))
    far = Series(("segment:b>c", "bridge:c"))
    assert wiring.tree == Series(("lead", Parallel(("bridge:a", Series(("segment:a>b", Parallel(("bridge:b", far))))))))
    assert wiring.topology == "parallel"


def test_a_line_fed_in_its_middle_has_an_arm_to_each_side() -> None:
    """The fed match is tapped where the lead comes in."""
    wiring = wired(plain(), Group("parallel", ("a", "b", "c"), Run(2.0, "wire"), "b"))
    assert wiring.tree == Parallel(
        ("bridge:b", Series(("segment:b>c", "bridge:c")), Series(("segment:a>b", "bridge:a")))
    )


def test_a_line_may_be_fed_at_a_match_inside_a_member() -> None:
    """The member that holds the match is the one that is fed."""
    pair = Group("series", ("c", "d"))
    wiring = wired(plain(), Group("parallel", ("a", pair), Run(2.0, "wire"), "d"))
    assert wiring.tree == Parallel((Series(("bridge:c", "bridge:d")), Series(("segment:a>c", "bridge:a"))))


def test_a_parallel_without_spacing_is_joined_at_one_point() -> None:
    """All members side by side."""
    wiring = wired(plain(), Group("parallel", ("a", "b"), lead=Run(9.0, "wire")))
    assert wiring.tree == Series(("lead", Parallel(("bridge:a", "bridge:b"))))


def test_groups_nest_and_may_have_leads_of_their_own() -> None:
    """Ids stay readable: by the first match of the group."""
    left = Group("series", ("a", "b"), lead=Run(2.0, "wire"))
    right = Group("series", ("c", "d"), lead=Run(3.0, "wire"))
    wiring = wired(plain(), Group("parallel", (left, right), lead=Run(20.0, "wire")))
    assert wiring.tree == Series(
        (
            "lead",
            Parallel(
                (
                    Series(("lead:a", "bridge:a", "bridge:b")),
                    Series(("lead:c", "bridge:c", "bridge:d")),
                )
            ),
        )
    )
    assert wiring.topology == "mixed"


def test_ids_are_unique_even_where_two_leads_go_to_one_match() -> None:
    """A number tells them apart."""
    inner = Group("single", ("a",), lead=Run(1.0, "wire"))
    outer = Group("series", (inner, "b"), lead=Run(2.0, "wire"))
    wiring = wired(plain(), Group("parallel", (outer, "c"), lead=Run(3.0, "wire")))
    leads = {e.id: e.length_m for e in wiring.elements.values() if e.what == "lead"}
    assert leads == {"lead:a": 1.0, "lead:a#2": 2.0, "lead": 3.0}


def test_a_ladder_of_500_matches_does_not_exhaust_the_stack() -> None:
    """The tree is a thousand levels deep; building and solving it never recurses."""
    made = plain()
    made.supply("P", 24.0, 0.1)
    made.rail("A", "P")
    names = tuple(f"m{k}" for k in range(500))
    made.circuit("C", Group("parallel", names, Run(0.5, "wire"), lead=Run(9.0, "wire")), "A", (0, 1))
    current = [m.current_a for m in made.solve().circuits["C"].matches.values()]
    nominal = [each.nominal for each in current if each is not None]
    assert len(nominal) == 500
    assert nominal == sorted(nominal, reverse=True)


def test_groups_nested_500_deep_do_not_exhaust_the_stack() -> None:
    """Not that anyone wires so."""
    made = plain()
    made.supply("P", 24.0, 0.1)
    made.rail("A", "P")
    group = Group("series", ("last", "first"))
    for k in range(500):
        group = Group("parallel" if k % 2 else "series", (f"m{k}", group), Run(0.1, "wire"), "last")
    made.circuit("C", group, "A", (0, 1))
    assert len(made.solve().circuits["C"].matches) == 502


def refused(made: Bench, group: Group) -> list[tuple[str, object, str]]:
    """Rule, place and headline of the findings of a circuit that has no wiring."""
    made.circuit("C", group)
    wiring, findings = build_wiring(made.circuits["C"], made.model())
    assert wiring is None
    return [(each.rule, each.at, each.headline) for each in findings]


def test_a_lead_whose_length_is_not_known_is_told() -> None:
    """No value, no number."""
    assert refused(plain(), Group("single", ("M",), lead=Run(None, "wire"))) == [
        ("not-computed", "circuit:C", "circuit C: the length of its lead is not known")
    ]


def test_an_unknown_cable_is_told_once_however_often_it_is_used() -> None:
    """One finding for all gaps."""
    group = Group("series", ("a", "b", "c"), Run(2.0, "rope"))
    assert refused(plain(), group) == [
        ("not-computed", "circuit:C", "circuit C: its segment is of cable rope, which is not known")
    ]


def test_a_match_without_a_bridge_resistance_is_told_for_its_type() -> None:
    """The finding is the same for every circuit, so it is told once in all."""
    found = refused(bench(bridge_ohm=None), Group("series", ("a", "b")))
    assert set(found) == {("missing-firing-data", "match:match", "match type match states no bridge resistance")}
    made = bench(bridge_ohm=None)
    made.circuit("C1", single("x", 1.0))
    made.circuit("C2", single("y", 2.0))
    (one,), (two,) = (build_wiring(c, made.model())[1] for c in made.circuits.values())
    assert one == two


def test_a_match_of_unknown_type_is_told() -> None:
    """Neither an unknown igniter nor an unknown match is passed over."""
    made = plain()
    made.circuit("C", single("M", 1.0), igniter="nothing")
    wiring, findings = build_wiring(made.circuits["C"], made.model())
    assert wiring is None
    assert [each.headline for each in findings] == ["circuit C: the match type of M is not known"]


def test_a_group_without_a_match_is_told() -> None:
    """Empty at the top or inside."""
    for group in (Group("series", ()), Group("series", ("a", Group("parallel", ())))):
        assert [headline for _, _, headline in refused(plain(), group)] == ["circuit C has a group without a match"]


def test_a_lead_to_a_match_that_is_not_on_the_line_is_told() -> None:
    """It is never fed at the first instead."""
    found = refused(plain(), Group("parallel", ("a", "b"), Run(2.0, "wire"), "z"))
    assert [headline for _, _, headline in found] == ["circuit C: its lead goes to z, which is not on the line"]
