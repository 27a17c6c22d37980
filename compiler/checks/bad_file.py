"""Every file of the show can be read.

Protects from
    Checking half a show because the other half could not be opened.

How it is computed
    The file named on the command line or by `use` is missing, is a folder, can't be opened, or
    is larger than any show.

Limit and source
    A show is a handful of files of text.

Breaks it
    use "parts"                 # a folder

Keeps it
    use "parts/cables.show"
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("bad-file", "error", __doc__)
