"""Every character has a meaning.

Protects from
    A slip of the keyboard, or an invisible character that changes what is seen without changing
    what is meant.

How it is computed
    Characters outside names, numbers, signs, texts and comments. Those that reorder or hide
    text are not allowed in texts and comments either.

Limit and source
    None is allowed.

Breaks it
    cue 1 at 0:06.0 comet-gold at Q1 $

Keeps it
    cue 1 at 0:06.0 comet-gold at Q1
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("stray-character", "error", __doc__)
