"""Every value has the dimension of its property.

Protects from
    A length where a resistance is due: a slip that arithmetic would hide.

How it is computed
    The unit's dimension is compared with the one the property declares. A temperature is not a
    temperature difference.

Limit and source
    The vocabulary of the language; units as in the SI and as listed there.

Breaks it
    cable thin { resistance 26 m }

Keeps it
    cable thin { resistance 26 ohm per km }
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("wrong-dimension", "error", __doc__)
