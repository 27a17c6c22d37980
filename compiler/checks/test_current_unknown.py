"""Every module in use states the current of its continuity test.

Protects from
    A test that nobody has ever measured, run with people at the pieces.

How it is computed
    A module that rails are made of states neither `test-current` nor `test-resistor`. Reported once
    per module.

Limit and source
    Without a number there is no pass: WAC 212-17-317(6) wants the greatest current known before a
    test. Never waived.

Breaks it
    module plain-8 { channels 8; driver 1.5 ohm }
    rail A of plain-8 at Q1 { feed Pack-1 }

Keeps it
    module plain-8 { channels 8; driver 1.5 ohm; test-current 8 mA }
    rail A of plain-8 at Q1 { feed Pack-1 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import rails_of_modules
from compiler.checks.rule import rule
from compiler.checks.words import names
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    for name, rails in rails_of_modules(solved).items():
        module = solved.model.modules[name]
        if module.test_current_a is not None or module.test_resistor_ohm is not None:
            continue
        yield Finding(
            "test-current-unknown",
            f"module {name} states no test current, so its test is not known to be safe",
            at=f"module:{name}",
            subject=f"module {name}",
            values={"module": name, "rails": [rail.name for rail in rails]},
            detail=f"It is used by {names([rail.name for rail in rails])}.",
            hint=f"Write `test-current 8 mA` in module {name} with the maker's greatest value into "
            "a short. Until it is known nobody tests with it: everyone clear, rail unplugged.",
            related=tuple(Related(f"rail:{rail.name}", "a rail made of it") for rail in rails[:3]),
        )


RULE = rule("test-current-unknown", "error", __doc__, _check)
