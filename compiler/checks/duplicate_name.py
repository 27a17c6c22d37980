"""Every name is given once.

Protects from
    Two things of one name, of which the reader sees one and the crew wires the other.

How it is computed
    Names are compared within their kind, and cue numbers among cues. Both places are shown.

Limit and source
    None is allowed.

Breaks it
    position Q1 at 0 m, 0 m
    position Q1 at 10 m, 0 m

Keeps it
    position Q1 at 0 m, 0 m
    position Q2 at 10 m, 0 m
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("duplicate-name", "error", __doc__)
