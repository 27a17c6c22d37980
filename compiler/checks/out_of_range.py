"""Every value is one that can be.

Protects from
    `15 s` for `15 ms`, a tolerance wider than its value, a resistance below nothing.

How it is computed
    Each property declares what is plausible for it; a value outside is reported with both ends.

Limit and source
    The vocabulary of the language: common practice, wide enough for any honest value.

Breaks it
    supply Pack-1 of lead-acid-24 at Q1
    rail A of dc-16 at Q1 { feed Pack-1 through -3 m of trunk-2.5 }

Keeps it
    supply Pack-1 of lead-acid-24 at Q1
    rail A of dc-16 at Q1 { feed Pack-1 through 3 m of trunk-2.5 }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("out-of-range", "error", __doc__)
