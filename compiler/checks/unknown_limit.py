"""Every limit that is set exists.

Protects from
    A limit that is tightened under a name that nothing looks at.

How it is computed
    Names in `limits` and `ruleset` are looked up among the limits. The nearest known name is
    offered.

Limit and source
    The limits of the rule set.

Breaks it
    limits { margins 2 }

Keeps it
    limits { margin 2 }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("unknown-limit", "error", __doc__)
