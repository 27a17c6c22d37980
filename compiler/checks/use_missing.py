"""Every file that is used is there.

Protects from
    A show that is checked without the parts it was written with.

How it is computed
    The path after `use` is taken relative to the file that says so. A file that is there and
    can't be read counts as missing.

Limit and source
    Built-in parts need no `use`.

Breaks it
    use "parts/not-there.show"

Keeps it
    cue 1 at 0:06.0 comet-gold at Q1       # built-in parts need no use
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("use-missing", "error", __doc__)
