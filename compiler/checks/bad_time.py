"""Every time is a time.

Protects from
    `0:75.0` or `1:5`, read by one as minutes and by another as seconds.

How it is computed
    Minutes and seconds after the first field have two digits and stay below 60; `+` offsets
    stand in scripts only, and plain times elsewhere.

Limit and source
    Hours, minutes, seconds as in ISO 8601, written `1:02:03.5`.

Breaks it
    cue 1 at 0:75.0 comet-gold at Q1

Keeps it
    cue 1 at 1:15.0 comet-gold at Q1
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("bad-time", "error", __doc__)
