"""The rules: one file each, and the one place that runs them.

A rule looks at solved values and nothing else, and names the entity it is about; places are looked
up last. Rules that earlier rooms raise have no check; their files are their manual pages.
A new rule is its file, its two samples, and its line here.

Files are imported when a rule is run or asked for: a hundred imports are a tenth of a small check.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from importlib import import_module

from compiler.checks.rule import HEADINGS, Rule
from compiler.model.solved import Solved
from compiler.model.values import replace
from grammar.findings import Finding

__all__ = [
    "CHECKED",
    "HEADINGS",
    "RAISED",
    "RULES",
    "Rule",
    "manual",
    "run_checks",
    "severity_of",
    "without_echoes",
]

RAISED = (
    "bad-file",
    "not-utf8",
    "stray-character",
    "unclosed-text",
    "unclosed-bracket",
    "unmatched-bracket",
    "text-after-brace",
    "nested-too-deep",
    "unknown-statement",
    "unknown-property",
    "unknown-name",
    "duplicate-name",
    "duplicate-property",
    "look-alike-name",
    "same-place",
    "empty-range",
    "wrong-dimension",
    "missing-unit",
    "unknown-unit",
    "bad-number",
    "bad-time",
    "missing-value",
    "unexpected-value",
    "missing-property",
    "list-mismatch",
    "out-of-range",
    "too-many",
    "use-missing",
    "use-cycle",
    "use-outside",
    "limit-loosened",
    "unknown-rules",
    "no-free-channel",
    "tube-missing",
    "waiver-unused",
    "waiver-refused",
)
"""Slugs of rules that other rooms raise: reading, words, values, files, limits, addresses, tubes, waivers."""

CHECKED = (
    "glyph-missing",
    "not-computed",
    "missing-firing-data",
    "missing-no-fire",
    "missing-module-data",
    "missing-cable-data",
    "supply-missing-data",
    "fuse-missing",
    "test-current-unknown",
    "makers-data-missing",
    "temperature-implausible",
    "voltage-implausible",
    "calibre-implausible",
    "prefire-implausible",
    "burn-unknown",
    "crowd-side-unknown",
    "crowd-side",
    "rail-unfed",
    "feed-cycle",
    "control-cycle",
    "control-missing",
    "zone-twice",
    "zone-none",
    "label-twice",
    "match-wired-twice",
    "match-unwired",
    "mixed-matches",
    "channel-unknown",
    "channel-used-twice",
    "lead-out-of-reach",
    "key-effect-one-feed",
    "cue-unwired",
    "never-fired",
    "circuit-fired-twice",
    "pasted-twice",
    "number-order",
    "chase-step",
    "fired-before-zero",
    "press-early",
    "press-unchecked",
    "hand-overlap",
    "hold-broken",
    "zone-late",
    "rail-recovery",
    "too-many-at-once",
    "test-current",
    "test-fault",
    "channel-overload",
    "driver-short",
    "rail-overload",
    "feed-overload",
    "supply-overload",
    "fuse-overload",
    "firing-current",
    "firing-impulse",
    "circuit-resistance",
)
"""Slugs of rules with a check, in the order they run: data, site, wiring, time, loads, firing."""


def _presses(solved: Solved) -> bool:
    return any(cue.press is not None for cue in solved.schedule.cues)


def _controls(solved: Solved) -> bool:
    return any(rail.control is not None for rail in solved.model.rails.values())


_ONLY_WITH: dict[str, Callable[[Solved], bool]] = {
    "burn-unknown": lambda solved: bool(solved.model.holds),
    "hold-broken": lambda solved: bool(solved.model.holds),
    "crowd-side-unknown": lambda solved: bool(solved.model.crowds),
    "crowd-side": lambda solved: bool(solved.model.crowds),
    "zone-twice": lambda solved: bool(solved.model.zones),
    "zone-none": lambda solved: bool(solved.model.zones),
    "zone-late": lambda solved: bool(solved.model.zones),
    "control-cycle": _controls,
    "control-missing": _controls,
    "press-early": _presses,
    "press-unchecked": _presses,
    "hand-overlap": _presses,
}
"""Rules about things that many shows have none of: their files are not even read then."""

_LISTS_ALL = "missing-firing-data"
_REASONS = frozenset((_LISTS_ALL, "missing-module-data", "supply-missing-data", "rail-unfed", "feed-cycle"))
"""Rules that say why something could not be computed."""


@cache
def _rule(slug: str) -> Rule:
    """The rule of a known slug, from its file."""
    found: Rule = import_module(f"compiler.checks.{slug.replace('-', '_')}").RULE
    return found


def _known(slug: str) -> bool:
    return slug in RAISED or slug in CHECKED


def __getattr__(name: str) -> tuple[Rule, ...]:
    """`RULES`: all rules, raised ones first. Built when asked for."""
    if name == "RULES":
        return tuple(_rule(slug) for slug in RAISED + CHECKED)
    raise AttributeError(name)


def severity_of(slug: str) -> str:
    """``error``, ``warning`` or ``note``. Raises `KeyError` for a slug that is no rule: a bug."""
    if not _known(slug):
        raise KeyError(slug)
    return _rule(slug).severity


def manual(slug: str) -> str | None:
    """The manual page of a rule; None for a slug that is no rule."""
    return _rule(slug).manual if _known(slug) else None


def run_checks(solved: Solved, earlier: tuple[Finding, ...] = ()) -> tuple[Finding, ...]:
    """All findings of the rules with a check, severities set, in the order of `CHECKED`.

    `earlier`: what the rooms before found. Where they said `not-computed`, the rule of that name,
    which looks for holes that nobody reported, holds its tongue.
    """
    told = any(finding.rule == "not-computed" for finding in earlier)
    return tuple(
        replace(finding, severity=rule.severity)
        for rule in (_rule(slug) for slug in CHECKED if slug not in _ONLY_WITH or _ONLY_WITH[slug](solved))
        for finding in (rule.check(solved) if rule.check is not None else ())
        if not (told and rule.slug == "not-computed")
    )


def without_echoes(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Findings less those that repeat a better one about the same thing.

    `not-computed` gives way to the rule that says what is missing; of two `missing-firing-data` about
    one match type the later one, which lists everything, stays.
    """
    reasons = {
        place
        for finding in findings
        if finding.rule in _REASONS
        for place in (finding.at, *(related.at for related in finding.related))
    }
    last = {one.at: index for index, one in enumerate(findings) if one.rule == _LISTS_ALL}
    return tuple(
        finding
        for index, finding in enumerate(findings)
        if not (finding.rule == "not-computed" and finding.at in reasons)
        and not (finding.rule == _LISTS_ALL and last[finding.at] != index)
    )


def slugs() -> tuple[str, ...]:
    """The slugs of all rules."""
    return RAISED + CHECKED


def rule_named(slug: str) -> Rule:
    """A rule by its slug. Raises `KeyError` for a slug that is no rule."""
    if not _known(slug):
        raise KeyError(slug)
    return _rule(slug)
