"""Chooses the rule set a show asks for, and applies the show's own `limits`.

Tightening is free. Loosening needs `because` and `by`, prints as a waiver, and is refused for
limits that are never loosened.
"""

from __future__ import annotations

from typing import NamedTuple

from compiler.expand.book import Book, Decl, part_statement
from compiler.model.types import Limit, RuleSet, SeveritySaid, Waiver
from compiler.model.values import replace
from compiler.vocabulary.forms import Record, decode_statement
from compiler.vocabulary.kinds import KINDS
from compiler.vocabulary.limits import LIMITS, LimitKind
from compiler.vocabulary.names import Name, did_you_mean
from grammar.findings import Finding, Span

DEEPEST_LIKE = 20
"""Rule sets that are like each other in a longer chain are refused."""


class Chosen(NamedTuple):
    """The rule set in force, what was loosened, and the severities that the show sets."""

    rules: RuleSet
    waivers: tuple[Waiver, ...]
    severities: tuple[SeveritySaid, ...]


def rule_set(book: Book, name: str, span: Span | None) -> Chosen:
    """The named set with the show's changes; an unknown name is a finding and `strict` holds."""
    own = _own_sets(book)
    known = [*own, *book.catalogue.get("ruleset", {})]
    if name not in known:
        book.findings.append(
            Finding(
                "unknown-rules",
                f'there is no rule set called "{name}"',
                span or "show:",
                hint=did_you_mean(name, known) or f"Known: {', '.join(known)}. `strict` is used until then.",
            )
        )
        name = "strict"
    severities: list[SeveritySaid] = []
    limits, dated = _limits_of(book, name, own, (), severities)
    return _changed(book, RuleSet(name, dated, limits), severities)


def _own_sets(book: Book) -> dict[str, Record]:
    own: dict[str, Record] = {}
    for decl in book.singles.get("ruleset", ()):
        name = decl.record.get("name")
        if name is None:
            continue
        if name in own or name in book.catalogue.get("ruleset", {}):
            book.findings.append(
                Finding(
                    "duplicate-name",
                    f'a rule set called "{name}" exists already',
                    decl.record.span,
                    hint="Give yours a name of its own.",
                )
            )
            continue
        own[name] = decl.record
    return own


def _limits_of(
    book: Book, name: str, own: dict[str, Record], above: tuple[str, ...], severities: list[SeveritySaid]
) -> tuple[dict[str, Limit], str]:
    record = own.get(name)
    if record is None:
        statement = part_statement(book.catalogue["ruleset"].get(name) or book.catalogue["ruleset"]["strict"])
        record = decode_statement(KINDS["ruleset"].form, statement, book.findings, what="ruleset")
    like = record.get("like", "" if name == "strict" else "strict")
    limits: dict[str, Limit] = {}
    if like:
        if len(above) > DEEPEST_LIKE:
            book.findings.append(
                Finding(
                    "unknown-rules",
                    f"the rule sets are like each other more than {DEEPEST_LIKE} deep",
                    record.span_of("like"),
                    hint='Start from "strict".',
                )
            )
            like = "strict"
        elif like in (*above, name):
            book.findings.append(
                Finding(
                    "unknown-rules",
                    f'the rule set "{name}" is like itself',
                    record.span_of("like"),
                    hint='Start from "strict".',
                )
            )
            like = "strict"
        elif like not in own and like not in book.catalogue["ruleset"]:
            book.findings.append(
                Finding(
                    "unknown-rules",
                    f'there is no rule set called "{like}"',
                    record.span_of("like"),
                    hint=did_you_mean(like, [*own, *book.catalogue["ruleset"]]),
                )
            )
            like = "strict"
        limits = dict(_limits_of(book, like, own, (*above, name), severities)[0])
    for id_, kind in LIMITS.items():
        stated = record.get(id_)
        if stated is not None and stated.get("value") is not None:
            limits[id_] = Limit(
                id_,
                float(stated.get("value")),
                kind.unit,
                stated.get("source", ""),
                stated.get("confidence", "from memory"),
                kind.waivable,
                name,
            )
    for value in record.many("severity"):
        _severity(book, value.data, severities)
    return limits, record.get("dated", "")


def _severity(book: Book, record: Record, said: list[SeveritySaid]) -> None:
    """A severity as said; whether it may be is judged when the rules are known (`compiler.judge`)."""
    names: tuple[Name, ...] | None = record.get("rule")
    wanted = record.get("severity")
    if names and wanted is not None:
        book.put(f"severity:{names[0].text}", "", record.span)
        said.append(SeveritySaid(names[0].text, wanted, record.get("because", ""), record.get("by", "")))


def _changed(book: Book, rules: RuleSet, severities: list[SeveritySaid]) -> Chosen:
    limits = dict(rules.limits)
    waivers: list[Waiver] = []
    for decl in book.singles.get("limits", ()):
        _apply(book, decl, limits, waivers)
        for value in decl.record.many("severity"):
            _severity(book, value.data, severities)
    return Chosen(replace(rules, limits=limits), tuple(waivers), tuple(severities))


def _apply(book: Book, decl: Decl, limits: dict[str, Limit], waivers: list[Waiver]) -> None:
    for id_, value in decl.record.order:
        if id_ not in limits:
            continue
        change: Record = value.data
        new = change.get("value")
        if new is None:
            continue
        old, kind = limits[id_], LIMITS[id_]
        because, by = change.get("because", ""), change.get("by", "")
        book.put(f"limits:{id_}", "", value.span)
        if _looser(kind, old.value, float(new)):
            if not kind.waivable or not (because and by):
                book.findings.append(_refused(id_, kind, old, float(new), value.span))
                continue
            waivers.append(Waiver(id_, f"limit {id_}", because, by))
        source = f"the show: {because}" if because else f"tighter than {old.value:g} of {old.set_by}: {old.source}"
        limits[id_] = replace(old, value=float(new), source=source, set_by=by or "the show")


def _looser(kind: LimitKind, old: float, new: float) -> bool:
    if kind.tighter == "less":
        return new > old
    return new < old if kind.tighter == "more" else new != old


def _refused(id_: str, kind: LimitKind, old: Limit, new: float, span: Span) -> Finding:
    unit = "" if kind.unit == "1" else f" {kind.unit}"
    if kind.waivable:
        hint = f'Say why and who answers for it: `{id_} … because "…" by "…"`.'
    else:
        hint = f"This limit is never loosened; choose a rule set made for the place, or keep {old.value:g}{unit}."
    return Finding(
        "limit-loosened",
        f"`{id_}` is loosened from {old.value:g}{unit} to {new:g}{unit}",
        span,
        subject=f"limit {id_}",
        values={"limit": old.value, "asked": new},
        hint=hint,
        detail=f"The value in force comes from {old.source or old.set_by}.",
    )
