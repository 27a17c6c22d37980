"""What weighs how much: severities that the show sets, and rules that it waives for one thing.

Runs after all checks, on findings that still name entities.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from compiler.checks import rule_named, severity_of, slugs
from compiler.model.solved import Address
from compiler.model.types import Model, SeveritySaid, Waiver
from compiler.model.values import replace
from compiler.vocabulary.names import did_you_mean
from grammar.findings import Finding

SEVERITIES = ("note", "warning", "error")


def judged(
    findings: Iterable[Finding], model: Model, addresses: Mapping[str, Address]
) -> tuple[Model, tuple[Finding, ...]]:
    """Findings with severities and waivers applied, and the model with what prints as a waiver."""
    said, said_findings, lowered = _severities(model.severities)
    found = [replace(f, severity=f.severity or severity_of(f.rule)) for f in findings]
    found = [replace(f, severity=said[f.rule]) if f.rule in said else f for f in found]
    used: set[Waiver] = set()
    kept = [_waived(finding, model, addresses, used) for finding in found]
    new = (*said_findings, *_unused(model.waived, used))
    kept.extend(replace(f, severity=severity_of(f.rule)) for f in new)
    return replace(model, waivers=(*model.waivers, *lowered, *model.waived)), tuple(kept)


# --- severities ---


def _severities(orders: tuple[SeveritySaid, ...]) -> tuple[dict[str, str], list[Finding], list[Waiver]]:
    """Raised freely; lowered only with a reason and a name, and never for what is never waived."""
    said: dict[str, str] = {}
    findings: list[Finding] = []
    lowered: list[Waiver] = []
    for order in orders:
        if order.rule not in slugs():
            findings.append(_unknown(order.rule, f"severity:{order.rule}"))
            continue
        rule = rule_named(order.rule)
        lower = SEVERITIES.index(order.severity) < SEVERITIES.index(said.get(order.rule, rule.severity))
        if lower and (not rule.waivable or not (order.because and order.by)):
            findings.append(_refused(order, waivable=rule.waivable))
            continue
        if lower:
            lowered.append(Waiver(order.rule, f"rule {order.rule}, now a {order.severity}", order.because, order.by))
        said[order.rule] = order.severity
    return said, findings, lowered


def _refused(order: SeveritySaid, *, waivable: bool) -> Finding:
    hint = "What this rule finds is never lowered or waived: mend it."
    if waivable:
        hint = f'Say why and who answers for it: `severity {order.rule} {order.severity} because "…" by "…"`.'
    return Finding(
        "limit-loosened", f"`{order.rule}` is lowered to a {order.severity}", f"severity:{order.rule}",
        subject=f"rule {order.rule}", hint=hint,
    )  # fmt: skip


def _unknown(slug: str, at: str) -> Finding:
    hint = did_you_mean(slug, slugs()) or "`linstock explain --all` lists them."
    return Finding("unknown-name", f"there is no rule called `{slug}`", at, subject=f"rule {slug}", hint=hint)


# --- waivers ---


def _waived(finding: Finding, model: Model, addresses: Mapping[str, Address], used: set[Waiver]) -> Finding:
    for waiver in model.waived:
        if waiver.rule == finding.rule and waiver.subject in _names(finding, addresses):
            used.add(waiver)
            if rule_named(finding.rule).waivable:
                return replace(finding, waived_by=waiver.by)
    return finding


def _names(finding: Finding, addresses: Mapping[str, Address]) -> set[str]:
    """What a waiver may call the thing that a finding is about."""
    key = finding.at if isinstance(finding.at, str) else ""
    name = key.partition(":")[2]
    names = {name, *finding.subject.split()[1:]} if finding.subject else {name}
    if key.startswith("cue:"):
        names.add(name.partition(".")[0])  # a waiver for a cue covers its parts
    address = addresses.get(name)
    if address is not None:
        names |= {f"{address.rail}.{address.channel}", address.rail}
    return names


def _unused(waivers: tuple[Waiver, ...], used: set[Waiver]) -> list[Finding]:
    found: list[Finding] = []
    for waiver in waivers:
        at = f"waiver:{waiver.rule}:{waiver.subject}"
        if waiver.rule not in slugs():
            found.append(_unknown(waiver.rule, at))
        elif not rule_named(waiver.rule).waivable:
            found.append(
                Finding(
                    "waiver-refused",
                    f"`{waiver.rule}` is never waived",
                    at,
                    subject=waiver.subject,
                    hint="Take the waiver out and mend what the rule finds: `linstock explain " + waiver.rule + "`.",
                )
            )
        elif waiver not in used:
            found.append(
                Finding(
                    "waiver-unused",
                    f"`{waiver.rule}` finds nothing on {waiver.subject}",
                    at,
                    subject=waiver.subject,
                    hint="Take the waiver out: it would hide the next one.",
                )
            )
    return found
