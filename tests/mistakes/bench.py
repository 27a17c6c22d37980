"""A rail of its own for one circuit, of parts that are its own: what loads and missing data are planted in."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from .draft import BATTERY, MATCH, MODULE, Line, Plot

Change = Mapping[str, str | None]
"""Properties to change; None takes one out."""
NOTHING: Change = MappingProxyType({})


class Bench(NamedTuple):
    """The statements of a bench, for expectations."""

    match: Line
    module: Line
    battery: Line
    supply: Line
    rail: Line
    devices: Line
    circuit: Line
    cue: Line


def bench(
    p: Plot, *, match: Change = NOTHING, module: Change = NOTHING, battery: Change = NOTHING, feed: str = "5 m of trunk-4",
    lead: str = "25 m of zip-18", wires: str = "series {a}, {b}", count: int = 2,
) -> Bench:  # fmt: skip
    """Two gerbs in series on a rail of its own, clean unless something is changed."""
    k = p.k
    names = [f"Pot{k}-{number}" for number in range(1, count + 1)]
    line = wires.format(a=names[0], b=names[-1], all=", ".join(names))
    return Bench(
        p.part(f"match tag{k}", **_changed(MATCH, match)),
        p.part(f"module box{k}", **_changed(MODULE, module)),
        p.part(f"battery cell{k}", **_changed(BATTERY, battery)),
        p.add(f"supply Bank{k} of cell{k} at Yard{k}-1"),
        p.add(f"rail Deck{k} of box{k} at Yard{k}-1 {{ feed Bank{k} through {feed}; serves Yard{k}-2 }}"),
        p.add(f"effect pot{k} {{ kind gerb; match tag{k}; burn 15 s }}\ndevice {', '.join(names)} of pot{k} at Yard{k}-2"),
        p.add(f"circuit Pots{k} on Deck{k}.1 {{ lead {lead}; {line} }}"),
        p.cue(40, 40.0, f"Pots{k}"),
    )


def _changed(stock: Mapping[str, str], change: Change) -> dict[str, str]:
    return {word: value for word, value in (dict(stock) | dict(change)).items() if value is not None}


def row(stock: Mapping[str, str], key: str) -> int:
    """How far below its head a property of a part is written."""
    return 1 + list(stock).index(key)
