"""Every property is stated once.

Protects from
    Two values, of which one is believed and the other is used.

How it is computed
    Within one statement and its block, a property that takes one value appears twice.

Limit and source
    None is allowed.

Breaks it
    rail A of dc-16 at Q1 { feed Pack-1; spare 2; spare 3 }

Keeps it
    rail A of dc-16 at Q1 { feed Pack-1; spare 2 }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("duplicate-property", "error", __doc__)
