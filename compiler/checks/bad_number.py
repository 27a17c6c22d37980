"""Every number is a number.

Protects from
    `2,5 m` read as two coordinates, or a figure that overflows what can be computed.

How it is computed
    A number that can't be read, isn't finite, isn't whole where a count is due, or looks like a
    decimal comma.

Limit and source
    Decimal point, no thousands sign.

Breaks it
    show "Half" { revision 2.5 }

Keeps it
    show "Whole" { revision 2 }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("bad-number", "error", __doc__)
