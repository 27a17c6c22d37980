"""No line makes more than a show can hold.

Protects from
    A range with a digit too many that makes a million cues.

How it is computed
    Things made by ranges, steps and scripts are counted while they are made, and making stops
    at the bound.

Limit and source
    A fixed bound, far above what any show fires.

Breaks it
    position Q1..Q99999999 from 0 m, 0 m every 1 m

Keeps it
    position Q1..Q99 from 0 m, 0 m every 1 m
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("too-many", "error", __doc__)
