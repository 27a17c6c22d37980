"""Every property belongs to the kind it is written in.

Protects from
    A value that is written down, believed and ignored.

How it is computed
    Each word of a statement and its block is looked up among the properties of the kind, limits
    among those of `limits` and `ruleset`. The nearest known word is offered.

Limit and source
    The vocabulary of the language.

Breaks it
    rail A of dc-16 at Q1 { feed Pack-1; spair 2 }

Keeps it
    rail A of dc-16 at Q1 { feed Pack-1; spare 2 }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("unknown-property", "error", __doc__)
