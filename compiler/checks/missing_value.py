"""Every property that is named has its value.

Protects from
    A word without the number that was meant to follow it.

How it is computed
    A property that takes a value ends without one.

Limit and source
    The vocabulary of the language.

Breaks it
    rail A of dc-16 at Q1 { feed Pack-1; spare }

Keeps it
    rail A of dc-16 at Q1 { feed Pack-1; spare 2 }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("missing-value", "error", __doc__)
