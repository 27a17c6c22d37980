"""No range is empty.

Protects from
    A list that silently holds nothing, and a cue that fires nothing.

How it is computed
    A range of names, a choice of members (`Curtain.12..10 by 3`, `Row.even` of one) or a span
    of values whose low end is above its high end leaves nothing over. `Q9..Q1` is a range
    downwards and holds nine.

Limit and source
    None is allowed.

Breaks it
    show "Cold" { ambient 30 .. 5 degC }

Keeps it
    show "Cold" { ambient 5 .. 30 degC }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("empty-range", "error", __doc__)
