"""Every unit is one the language knows.

Protects from
    A unit that is guessed.

How it is computed
    The word after a number is looked up among the units. The nearest known unit is offered.

Limit and source
    Units as in the SI and US customary units as listed in the vocabulary.

Breaks it
    position Q1 at 10 metrs, 0 m

Keeps it
    position Q1 at 10 m, 0 m
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("unknown-unit", "error", __doc__)
