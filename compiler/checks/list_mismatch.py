"""Lists that go together are of one length.

Protects from
    A list that is one short, so that everything after the gap moves by one place.

How it is computed
    Where several lists stand in one statement, their lengths are compared.

Limit and source
    Equal lengths, or one value for all.

Breaks it
    device D1, D2 of comet-gold at Q1, Q2, Q3

Keeps it
    device D1, D2 of comet-gold at Q1, Q2
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("list-mismatch", "error", __doc__)
