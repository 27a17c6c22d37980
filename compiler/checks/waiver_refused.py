"""No rule is waived that can't be.

Protects from
    A line in a file that seems to allow what can kill: the finding stays, and so does whoever relies
    on the waiver.

How it is computed
    Each `waive` names a rule; rules that protect life, and rules without which nothing can be read or
    computed, take no waiver.

Limit and source
    `linstock explain RULE` says of each rule whether it may be waived. The waiver changes nothing:
    what the rule finds stays an error.

Breaks it
    waive firing-current on Row because "it worked last year" by "the lead"

Keeps it
    waive fuse-missing on Pack-1 because "the fuse is in the lid" by "the lead"
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("waiver-refused", "error", __doc__)
