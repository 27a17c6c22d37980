"""Every file that is used lies in the show's own folder.

Protects from
    A show that depends on a file of one laptop, and a file that reads what it should not.

How it is computed
    The path after `use` is absolute, or leads out of the folder of the show's main file.

Limit and source
    The folder of the show's main file and what is below it.

Breaks it
    use "../elsewhere/cables.show"

Keeps it
    use "parts/cables.show"
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("use-outside", "error", __doc__)
