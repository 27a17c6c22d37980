"""Every text that is opened is closed.

Protects from
    A missing quote that swallows the statements after it.

How it is computed
    A text starts and ends with a double quote on one line. Reading goes on at the next line.

Limit and source
    None is allowed.

Breaks it
    show "Harbour night { revision 1 }

Keeps it
    show "Harbour night" { revision 1 }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("unclosed-text", "error", __doc__)
