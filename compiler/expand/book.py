"""The book of names: what the show declares, what the catalogue holds, and where each was said.

Every name is declared once per kind. A name that is declared but broken is known to the book,
so that using it is no second finding.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from compiler.vocabulary.forms import Record, decode_statement
from compiler.vocabulary.kinds import KINDS
from compiler.vocabulary.names import Name, closest, did_you_mean, open_range, skeleton
from grammar.findings import Finding, Related, Span
from grammar.reader import read
from grammar.source import Source
from grammar.tree import Group, Item, Statement

PARTS = ("match", "cable", "module", "battery", "effect")
_POINTED = re.compile(r"[^.]*\d\.\d[^.]*")  # `trunk-2.5`
MOST_DECLARED = 50_000
"""No show declares more things; what comes after is told once and left out."""

_SPOKEN = {"falls": "device"}


def part_statement(source: Source) -> Statement:
    """The one statement of a built-in part."""
    return read(source)[0].statements[0]


def _meant_range(text: str, known: Iterable[str]) -> str:
    """`Q1-Q9` as the range that it means, if its first name is known; else an empty string."""
    names = set(known)
    for index, character in enumerate(text):
        if character == "-" and text[:index] in names:
            ranged = f"{text[:index]}..{text[index + 1 :]}"
            if open_range(ranged) is not None:
                return ranged
    return ""


@dataclass(slots=True)
class Decl:
    """One declared thing: its kind's word, its name, the decoded statement, its place in a list."""

    kind: str
    name: str
    record: Record
    statement: Statement
    index: int = 0
    of: int = 1


@dataclass(slots=True)
class Book:
    """Declarations by kind and name; findings; places; names that a broken statement mentions."""

    findings: list[Finding] = field(default_factory=list)
    decls: dict[str, dict[str, Decl]] = field(default_factory=dict)
    singles: dict[str, list[Decl]] = field(default_factory=dict)
    catalogue: dict[str, dict[str, Source]] = field(default_factory=dict)
    places: dict[str, dict[str, Span]] = field(default_factory=dict)
    records: dict[str, Record] = field(default_factory=dict)  # whose clauses are the roles of a key
    touched: set[str] = field(default_factory=set)
    origins: dict[str, tuple[Related, ...]] = field(default_factory=dict)  # of what a pattern or table made
    origin: tuple[Related, ...] = ()  # of the line that is being read
    unread: bool = False
    touched_numbers: set[str] = field(default_factory=set)  # of cues that could not be read
    lost: set[str] = field(default_factory=set)  # what a statement with a misspelt head declares
    no_lead: bool = False  # the cable of `defaults` is broken: leads without one of their own are no second slip
    unserved: set[str] = field(default_factory=set)  # places that a broken rail serves
    unserved_all: bool = False  # a broken rail serves them all
    _unknown_at: set[Span] = field(default_factory=set)
    declared: int = 0
    _skeletons: dict[str, dict[str, str]] = field(default_factory=dict)

    # --- declaring ---

    def declare(self, decl: Decl, span: Span) -> bool:
        """Enter a name; False if it is taken, which is then a finding."""
        kind = _SPOKEN.get(decl.kind, decl.kind)
        self.declared += 1
        if self.declared > MOST_DECLARED:
            if self.declared == MOST_DECLARED + 1:
                self.findings.append(
                    Finding(
                        "too-many",
                        f"the show declares more than {MOST_DECLARED} things",
                        span,
                        hint="Split it into several shows.",
                    )
                )
            self.lost.add(decl.name)
            return False
        known = self.decls.setdefault(kind, {})
        if "." in decl.name and (kind not in PARTS or not _POINTED.fullmatch(decl.name)):
            self.findings.append(
                Finding(
                    "unexpected-value",
                    f"`{decl.name}` has a point in it, which stands before a member or a channel",
                    span,
                    hint=f"A name has letters, digits and hyphens: `{decl.name.replace('.', '-')}`.",
                )
            )
        if decl.name in known:
            first = self.place(f"{kind}:{decl.name}")
            self._taken(kind, decl.name, span, first, "declared first here")
            self.touch(decl.statement)
            return False
        if decl.name in self.catalogue.get(kind, {}):
            self._taken(kind, decl.name, span, None, "")
            return False
        self._look_alike(kind, decl.name, span)
        known[decl.name] = decl
        self.put(f"{kind}:{decl.name}", "", span)
        return True

    def _taken(self, kind: str, name: str, span: Span, first: Span | None, word: str) -> None:
        where = "already" if first else "already in the built-in catalogue"
        self.findings.append(
            Finding(
                "duplicate-name",
                f"the {kind} `{name}` exists {where}",
                span,
                hint="Give this one another name." if first else "Give yours a name of its own, and use that.",
                related=(Related(first, word),) if first else (),
            )
        )

    def _look_alike(self, kind: str, name: str, span: Span) -> None:
        seen = self._skeletons.setdefault(kind, {})
        look = skeleton(name)
        other = seen.setdefault(look, name)
        if other != name:
            at = self.place(f"{kind}:{other}")
            self.findings.append(
                Finding(
                    "look-alike-name",
                    f"the {kind}s `{name}` and `{other}` look alike on a sheet",
                    span,
                    hint="Rename one: a tired eye by headlamp cannot tell them apart.",
                    related=(Related(at, f"`{other}` is here"),) if at else (),
                )
            )

    # --- finding again ---

    def find(self, kinds: Iterable[str], name: Name) -> Decl | None:
        """The declaration of a name; one that exists nowhere is a finding."""
        kinds = tuple(kinds)
        for kind in kinds:
            decl = self.decls.get(kind, {}).get(name.text) or self._from_catalogue(kind, name.text)
            if decl is not None:
                return decl
        if not self.unread and name.text not in self.lost and name.span not in self._unknown_at:
            self._unknown_at.add(name.span)  # a range of unknown names is one slip
            self._unknown(kinds, name)
        return None

    def has(self, kinds: Iterable[str], text: str) -> bool:
        """True if the name is declared, quietly."""
        return any(text in self.decls.get(kind, {}) or text in self.catalogue.get(kind, {}) for kind in kinds)

    def _from_catalogue(self, kind: str, text: str) -> Decl | None:
        source = self.catalogue.get(kind, {}).get(text)
        if source is None:
            return None
        statement = part_statement(source)
        record = decode_statement(KINDS[kind].form, statement, self.findings, what=kind)
        decl = Decl(kind, text, record, statement)
        self.decls.setdefault(kind, {})[text] = decl
        return decl

    def _unknown(self, kinds: tuple[str, ...], name: Name) -> None:
        spoken = " or ".join(kinds)
        known = self.names(kinds)
        near = closest(name.text, known)
        offer = did_you_mean(name.text, known)
        self.touched.update(near)  # what was nearly named is no second slip
        ranged = _meant_range(name.text, known)
        if ranged:
            hint = f"A range is written with two dots: `{ranged}`."
        elif offer:
            hint = offer
        elif known and len(known) <= 12:
            hint = f"Known here: {', '.join(f'`{other}`' for other in known)}."
        else:
            hint = f"Declare it: `{KINDS[kinds[0]].example}`." if kinds[0] in KINDS else ""
        elsewhere = self._kind_of(name.text)
        detail = f"`{name.text}` is a {elsewhere}." if elsewhere else ""
        self.findings.append(
            Finding(
                "unknown-name",
                f"there is no {spoken} called `{name.text}`",
                name.span,
                hint=hint,
                detail=detail,
                related=self.origin,
            )
        )

    def _kind_of(self, text: str) -> str:
        return next((kind for kind, known in self.decls.items() if text in known), "")

    def names(self, kinds: Iterable[str]) -> list[str]:
        """All names of some kinds, the show's own first."""
        found: list[str] = []
        for kind in kinds:
            found.extend(self.decls.get(kind, {}))
            found.extend(self.catalogue.get(kind, {}))
        return list(dict.fromkeys(found))

    # --- places ---

    def put(self, key: str, role: str, span: Span) -> None:
        """Remember where a part of an entity was said."""
        self.places.setdefault(key, {}).setdefault(role, span)

    def put_record(self, key: str, record: Record) -> None:
        """Remember that the clauses of a record are the roles of an entity."""
        self.records.setdefault(key, record)

    def put_line(self, key: str, record: Record, statement: Statement) -> None:
        """Remember the line that made an entity, and what the line itself was made from."""
        self.records.setdefault(key, record)
        if statement.origin:
            self.origins.setdefault(key, statement.origin)

    def place(self, key: str, role: str = "") -> Span | None:
        """Where an entity, or a part of it, was said."""
        roles = self.places.get(key, {})
        if role in roles:
            return roles[role]
        record = self.records.get(key)
        if role and record is not None and role in record.values:
            return record.span_of(role)
        return roles.get("") or (record.span if record is not None else None)

    # --- echoes ---

    def touch(self, statement: Statement) -> None:
        """Remember every name in a statement that could not be used: what it names is no second slip."""
        stack: list[Statement] = [statement]
        while stack:
            one = stack.pop()
            self._touch_items(one.items)
            stack.extend(one.block or ())

    def _touch_items(self, items: tuple[Item, ...]) -> None:
        for item in items:
            if isinstance(item, Group):
                self._touch_items(item.items)
            elif item.type == "NAME":
                text = str(item)
                self.touched.add(text)
                if ".." in text:
                    self.touched.update(open_range(text) or ())
