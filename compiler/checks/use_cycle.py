"""No file uses itself.

Protects from
    Two files that wait for each other.

How it is computed
    Files are followed from `use` to `use`; one that comes up again on the same way is a ring.
    Each file is read once.

Limit and source
    None is allowed.

Breaks it
    use "harbour.show"          # in harbour.show itself

Keeps it
    use "parts/cables.show"     # in harbour.show
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("use-cycle", "error", __doc__)
