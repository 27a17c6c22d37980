"""What a rule is: a slug, a severity, a check over solved values, and its manual page."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from compiler.model.solved import Solved
from grammar.findings import Finding

Check = Callable[[Solved], Iterable[Finding]]

HEADINGS = ("Protects from", "How it is computed", "Limit and source", "Breaks it", "Keeps it")
"""The headings of every manual page, in this order, each alone on its line."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of the show.

    `slug`      stable name, as findings carry it.
    `severity`  ``error``, ``warning`` or ``note``.
    `title`     one clause that says what holds when the rule is kept.
    `check`     looks at solved values and nothing else; None: an earlier room raises it.
    `manual`    the page that `explain` prints: the docstring of the rule's module.
    `waivable`  whether a named person may take responsibility for breaking it.
    """

    slug: str
    severity: str
    title: str
    check: Check | None
    manual: str
    waivable: bool


def rule(slug: str, severity: str, doc: str | None, check: Check | None = None, *, waivable: bool = False) -> Rule:
    """A rule from its module's docstring; the first line is the title."""
    manual = (doc or "").strip() + "\n"
    return Rule(slug, severity, manual.partition("\n")[0].rstrip("."), check, manual, waivable)
