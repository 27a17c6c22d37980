"""Every driver stands a short at the match end of its line.

Protects from
    A match that fires may leave its wires shorted, and a pair can be pinched while it is rigged.
    A driver that can't stand this fails with its channel on, or takes its rail down with it.

How it is computed
    Greatest supply voltage, least resistances, coldest copper, a short where the lead ends; no leg
    wire is credited, and the circuit is alone on its supply. Not said again of a circuit that is
    above the limit as wired (`channel-overload`).

Limit and source
    `channel-limit` of the module, as its maker states it. Equal to the limit passes.

Breaks it
    module weak-4 { channels 4; channel-limit 8 A }
    rail A of weak-4 at Q1 { feed Pack-1 }
    circuit Near on A.1 { lead 2 m of zip-14; series D1 }

Keeps it
    circuit Near on A.1 { lead 40 m of zip-18; series D1 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.channel_overload import overloaded
from compiler.checks.lookups import module_of, part_words, top_lead
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, against, quantity
from compiler.model.solved import Solved
from compiler.model.types import Module
from grammar.findings import Finding, Related


def _lead_words(solved: Solved, name: str) -> str:
    lead = top_lead(solved, solved.model.circuits[name]) if name in solved.model.circuits else None
    if lead is None:
        return "no lead credited"
    length = "" if lead.length_m is None else f"{quantity(lead.length_m, 'm')} of "
    return f"{quantity(lead.ohm.low, 'ohm')} of lead ({length}{lead.part})"


def _finding(solved: Solved, name: str, module: Module, amps: float, limit_a: float) -> Finding:
    shown, limit = against(amps, limit_a, "A")
    address = solved.addresses[name]
    return Finding(
        "driver-short",
        f"a short at the match end of {name} draws {shown} from channel "
        f"{address.rail}.{address.channel}, its driver stands {limit}",
        at=f"circuit:{name}",
        role="lead",
        subject=f"circuit {name}",
        values={"shorted_current_a": amps, "limit_a": limit_a},
        working=f"greatest supply into {_lead_words(solved, name)} and what feeds it: {shown}, limit {limit}",
        detail="A fired match often leaves its wires shorted. " + part_words("module", module.name, module.origin),
        hint=f"Write a longer or thinner lead for {name}, or put it on a module with a higher `channel-limit`. {FIELD}",
        related=(Related(f"rail:{address.rail}", "the rail"),),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    told = {result.name for result, *_ in overloaded(solved)}
    for name, result in solved.circuits.items():
        module, amps = module_of(solved, name), result.shorted_current_a
        if name in told or module is None or module.channel_limit_a is None or amps is None:
            continue
        if amps > module.channel_limit_a:
            yield _finding(solved, name, module, amps, module.channel_limit_a)


RULE = rule("driver-short", "error", __doc__, _check, waivable=True)
