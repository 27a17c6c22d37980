"""Every quantity says its unit.

Protects from
    `2` that one reads as metres and another as feet.

How it is computed
    A bare number where a unit is due. The units that would do are named.

Limit and source
    Counts, ratios and revisions are bare numbers; everything else carries a unit.

Breaks it
    position Q1 at 10, 0 m

Keeps it
    position Q1 at 10 m, 0 m
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("missing-unit", "error", __doc__)
