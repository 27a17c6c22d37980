"""A closing brace ends its statement.

Protects from
    Words that seem to belong to a block and belong to nothing.

How it is computed
    Something other than a comment, `;` or another closing brace follows a closing brace on its
    line.

Limit and source
    None is allowed.

Breaks it
    rail A of dc-16 at Q1 { feed Pack-1 } spare 2

Keeps it
    rail A of dc-16 at Q1 { feed Pack-1; spare 2 }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("text-after-brace", "error", __doc__)
