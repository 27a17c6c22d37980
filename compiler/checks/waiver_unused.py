"""Every waiver waives something.

Protects from
    A waiver left over from an earlier revision: it says nothing today and would hide the next fault
    of that kind on the same thing.

How it is computed
    After all rules have run, each `waive` is looked for among what they found: its rule, on the thing
    it names. One that met nothing is told.

Limit and source
    None.

Breaks it
    waive never-fired on Maroon-1 because "kept as a reserve" by "the lead"
    device Maroon-1 of shell-75 at Q1
    cue 1 at 0:06.0 Maroon-1               # it is fired after all

Keeps it
    waive never-fired on Maroon-1 because "kept as a reserve" by "the lead"
    device Maroon-1 of shell-75 at Q1
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("waiver-unused", "warning", __doc__)
