"""`explain`: the manual pages of the rules, for a terminal."""

from __future__ import annotations

from compiler.checks import CHECKED, RAISED, RULES
from compiler.cli import CLEAN, WrongUseError
from compiler.cli.emit import say, style_for
from compiler.reports.manual import page
from compiler.vocabulary.names import did_you_mean


def explain_rule(slug: str, colour: str) -> int:
    """Print a rule's manual page."""
    known = (*RAISED, *CHECKED)
    if slug not in known:
        hint = did_you_mean(slug, known) or "`linstock explain --all` lists them."
        raise WrongUseError(f"There is no rule called `{slug}`. {hint}")
    rule = next(rule for rule in RULES if rule.slug == slug)
    say(page(rule, style_for(colour)))
    return CLEAN


def explain_all(colour: str) -> int:
    """List every rule: slug, severity, title; in alphabetical order."""
    style = style_for(colour)
    wide = max(len(rule.slug) for rule in RULES)
    rules = sorted(RULES, key=lambda rule: rule.slug)
    say(
        "".join(f"{rule.slug:<{wide}}  {style(f'{rule.severity:<7}', rule.severity)}  {rule.title}\n" for rule in rules)
    )
    return CLEAN
