"""The built-in values against the published rows they come from, through the whole compiler.

Sources stand beside the checks. `confirmed` and `from memory` are told as they were seen.
"""

from __future__ import annotations

from typing import Any

import pytest

HEAD = """
show "Parts" { ambient 5 .. 30 degC; rules "RULES" }
defaults { lead zip-18; slack 2 m plus 10 %; joint 5 mohm +- 5 mohm }
position Here at 0 m, 0 m
position There at 10 m, 0 m
supply Pack of BATTERY at Here
rail A of MODULE at Here { feed Pack through 3 m of trunk-4 }
"""


def show(body: str, *, rules: str = "strict", battery: str = "lead-acid-24", module: str = "dc-32") -> str:
    """A small show around a body."""
    head = HEAD.replace("RULES", rules).replace("BATTERY", battery).replace("MODULE", module)
    return head + body


def with_cables(*names: str) -> str:
    """A show in which each cable is the lead of one circuit."""
    lines = []
    for number, name in enumerate(names, 1):
        lines.append(f"device D{number} of mine-red at There")
        lines.append(f"circuit C{number} on A.{number} {{ lead 10 m of {name}; series D{number} }}")
        lines.append(f"cue {number} at 0:{number:02}.0 C{number}")
    return show("\n".join(lines))


SOLID_COPPER_OHM_PER_KM = {
    # Wire resistance table at cirris.com, confirmed; agrees with the gauge rule of ASTM B258.
    18: 20.95,
    22: 52.96,
    24: 84.21,
    26: 133.90,
    # NBS Handbook 100 from diameters rounded to 0.1 mil, so within half a per cent of the rule (ASTM B869-04 diameters, confirmed).
    20: 33.2,
    16: 13.2,
    14: 8.28,
}


@pytest.mark.parametrize(
    ("name", "gauge"),
    [
        *((f"zip-{n}", n) for n in (20, 18, 16, 14)),
        *((f"bell-{n}", n) for n in (26, 24, 22, 20, 18)),
    ],
)
def test_a_copper_pair_has_the_resistance_of_its_gauge(compile_text: Any, name: str, gauge: int) -> None:
    cable = compile_text(with_cables(name)).rows("cables")[name]
    expected = SOLID_COPPER_OHM_PER_KM[gauge] / 1000
    within = 1e-3 if gauge in (18, 22, 24, 26) else 5e-3
    assert cable["ohm_per_m"]["nominal"] == pytest.approx(expected, rel=within)
    assert cable["metal"] == "copper"
    # IEC 60028, confirmed: Industrial Power Engineering and Applications Handbook Table 30.1.
    assert cable["alpha_per_k"] == pytest.approx(0.00393)


@pytest.mark.parametrize(
    ("name", "ohm_per_km"),
    [
        # IEC 60228 class 5, plain copper, confirmed: mycableengineering.com, nationalcables.com.
        ("twin-0.5", 39.0),
        ("twin-0.75", 26.0),
        ("twin-1.0", 19.5),
        ("twin-1.5", 13.3),
        ("twin-2.5", 7.98),
        ("trunk-2.5", 7.98),
        ("trunk-4", 4.95),
        ("trunk-6", 3.3),
    ],
)
def test_a_metric_pair_has_the_greatest_resistance_of_its_class(
    compile_text: Any, name: str, ohm_per_km: float
) -> None:
    cable = compile_text(with_cables(name)).rows("cables")[name]
    assert cable["ohm_per_m"]["nominal"] == pytest.approx(ohm_per_km / 1000, rel=1e-6)
    assert cable["ohm_per_m"]["high"] >= ohm_per_km / 1000 * (1 - 1e-9)


@pytest.mark.parametrize(
    ("name", "ohm_per_km", "metal"),
    [
        # ASTM B869-04 Table 1, 21 % conductivity, greatest values, confirmed: it.scribd.com/document/129070405.
        ("ccs-16", 64.05, "copper-clad-steel"),
        ("ccs-18", 101.78, "copper-clad-steel"),
        ("ccs-20", 161.25, "copper-clad-steel"),
        # 40 % conductivity carried from the rows of ASTM B227 to thinner wire: computed.
        ("ccs-22", 135.05, "copper-clad-steel"),
        ("ccs-24", 214.74, "copper-clad-steel"),
        # 61 % IACS: computed.
        ("cca-18", 34.34, "copper-clad-aluminium"),
        ("cca-20", 54.60, "copper-clad-aluminium"),
    ],
)
def test_clad_wire_is_taken_at_its_published_resistance(
    compile_text: Any, name: str, ohm_per_km: float, metal: str
) -> None:
    cable = compile_text(with_cables(name)).rows("cables")[name]
    assert cable["metal"] == metal
    # The rows come from diameters rounded to 0.1 mil.
    assert cable["ohm_per_m"]["nominal"] == pytest.approx(ohm_per_km / 1000, rel=5e-3)
    assert cable["ohm_per_m"]["low"] < ohm_per_km / 1000 <= cable["ohm_per_m"]["high"]


@pytest.mark.parametrize(
    ("name", "area_mm2"),
    [("zip-18", 0.82305), ("bell-24", 0.20473), ("trunk-2.5", 2.5), ("trunk-4", 4.0), ("twin-0.75", 0.75)],
)
def test_a_cable_limit_is_the_adiabatic_current_of_five_seconds_rounded_down(
    compile_text: Any, name: str, area_mm2: float
) -> None:
    # IEC 60364-4-43: I = k S / sqrt(t), k = 115 for copper in PVC, t up to 5 s. From memory.
    limit = compile_text(with_cables(name)).rows("cables")[name]["limit_a"]
    exact = 115.0 * area_mm2 / 5.0**0.5
    assert exact - 1.0 < limit <= exact


@pytest.mark.parametrize("name", ["ccs-16", "ccs-18", "ccs-20", "ccs-22", "ccs-24", "cca-18", "cca-20"])
def test_clad_wire_has_no_current_limit_without_a_source(compile_text: Any, name: str) -> None:
    assert compile_text(with_cables(name)).rows("cables")[name]["limit_a"] is None


def test_the_generic_match_is_the_sensitive_class_of_the_ordinance(compile_text: Any) -> None:
    match = compile_text(with_cables("zip-18")).rows("igniters")["generic-match"]
    # 1. SprengV Anlage 2 no. 1.1, 1.2, type A. Confirmed: bundestag/gesetze, s/sprengv_1/index.md, commit 77abca2c.
    assert (match["bridge_ohm"]["low"], match["bridge_ohm"]["high"]) == pytest.approx((0.8, 2.0))
    assert match["no_fire_a"] == pytest.approx(0.18)
    assert match["alone_a"] == pytest.approx(0.6)
    assert (match["impulse_a2s"]["low"], match["impulse_a2s"]["high"]) == pytest.approx((0.8e-3, 3.0e-3))
    assert match["function_s"] == pytest.approx(0.010)
    # The ordinance fires five in series at 0.8 A; a training hand-out asks 1.0 A (confirmed: ar.scribd.com/document/234791230).
    assert match["series_a"] == pytest.approx(max(0.8, 1.0))
    # From memory: handbooks say 0.5 A or 1.0 A.
    assert match["parallel_a"] == pytest.approx(max(0.5, 1.0))
    assert match["generic"] is True


def test_the_insensitive_class_needs_more_and_forgives_more(compile_text: Any) -> None:
    made = compile_text(
        show(
            'effect slow-mine { kind mine; match generic-match-u; source "-"; confidence "-" }\n'
            "cue 1 at 0:01.0 slow-mine at There"
        )
    )
    match = made.rows("igniters")["generic-match-u"]
    # 1. SprengV Anlage 2 no. 1.3, type U. Confirmed: bundestag/gesetze, s/sprengv_1/index.md, commit 77abca2c.
    assert (match["bridge_ohm"]["low"], match["bridge_ohm"]["high"]) == pytest.approx((0.4, 0.8))
    assert match["no_fire_a"] == pytest.approx(0.45)
    assert match["alone_a"] == pytest.approx(1.3)
    assert match["series_a"] == pytest.approx(1.5)
    assert (match["impulse_a2s"]["low"], match["impulse_a2s"]["high"]) == pytest.approx((8e-3, 16e-3))


@pytest.mark.parametrize(
    ("effect", "low", "nominal", "high"),
    [
        # Typical lift-to-burst times of the trade, common practice; no published study was found.
        ("shell-63-red", 2.0, 2.2, 2.5),
        ("shell-75", 2.5, 2.7, 3.0),
        ("shell-100-red", 3.0, 3.2, 3.5),
        ("shell-125-gold", 3.5, 3.7, 4.0),
        ("shell-150-silver", 4.0, 4.2, 4.5),
        ("shell-200-blue", 4.8, 5.1, 5.5),
        ("shell-250-white", 5.5, 5.9, 6.5),
        ("shell-300", 6.0, 6.7, 7.5),
        ("chain-75-red", 2.5, 2.7, 3.0),  # seen at its first burst
    ],
)
def test_a_shell_is_lit_its_lift_and_fuse_before_it_is_seen(
    compile_text: Any, effect: str, low: float, nominal: float, high: float
) -> None:
    made = compile_text(show(f"cue 1 at 0:10.0 {effect} at There"))
    prefire = made.rows("effects")[effect]["prefire_s"]
    assert (prefire["low"], prefire["nominal"], prefire["high"]) == pytest.approx((low, nominal, high))
    assert made.plan["cues"][0]["fired_s"] == pytest.approx(10.0 - nominal)


@pytest.mark.parametrize("module", ["dc-8", "dc-16", "dc-32"])
@pytest.mark.parametrize("battery", ["lead-acid-12", "lead-acid-24", "lead-acid-36", "lead-acid-48"])
def test_no_stand_in_module_tests_with_more_than_the_strictest_published_current(
    compile_text: Any, module: str, battery: str
) -> None:
    made = compile_text(show("cue 1 at 0:10.0 mine-red at There", module=module, battery=battery))
    greatest = made.plan["circuits"][0]["test"]["greatest_a"]
    # 1. SprengV Anlage 1 no. 54: 25 mA; WAC 212-17-317(6): a fifth of no-fire, 36 mA for 0.18 A. Both confirmed.
    assert 0.0 < greatest <= min(0.025, 0.2 * 0.18)


@pytest.mark.parametrize(
    ("battery", "cells"),
    [("lead-acid-12", 6), ("lead-acid-24", 12), ("lead-acid-36", 18), ("lead-acid-48", 24)],
)
def test_a_lead_acid_battery_runs_from_1_75_to_2_45_volts_a_cell(compile_text: Any, battery: str, cells: int) -> None:
    # Common practice: 1.75 V at the end of discharge, 2.1 V full and at rest, 2.45 V straight off the charger.
    made = compile_text(show("cue 1 at 0:10.0 mine-red at There", battery=battery))
    emf = made.rows("supplies")["Pack"]["emf_v"]
    assert (emf["low"], emf["nominal"], emf["high"]) == pytest.approx((1.75 * cells, 2.1 * cells, 2.45 * cells))


LIMITS = {
    # id: (strict, wac-212-17, sprengv); None: as strict.
    "margin": (1.5, None, None),
    "test-current": (0.025, 0.050, 0.025),
    "test-fraction": (0.2, 0.2, None),
    "test-fault": (0.050, None, 0.050),
    "function-time": (0.010, None, None),
    "chase-step": (2.0, None, None),
    "sun-heating": (25.0, None, None),
    "spare-share": (0.10, None, None),
    "spare-least": (2, None, None),
    "copper-low": (0.01, None, None),
    "copper-high": (0.03, None, None),
    "stranding-high": (0.02, None, None),
}


@pytest.mark.parametrize(("column", "rules"), list(enumerate(["strict", "wac-212-17", "sprengv"])))
def test_a_rule_set_carries_the_published_limits_with_their_sources(compile_text: Any, column: int, rules: str) -> None:
    # 1. SprengV Anlage 1 no. 54 to 57 and WAC 212-17-317(6), both confirmed; the rest common practice or from memory.
    made = compile_text(show("cue 1 at 0:10.0 mine-red at There", rules=rules))
    assert made.plan["rules"]["name"] == rules
    found = {limit["id"]: limit for limit in made.plan["rules"]["limits"]}
    assert set(found) == set(LIMITS)
    for name, values in LIMITS.items():
        expected = values[0] if values[column] is None else values[column]
        assert found[name]["value"] == pytest.approx(expected), name
        assert found[name]["source"], name
        assert found[name]["confidence"], name
        assert found[name]["waivable"] is not name.startswith("test-"), name
