"""Every statement begins with a word the language knows.

Protects from
    A misspelt head that makes a whole statement do nothing.

How it is computed
    The first word of a statement is looked up among the kinds that may stand there. The nearest
    known word is offered.

Limit and source
    The vocabulary of the language.

Breaks it
    postion Q1 at 0 m, 0 m

Keeps it
    position Q1 at 0 m, 0 m
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("unknown-statement", "error", __doc__)
