"""No two names look the same.

Protects from
    `Q1` and `Ql`, `N0` and `NO`: told apart on a screen, mixed up on a tag by headlamp.

How it is computed
    Names of things in the field are folded (case, `I l 1`, `O 0`, letters of other scripts that
    look Latin, leading zeros) and compared; and a position that reads like a channel (`A1`
    beside rail `A`) counts too. Both places are shown.

Limit and source
    A warning: a person decides.

Breaks it
    position Q1 at 0 m, 0 m
    position Ql at 10 m, 0 m

Keeps it
    position Q1 at 0 m, 0 m
    position Q2 at 10 m, 0 m
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("look-alike-name", "warning", __doc__)
