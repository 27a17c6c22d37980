"""No limit is loosened without a reason and a name.

Protects from
    A limit that gives way quietly, on the evening it would have held.

How it is computed
    Each value in `limits` is compared with the rule set's. Tighter is free. Looser needs
    `because` and `by`, and prints as a waiver. `test-current`, `test-fraction` and `test-fault`
    are never loosened.

Limit and source
    The rule set in force.

Breaks it
    limits { margin 1.2 }

Keeps it
    limits { margin 2 }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("limit-loosened", "error", __doc__)
