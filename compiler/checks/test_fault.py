"""No single failed part turns a continuity test into a firing current.

Protects from
    A test that is safe only as long as one resistor or one transistor is.

How it is computed
    `test-fault` of every module that rails are made of (greatest test current after any one
    protective part has failed) against the limit `test-fault`. A module that does not state it has
    not shown it: an error too. Reported once per module, at the first rail made of it.

Limit and source
    0.05 A under "strict" (1. SprengV Anlage 1 nos. 54, 55, 57). Equal to the limit passes. Never
    waived.

Breaks it
    module bold-8 { channels 8; test-current 8 mA; test-fault 200 mA }
    rail A of bold-8 at Q1 { feed Pack-1 }

Keeps it
    module safe-8 { channels 8; test-current 8 mA; test-fault 20 mA }
    rail A of safe-8 at Q1 { feed Pack-1 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import limit, limit_words, part_words, rails_of_modules
from compiler.checks.rule import rule
from compiler.checks.words import against, names, quantity
from compiler.model.solved import Solved
from compiler.model.types import Limit, Module, Rail
from grammar.findings import Finding, Related


def _words(module: Module, allowed: Limit) -> tuple[str, str]:
    """Headline and working for a module that fails; the value may be missing."""
    if module.test_fault_a is None:
        shown = quantity(allowed.value, "A")
        head = f"module {module.name} does not state its test current after one part fails"
        return head, f"not stated, limit {shown}"
    amps, shown = against(module.test_fault_a, allowed.value, "A")
    head = f"module {module.name} tests with up to {amps} after one part fails, the limit is {shown}"
    return head, f"{amps}, limit {shown}"


def _hint(module: Module, allowed: Limit) -> str:
    until = "Until then nobody tests with it while anything is connected."
    if module.test_fault_a is None:
        return f"Write `test-fault 20 mA` in module {module.name} with the maker's value. {until}"
    return f"Use a module whose `test-fault` is at most {quantity(allowed.value, 'A')}. {until}"


def _finding(module: Module, rails: list[Rail], allowed: Limit) -> Finding:
    headline, working = _words(module, allowed)
    return Finding(
        "test-fault",
        headline,
        at=f"rail:{rails[0].name}",
        subject=f"module {module.name}",
        values={"test_fault_a": module.test_fault_a, "limit_a": allowed.value},
        working=working,
        detail=f"It is used by {names([rail.name for rail in rails])}. {limit_words(allowed)} "
        f"{part_words('module', module.name, module.origin) if module.test_fault_a else ''}".strip(),
        hint=_hint(module, allowed),
        related=(Related(f"module:{module.name}", "the module"),),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    allowed = limit(solved, "test-fault")
    if allowed is None:
        return
    for name, rails in rails_of_modules(solved).items():
        module = solved.model.modules[name]
        if module.test_fault_a is None or module.test_fault_a > allowed.value:
            yield _finding(module, rails, allowed)


RULE = rule("test-fault", "error", __doc__, _check)
