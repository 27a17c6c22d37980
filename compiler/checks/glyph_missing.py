"""Every name can be printed.

Protects from
    A sheet with an empty box where a name should be.

How it is computed
    Characters of names and texts that print are looked up in the font of the sheets.

Limit and source
    The font that the documents are set in.

Breaks it
    position Quay-一 at 0 m, 0 m

Keeps it
    position Quay-1 at 0 m, 0 m
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("glyph-missing", "error", __doc__)
