"""The ambient temperature is one in which a show is fired.

Protects from
    Degrees Fahrenheit written as Celsius: cables computed far too hot, readings that match nothing.

How it is computed
    Lowest and highest `ambient`, and what lies between them.

Limit and source
    -40 to 55 degC, and no more than 60 K from coldest to hottest: beyond that no crew works, and no
    site gets in a day (common practice).

Breaks it
    show "Harbour night" { ambient 41 .. 68 degC }

Keeps it
    show "Harbour night" { ambient 41 .. 68 degF }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import figure
from compiler.model.solved import Solved
from grammar.findings import Finding

LEAST_C, MOST_C, MOST_SPREAD_K = -40.0, 55.0, 60.0
_ROUND_OFF = 1e-9  # degrees Fahrenheit do not come out even


def _check(solved: Solved) -> Iterable[Finding]:
    low, high = solved.model.show.ambient_c
    wide = high - low > MOST_SPREAD_K + _ROUND_OFF
    if low >= LEAST_C - _ROUND_OFF and high <= MOST_C + _ROUND_OFF and not wide:
        return
    shown = f"{figure(low)} .. {figure(high)} degC"
    limit = f"limit {figure(MOST_SPREAD_K)} K apart" if wide else f"limit {figure(LEAST_C)} .. {figure(MOST_C)} degC"
    yield Finding(
        "temperature-implausible",
        f"the ambient is {shown}, {figure(high - low)} K apart" if wide else f"the ambient is {shown}",
        at="show:",
        role="ambient",
        subject="show",
        values={"low_c": low, "high_c": high},
        working=f"{shown}, {limit}",
        detail="Resistances and readings are computed over all of it.",
        hint=f"Were degrees Fahrenheit meant? Write `ambient {figure(low)} .. {figure(high)} degF`.",
    )


RULE = rule("temperature-implausible", "warning", __doc__, _check, waivable=True)
