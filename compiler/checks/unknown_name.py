"""Every name that is used is made somewhere.

Protects from
    A cue for a place, part or rail that doesn't exist, or that is one letter off.

How it is computed
    Names are looked up in the whole show and in the built-in parts, whatever the order of the
    lines. The nearest known name is offered. Lines that can't be understood without the name
    are not reported again.

Limit and source
    None is allowed.

Breaks it
    cue 1 at 0:06.0 comet-gild at Q1

Keeps it
    cue 1 at 0:06.0 comet-gold at Q1
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("unknown-name", "error", __doc__)
