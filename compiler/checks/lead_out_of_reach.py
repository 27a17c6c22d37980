"""Every lead is long enough for its way and not longer than its module allows.

Protects from
    A lead cut to the sheet that ends metres short of the piece, or a run longer than the maker of
    the module has proved.

How it is computed
    Length of the lead against the straight distance from rail to place, which no way can beat; and
    against the module's reach. A lead shorter than the distance is reported as such only.

Limit and source
    The site's own coordinates; `reach` of the module, as its maker states it. Equal passes. A
    module that states no reach has none.

Breaks it
    position Q1..Q5 from 0 m, 0 m every 10 m
    rail A of dc-16 at Q1 { feed Pack-1 }
    device D1 of comet-gold at Q5
    circuit First on A.1 { lead 12 m of zip-18; series D1 }

Keeps it
    circuit First on A.1 { lead 45 m of zip-18; series D1 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import module_of, part_words, top_lead
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, against
from compiler.model.solved import Element, Solved
from compiler.model.types import Circuit, Module
from grammar.findings import Finding, Related


def _short(solved: Solved, circuit: Circuit, length_m: float, lead: Element) -> Finding:
    distance_m = solved.distances_m[circuit.name]
    shown, distance = against(length_m, distance_m, "m")
    address = solved.addresses.get(circuit.name)
    rail = "the rail" if address is None else f"rail {address.rail}"
    return Finding(
        "lead-out-of-reach",
        f"the lead of {circuit.name} is {shown}, {circuit.place} is {distance} from {rail}",
        at=f"circuit:{circuit.name}",
        role="lead",
        subject=f"circuit {circuit.name}",
        values={"length_m": length_m, "distance_m": distance_m},
        working=f"{shown} of {lead.part}, straight way {distance}",
        detail="The straight way is the shortest there is; slack and corners come on top.",
        hint=f"Write a longer lead, or `lead {lead.part}` without a length and it is laid out from the site. {FIELD}",
        related=_related(solved, circuit.name, circuit.place),
    )


def _far(solved: Solved, circuit: Circuit, length_m: float, module: Module) -> Finding:
    reach_m = module.reach_m or 0.0
    shown, reach = against(length_m, reach_m, "m")
    return Finding(
        "lead-out-of-reach",
        f"the lead of {circuit.name} is {shown}, module {module.name} reaches {reach}",
        at=f"circuit:{circuit.name}",
        role="lead",
        subject=f"circuit {circuit.name}",
        values={"length_m": length_m, "reach_m": reach_m},
        working=f"{shown}, limit {reach}",
        detail=part_words("module", module.name, module.origin),
        hint=f"Use a rail nearer to {circuit.place}, or place one there. {FIELD}",
        related=_related(solved, circuit.name, circuit.place),
    )


def _related(solved: Solved, name: str, place: str) -> tuple[Related, ...]:
    address = solved.addresses.get(name)
    found = () if address is None else (Related(f"rail:{address.rail}", "from here"),)
    known = place in solved.model.positions
    return (*found, Related(f"position:{place}", "to here")) if known else found


def _check(solved: Solved) -> Iterable[Finding]:
    for circuit in solved.model.circuits.values():
        lead, module = top_lead(solved, circuit), module_of(solved, circuit.name)
        if lead is None or lead.length_m is None:
            continue
        if lead.length_m < solved.distances_m.get(circuit.name, 0.0):
            yield _short(solved, circuit, lead.length_m, lead)
        elif module is not None and module.reach_m is not None and lead.length_m > module.reach_m:
            yield _far(solved, circuit, lead.length_m, module)


RULE = rule("lead-out-of-reach", "error", __doc__, _check, waivable=True)
