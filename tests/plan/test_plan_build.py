"""The published plan: its fixed names, its numbers, its order, and what it says when it can't say."""

from __future__ import annotations

import json
import random
from pathlib import Path
from types import ModuleType
from typing import Any

import jsonschema
import pytest

from compiler.model import solved as s
from compiler.model import types as t
from compiler.model.quantities import Range
from compiler.model.values import replace
from compiler.plan import schema_text
from compiler.plan.build import build_plan
from compiler.plan.shape import DEEPEST, depth, edges, shape, walked

Plan = dict[str, Any]

GIVEN = {"low", "nominal", "high"}
RESULT = {"least", "nominal", "greatest"}

# The names that outside readers rely on, written down by hand once more.
FIXED = {
    "": "format_version fingerprint show rules supplies feeds rails circuits devices cues "
    "instants waivers findings faults spans",
    "rules": "name dated limits",
    "rules.limits": "id value unit source confidence waivable set_by",
    "supplies": "name kind emf_v inner_ohm limit_a fuse_a capacitance_f charge_v recharge_ohm",
    "feeds": "name from to ohm limit_a",
    "rails": "name supply feed position channels driver_ohm driver_drop_v channel_limit_a "
    "rail_limit_a most_at_once pulse_s recovery_s tick_s jitter_s circuit_ohm_range "
    "test_current_a",
    "circuits": "name rail channel bound key_effect topology elements tree resistance_ohm readings "
    "current_a alone_current_a shorted_current_a test matches",
    "circuits.elements": "id what part metal length_m ohm_at_20C ohm",
    "circuits.readings": "at_degC low nominal high meter_low meter_high",
    "circuits.test": "greatest_a limit_a limit_id",
    "circuits.matches": "name device igniter use current_a required_a required_from margin "
    "margin_required impulse_a2s required_a2s least_at",
    "circuits.matches.least_at": "instant corner",
    "cues": "number text by seen_s prefire_s wanted_fired_s fired_s rounding_s circuits",
    "instants": "supply from_s to_s circuits supply_a rails",
    "instants.rails": "name amps",
    "findings": "rule severity subject place values waived_by",
}
GIVENS = (
    "supplies.emf_v supplies.inner_ohm feeds.ohm rails.driver_ohm rails.driver_drop_v rails.pulse_s "
    "circuits.elements.ohm_at_20C circuits.elements.ohm circuits.resistance_ohm cues.prefire_s"
)
RESULTS = (
    "circuits.current_a circuits.alone_current_a circuits.matches.current_a "
    "circuits.matches.impulse_a2s instants.supply_a instants.rails.amps"
)


@pytest.fixture
def plan(sample: ModuleType) -> Plan:
    """The sample show's plan."""
    return build_plan(sample.solved(), sample.FINDINGS, sample.place)


def reach(value: Any, path: str) -> list[Any]:
    """Every value at a dotted path, through lists."""
    found = [value]
    for key in filter(None, path.split(".")):
        found = [item[key] for item in found]
        found = [each for item in found for each in (item if isinstance(item, list) else [item])]
    return found


def circuit(plan: Plan, name: str) -> Plan:
    """One circuit of a plan by name."""
    return next(c for c in plan["circuits"] if c["name"] == name)


def scalars(value: Any) -> list[Any]:
    """Every number, text and null inside a value."""
    if isinstance(value, dict):
        return [leaf for item in value.values() for leaf in scalars(item)]
    if isinstance(value, list):
        return [leaf for item in value for leaf in scalars(item)]
    return [value]


# --- names and schema ---------------------------------------------------------------------------


@pytest.mark.parametrize("path", FIXED)
def test_every_fixed_name_is_there(plan: Plan, path: str) -> None:
    things = reach(plan, path)
    assert things
    for thing in things:
        assert set(FIXED[path].split()) <= set(thing)


@pytest.mark.parametrize("path", GIVENS.split())
def test_a_given_has_low_nominal_and_high(plan: Plan, path: str) -> None:
    known = [value for value in reach(plan, path) if value is not None]
    assert known
    assert all(set(value) == GIVEN for value in known)


@pytest.mark.parametrize("path", RESULTS.split())
def test_a_result_has_least_nominal_and_greatest(plan: Plan, path: str) -> None:
    known = [value for value in reach(plan, path) if value is not None]
    assert known
    assert all(set(value) == RESULT for value in known)


def test_a_built_plan_fits_the_schema(plan: Plan) -> None:
    schema = json.loads(schema_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(plan)


def test_the_schema_refuses_a_name_that_it_does_not_know(plan: Plan) -> None:
    plan["circuits"][0]["resistence_ohm"] = 1.0
    checker = jsonschema.Draft202012Validator(json.loads(schema_text()))
    assert [error.validator for error in checker.iter_errors(plan)] == ["additionalProperties"]


def test_the_schema_describes_every_property() -> None:
    def properties(value: Any) -> list[Any]:
        if isinstance(value, list):
            return [found for item in value for found in properties(item)]
        if not isinstance(value, dict):
            return []
        own = value.get("properties", {}).values() if "type" in value else ()
        return [*own, *(found for item in value.values() for found in properties(item))]

    found = properties(json.loads(schema_text()))
    assert len(found) > 150
    assert [item for item in found if not item.get("description") and "$ref" not in item] == []


def test_an_empty_show_has_a_plan_that_fits_the_schema(sample: ModuleType) -> None:
    whole = sample.solved().model
    bare = s.Solved(t.Model(whole.show, t.RuleSet("strict", "", {})))
    made = build_plan(bare, (), lambda _: None)
    jsonschema.Draft202012Validator(json.loads(schema_text())).validate(made)
    assert made["circuits"] == []


def test_the_sample_plan_on_disk_is_the_one_that_is_built(plan: Plan) -> None:
    stored = Path(__file__).parent.parent / "sheets" / "sample_plan.json"
    assert json.loads(stored.read_text(encoding="utf-8")) == plan


# --- numbers ------------------------------------------------------------------------------------


def test_numbers_have_at_most_twelve_digits_and_no_negative_zero(plan: Plan) -> None:
    numbers = [x for x in scalars(plan) if isinstance(x, float)]
    assert len(numbers) > 1000
    assert all(float(f"{x:.12g}") == x for x in numbers)
    assert "-0.0" not in {repr(x) for x in numbers}


def test_a_shift_of_minus_nothing_is_published_as_zero(sample: ModuleType) -> None:
    solved = sample.solved()
    first = replace(solved.schedule.cues[0], rounding_s=-0.0)
    schedule = replace(solved.schedule, cues=(first, *solved.schedule.cues[1:]))
    made = build_plan(replace(solved, schedule=schedule), (), lambda _: None)
    assert repr(made["cues"][0]["rounding_s"]) == "0.0"


def test_what_is_not_finite_is_published_as_null(sample: ModuleType) -> None:
    solved = sample.solved()
    name = "Q1-comet-gold-1"
    broken = replace(solved.circuits[name], current_a=Range(float("nan"), 1.0, float("inf")))
    made = build_plan(replace(solved, circuits=solved.circuits | {name: broken}), (), lambda _: None)
    assert circuit(made, name)["current_a"] == {"least": None, "nominal": 1.0, "greatest": None}


def test_the_margin_is_least_current_over_required_current(plan: Plan) -> None:
    matches = [m for m in reach(plan, "circuits.matches") if m["margin"] is not None]
    assert matches
    for match in matches:
        ratio = match["current_a"]["least"] / match["required_a"]
        assert match["margin"] == pytest.approx(ratio, rel=1e-11)
        assert match["margin_required"] == 1.5


def test_a_battery_has_none_of_what_belongs_to_a_capacitor(plan: Plan) -> None:
    for supply in plan["supplies"]:
        assert supply["kind"] == "battery"
        assert [supply[k] for k in ("capacitance_f", "charge_v", "recharge_ohm")] == [None] * 3


# --- what could not be computed -----------------------------------------------------------------


def test_a_match_without_firing_data_has_null_and_no_number(plan: Plan) -> None:
    found = circuit(plan, "Q9-wheel-green-1")
    match = found["matches"][0]
    assert found["current_a"] is None
    assert (match["current_a"], match["required_a"], match["margin"]) == (None, None, None)
    assert match["margin_required"] == 1.5


def test_a_circuit_that_was_never_solved_still_names_its_matches(sample: ModuleType) -> None:
    solved = sample.solved()
    bare = replace(solved, wirings={}, circuits={}, addresses={}, distances_m={})
    made = build_plan(bare, (), lambda _: None)
    jsonschema.Draft202012Validator(json.loads(schema_text())).validate(made)
    found = circuit(made, "Curtain-A")
    assert [m["name"] for m in found["matches"]] == [f"Curtain.{n}" for n in (1, 3, 5, 7, 9)]
    assert (found["rail"], found["channel"], found["tree"], found["topology"]) == (None,) * 4
    assert {m["margin"] for m in found["matches"]} == {None}


def test_a_generic_or_unknown_match_type_is_told_as_makers_data_missing(
    sample: ModuleType,
) -> None:
    solved = sample.solved()
    known = {c["name"]: c["makers_data_missing"] for c in _built(solved)["circuits"]}
    assert known["Q5-shell-75-1"] is True
    assert known["Curtain-A"] is False
    uses = dict(solved.model.match_uses)
    uses["Curtain.3"] = replace(uses["Curtain.3"], igniter=None)
    model = replace(solved.model, match_uses=uses)
    known = {c["name"]: c["makers_data_missing"] for c in _built(replace(solved, model=model))["circuits"]}
    assert known["Curtain-A"] is True


def _built(solved: s.Solved) -> Plan:
    return build_plan(solved, (), lambda _: None)


# --- order --------------------------------------------------------------------------------------


def _shuffled(pairs: dict[str, Any], by: random.Random) -> dict[str, Any]:
    names = list(pairs)
    by.shuffle(names)
    return {name: pairs[name] for name in names}


@pytest.mark.parametrize("seed", range(5))
def test_the_order_of_the_source_leaves_no_trace(sample: ModuleType, seed: int) -> None:
    by = random.Random(seed)
    solved = sample.solved()
    model = solved.model
    tables = ("matches", "cables", "batteries", "modules", "effects", "positions", "supplies",
              "rails", "devices", "match_uses", "circuits")  # fmt: skip
    mixed = replace(
        model,
        **{name: _shuffled(getattr(model, name), by) for name in tables},
        cues=tuple(by.sample(model.cues, len(model.cues))),
        notes=tuple(by.sample(model.notes, len(model.notes))),
        rules=replace(model.rules, limits=_shuffled(model.rules.limits, by)),
    )
    order = by.sample(range(len(solved.instants)), len(solved.instants))
    moved = {old: new for new, old in enumerate(order)}
    other = replace(
        solved,
        model=mixed,
        addresses=_shuffled(solved.addresses, by),
        wirings=_shuffled(solved.wirings, by),
        circuits=_shuffled({name: _moved(result, moved) for name, result in solved.circuits.items()}, by),
        instants=tuple(solved.instants[index] for index in order),
        schedule=replace(solved.schedule, cues=tuple(by.sample(solved.schedule.cues, len(model.cues)))),
    )
    found = by.sample(sample.FINDINGS, len(sample.FINDINGS))
    assert build_plan(other, found, sample.place) == build_plan(solved, sample.FINDINGS, sample.place)


def _moved(result: s.CircuitResult, moved: dict[int, int]) -> s.CircuitResult:
    matches = {
        name: m if m.least_instant is None else replace(m, least_instant=moved[m.least_instant])
        for name, m in result.matches.items()
    }
    return replace(result, matches=matches)


def test_names_stand_in_natural_order(plan: Plan) -> None:
    curtain = next(d for d in plan["devices"] if d["name"] == "Curtain")
    assert [m["name"] for m in curtain["matches"]] == [f"Curtain.{n}" for n in range(1, 11)]
    assert plan["cues"] == sorted(plan["cues"], key=lambda cue: (cue["press"] or "", cue["fired_s"]))


def test_findings_stand_worst_first(plan: Plan) -> None:
    assert [f["severity"] for f in plan["findings"]] == ["error", "warning", "note"]


def test_the_least_current_points_to_an_instant_with_its_circuit(plan: Plan) -> None:
    for found in plan["circuits"]:
        for match in found["matches"]:
            index = match["least_at"]["instant"]
            assert index is None or found["name"] in plan["instants"][index]["circuits"]


# --- power --------------------------------------------------------------------------------------


def test_a_rail_at_the_end_of_a_chain_names_the_supply_at_its_head(plan: Plan) -> None:
    rails = {rail["name"]: rail for rail in plan["rails"]}
    assert (rails["C"]["feed"], rails["C"]["supply"]) == ("B>C", "Pack-2")


def test_rails_that_feed_each_other_have_no_supply(sample: ModuleType) -> None:
    solved = sample.solved()
    rails = dict(solved.model.rails)
    rails["B"] = replace(rails["B"], feed=t.Feed("C>B", "C", "B", 3.0, "trunk-2.5"))
    made = _built(replace(solved, model=replace(solved.model, rails=rails)))
    assert [rail["supply"] for rail in made["rails"]] == ["Pack-1", None, None]


@pytest.mark.parametrize(("stated", "channels", "wanted"), [(3, 16, 3), (None, 16, 2), (None, 30, 3), (None, 31, 4)])
def test_spare_channels_are_as_the_rail_says_or_a_tenth_and_two_at_least(
    sample: ModuleType, stated: int | None, channels: int, wanted: int
) -> None:
    solved = sample.solved()
    model = solved.model
    rails = model.rails | {"A": replace(model.rails["A"], spare=stated)}
    modules = model.modules | {"dc-16": replace(model.modules["dc-16"], channels=channels)}
    made = _built(replace(solved, model=replace(model, rails=rails, modules=modules)))
    rail = next(rail for rail in made["rails"] if rail["name"] == "A")
    assert rail["spare_wanted"] == wanted
    taken = {a.channel for a in solved.addresses.values() if a.rail == "A"}
    assert rail["spare_channels"] == [n for n in range(1, channels + 1) if n not in taken]


def test_loads_are_the_greatest_of_the_instants_the_circuit_is_alive_in(plan: Plan) -> None:
    for found in plan["circuits"]:
        alive = [i for i in plan["instants"] if found["name"] in i["circuits"]]
        assert found["loads"]["supply_a"] == max(i["supply_a"]["greatest"] for i in alive)
        at = plan["instants"][found["loads"]["supply_instant"]]
        assert at["supply_a"]["greatest"] == found["loads"]["supply_a"]


# --- a circuit's shape --------------------------------------------------------------------------


def test_a_tree_is_written_as_series_and_parallel_over_element_ids(plan: Plan) -> None:
    for found in plan["circuits"]:
        ids = [leaf for leaf in scalars(found["tree"]) if isinstance(leaf, str)]
        assert sorted(ids) == sorted(element["id"] for element in found["elements"])
        assert ids == [element["id"] for element in found["elements"]]


def test_the_lead_is_the_first_run_from_the_rail(plan: Plan) -> None:
    assert circuit(plan, "Curtain-A")["lead"] == {"cable": "zip-14", "length_m": 52.0}
    mixed = circuit(plan, "Mixed-1")
    assert mixed["lead"] == {"cable": "zip-18", "length_m": 20.0}
    assert mixed["cables"] == [
        {"cable": "bell-24", "length_m": 2.0},
        {"cable": "zip-18", "length_m": 20.0},
    ]


def ladder(rungs: int) -> s.Branch:
    """A ladder of so many rungs, fed at its near end."""
    rest: s.Branch = "m0"
    for n in range(1, rungs):
        rest = s.Parallel((f"m{n}", s.Series((f"s{n}", rest))))
    return rest


def test_a_ladder_deeper_than_readers_bear_is_written_as_edges() -> None:
    short, deep = ladder(DEEPEST // 2), ladder(2000)
    assert set(shape(short)) == {"tree"}
    assert set(shape(deep)) == {"edges"}
    assert depth(deep) == 2 * 1999
    assert len(json.dumps(shape(deep))) > 2000


def test_edges_carry_the_same_resistance_as_the_tree() -> None:
    import numpy as np

    tree = s.Series(("lead", s.Parallel((ladder(4), s.Series(("a", "b", "c"))))))
    ohm = {name: 1.0 + 0.37 * index for index, name in enumerate(walked(tree))}
    found = edges(tree)
    assert sorted(edge["id"] for edge in found) == sorted(ohm)
    size = 1 + max(max(edge["a"], edge["b"]) for edge in found)
    nodal = np.zeros((size, size))
    for edge in found:
        a, b, g = edge["a"], edge["b"], 1 / ohm[edge["id"]]
        nodal[a, a] += g
        nodal[b, b] += g
        nodal[a, b] -= g
        nodal[b, a] -= g
    feed = np.zeros(size)
    feed[0] = 1.0
    kept = [n for n in range(size) if n != 1]
    volts = np.linalg.solve(nodal[np.ix_(kept, kept)], feed[kept])
    assert volts[0] == pytest.approx(_ohm(tree, ohm), rel=1e-12)


def _ohm(tree: s.Branch, ohm: dict[str, float]) -> float:
    if isinstance(tree, str):
        return ohm[tree]
    parts = [_ohm(part, ohm) for part in tree.parts]
    return sum(parts) if isinstance(tree, s.Series) else 1 / sum(1 / part for part in parts)
