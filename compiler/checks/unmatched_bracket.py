"""Every closing bracket closes something.

Protects from
    A block that ends earlier than it seems to.

How it is computed
    A closing brace or parenthesis with nothing open. It is passed over.

Limit and source
    None is allowed.

Breaks it
    rail A of dc-16 at Q1 { feed Pack-1 } }

Keeps it
    rail A of dc-16 at Q1 { feed Pack-1 }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("unmatched-bracket", "error", __doc__)
