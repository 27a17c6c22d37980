"""Every bracket that is opened is closed.

Protects from
    A statement that ends up inside the block before it.

How it is computed
    A brace or parenthesis has no partner before the file ends, or before a statement that can
    only stand outside.

Limit and source
    None is allowed.

Breaks it
    rail A of dc-16 at Q1 { feed Pack-1

Keeps it
    rail A of dc-16 at Q1 { feed Pack-1 }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("unclosed-bracket", "error", __doc__)
