"""Every rule set that is named exists.

Protects from
    A show checked against another place's rules than it says.

How it is computed
    The names after `rules` and `like` are looked up among the rule sets of the show and the
    built-in ones.

Limit and source
    Built in: "strict" and others; a show writes its own with `ruleset`.

Breaks it
    show "Harbour night" { rules "strickt" }

Keeps it
    show "Harbour night" { rules "strict" }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("unknown-rules", "error", __doc__)
