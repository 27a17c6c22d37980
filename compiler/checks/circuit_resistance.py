"""Every circuit's resistance lies in the range its module is made for.

Protects from
    A module that takes a long string for an open circuit and refuses to fire it, or a thick line for
    a short; and a continuity test that says nothing about either.

How it is computed
    Resistance at the channel over the ambient range, without the meter's error: least against the
    low end, greatest against the high end.

Limit and source
    `circuit` of the module, as its maker states it. Equal to either end passes.

Breaks it
    module short-8 { channels 8; circuit 1 .. 20 ohm }
    rail A of short-8 at Q1 { feed Pack-1 }
    circuit String on A.1 { lead 60 m of zip-18; series D1, D2, D3, D4, D5, D6, D7, D8, D9, D10, D11, D12 }

Keeps it
    circuit String on A.1 { lead 60 m of zip-18; series D1, D2, D3, D4, D5, D6 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import module_of, part_words
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, against, figure, quantity
from compiler.model.solved import CircuitResult, Element, Solved, Wiring
from compiler.model.types import Module
from grammar.findings import Finding, Related

_MEND = {
    True: "Put fewer matches in the string, write a heavier or shorter lead, or use a module with a "
    "wider `circuit` range",
    False: "Write a longer or thinner lead, put fewer branches in parallel, or use a module with a "
    "wider `circuit` range",
}
_ORDER = ("lead", "segment", "splice", "leg", "bridge")


def _sum_words(wiring: Wiring | None, *, high: bool) -> str:
    """A string as a sum, ``lead 2.1 ohm + 12 × bridge 1.6 ohm``; empty where it is no plain sum."""
    if wiring is None or wiring.topology not in {"single", "series"}:
        return ""
    kinds: dict[tuple[str, float], list[Element]] = {}
    for element in wiring.elements.values():
        ohm = element.ohm.high if high else element.ohm.low
        kinds.setdefault((element.what, ohm), []).append(element)
    parts = [
        f"{what} {quantity(ohm, 'ohm')}" if len(same) == 1 else f"{len(same)} × {what} {quantity(ohm, 'ohm')}"
        for (what, ohm), same in sorted(kinds.items(), key=lambda item: _ORDER.index(item[0][0]))
        if ohm > 0.0
    ]
    return " + ".join(parts) if len(parts) <= 6 else ""


def _most(wiring: Wiring | None, result: CircuitResult) -> str:
    """What contributes most to a string's resistance, in a sentence."""
    if wiring is None or wiring.topology not in {"single", "series"} or not result.resistance_ohm.high:
        return ""
    sums: dict[str, float] = {}
    for element in wiring.elements.values():
        sums[element.what] = sums.get(element.what, 0.0) + element.ohm.high
    what = max(sums, key=lambda kind: sums[kind])
    share = 100 * sums[what] / result.resistance_ohm.high
    word = {"bridge": "the bridges are", "leg": "the leg wires are", "lead": "the lead is"}
    subject = word.get(what, f"the {what}s are")
    return f" {subject[0].upper()}{subject[1:]} {figure(share, 2)} % of it."


def _finding(solved: Solved, result: CircuitResult, module: Module, *, high: bool) -> Finding:
    assert module.circuit_ohm_range is not None
    end = module.circuit_ohm_range[1 if high else 0]
    ohm = result.resistance_ohm.high if high else result.resistance_ohm.low
    shown, limit = against(ohm, end, "ohm")
    wiring = solved.wirings.get(result.name)
    total = _sum_words(wiring, high=high)
    address = solved.addresses[result.name]
    return Finding(
        "circuit-resistance",
        f"{result.name} measures {'up to' if high else 'as little as'} {shown}, module {module.name} "
        f"takes no {'more' if high else 'less'} than {limit}",
        at=f"circuit:{result.name}",
        subject=f"circuit {result.name}",
        values={"resistance_ohm": ohm, "limit_ohm": end},
        working=f"{total + ' = ' if total else ''}{shown}, limit {limit}",
        detail=part_words("module", module.name, module.origin) + _most(wiring, result),
        hint=f"{_MEND[high]}. {FIELD}",
        related=(Related(f"rail:{address.rail}", "the rail"),),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    for name, result in solved.circuits.items():
        module = module_of(solved, name)
        if module is None or module.circuit_ohm_range is None:
            continue
        least, most = module.circuit_ohm_range
        if result.resistance_ohm.high > most:
            yield _finding(solved, result, module, high=True)
        elif result.resistance_ohm.low < least:
            yield _finding(solved, result, module, high=False)


RULE = rule("circuit-resistance", "error", __doc__, _check, waivable=True)
