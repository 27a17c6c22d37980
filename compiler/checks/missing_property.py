"""Every thing states what it can't be without.

Protects from
    A rail at no place, a supply of no kind: nothing can be computed with it.

How it is computed
    Properties without which a kind has no meaning are looked for in each statement.

Limit and source
    The vocabulary of the language.

Breaks it
    supply Pack-1 of lead-acid-24

Keeps it
    supply Pack-1 of lead-acid-24 at Q1
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("missing-property", "error", __doc__)
