"""No two positions are one point.

Protects from
    Coordinates copied and not changed: two names for one place, and a device where nobody looks
    for it.

How it is computed
    Positions whose coordinates agree to the millimetre. Both names are shown.

Limit and source
    A warning: a person decides.

Breaks it
    position Q1 at 10 m, 0 m
    position Q2 at 10 m, 0 m

Keeps it
    position Q1 at 10 m, 0 m
    position Q2 at 20 m, 0 m
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("same-place", "warning", __doc__)
