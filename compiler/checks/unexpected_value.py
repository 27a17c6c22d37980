"""No value stands where none is taken.

Protects from
    A number or word that is believed and ignored.

How it is computed
    Items that no property of the statement takes, more values than a property takes, or a word
    outside the words it knows.

Limit and source
    The vocabulary of the language.

Breaks it
    effect star { kind comit; match generic-match }

Keeps it
    effect star { kind comet; match generic-match }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("unexpected-value", "error", __doc__)
