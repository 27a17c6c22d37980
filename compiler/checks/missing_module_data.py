"""Every module in use states what its circuits are checked against.

Protects from
    A check that was never made and reads as passed.

How it is computed
    Modules that rails are made of and that lack `driver`, `channel-limit`, `rail-limit`, `pulse`,
    `recovery` or `circuit`; what can't be checked without each is said. Reported once per module.
    `at-once` and `reach` may be missing: a module that states none has
    none.

Limit and source
    No value, no number. Never waived.

Breaks it
    module bare-8 { channels 8; test-current 8 mA; test-fault 20 mA }
    rail A of bare-8 at Q1 { feed Pack-1 }

Keeps it
    rail A of dc-16 at Q1 { feed Pack-1 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import rails_of_modules
from compiler.checks.rule import rule
from compiler.checks.words import many, names
from compiler.model.solved import Solved
from compiler.model.types import Module
from grammar.findings import Finding, Related


def _lacking(module: Module) -> dict[str, tuple[str, str]]:
    """Missing properties: what can't be checked, and text to paste."""
    table = (
        ("driver", module.driver_ohm, "any current", "driver 1.5 ohm ± 10 %"),
        ("channel-limit", module.channel_limit_a, "the load of its channels", "channel-limit 25 A"),
        ("rail-limit", module.rail_limit_a, "the load of its rails", "rail-limit 90 A"),
        ("pulse", module.pulse_s, "how long circuits are alive", "pulse 100 ms ± 5 ms"),
        ("recovery", module.recovery_s, "whether it is asked too soon", "recovery 20 ms"),
        ("circuit", module.circuit_ohm_range, "which resistances it takes", "circuit 0.5 .. 60 ohm"),
    )
    return {name: (what, text) for name, value, what, text in table if value is None}


def _check(solved: Solved) -> Iterable[Finding]:
    for name, rails in rails_of_modules(solved).items():
        missing = _lacking(solved.model.modules[name])
        if not missing:
            continue
        unknown = names([f"{what} ({item})" for item, (what, _) in missing.items()])
        yield Finding(
            "missing-module-data",
            f"module {name} states no {names(list(missing))}",
            at=f"module:{name}",
            subject=f"module {name}",
            values={"module": name, "missing": list(missing), "rails": len(rails)},
            detail=f"Not checked on {many(len(rails), 'rail')}: {unknown}.",
            hint=f"Write the maker's values in module {name}, as in "
            f"`{'; '.join(text for _, text in missing.values())}`.",
            related=tuple(Related(f"rail:{rail.name}", "a rail made of it") for rail in rails[:3]),
        )


RULE = rule("missing-module-data", "error", __doc__, _check)
