"""Blocks are nested no deeper than a person can follow.

Protects from
    A file, made by a program or by mistake, that no reader and no tool can hold.

How it is computed
    Open braces are counted.

Limit and source
    A fixed number of levels, far above what any line in the field needs.

Breaks it
    circuit X on A.1 { parallel { series { parallel { … } } } }     # and so on for hundreds of levels

Keeps it
    circuit X on A.1 { parallel { series D1, D2; series D3, D4 } }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("nested-too-deep", "error", __doc__)
