r"""Every file is text in UTF-8.

Protects from
    Names that turn into other characters on the sheets.

How it is computed
    The bytes of the file are decoded strictly; the first byte that can't be decoded is shown.
    The rest is read with the bad bytes replaced, so that the other mistakes are told in the
    same run.

Limit and source
    UTF-8 (RFC 3629), with or without a byte order mark.

Breaks it
    show "Caf\xe9"               # saved in an older encoding

Keeps it
    show "Café"                 # saved as UTF-8
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("not-utf8", "error", __doc__)
