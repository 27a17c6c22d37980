"""The show's file can be read.

Protects from
    A check that says nothing because there was nothing to read.

How it is computed
    The show's main file is missing, is a folder, can't be opened, or is larger than any show. A
    file that is used and can't be read is `use-missing`.

Limit and source
    A show is a handful of files of text.

Breaks it
    linstock check harbour        # a folder, not the show in it

Keeps it
    linstock check harbour/harbour.show
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("bad-file", "error", __doc__)
