"""Forms: what may follow a word. One generic decoder reads every kind of statement.

A form has *slots* (values without a word, in order of their declaration) and *clauses* (a word
and a value, in any order, on the line or in the block). A clause's value may be a form again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from compiler.vocabulary.cursor import Cursor, Value
from compiler.vocabulary.names import closest, did_you_mean
from compiler.vocabulary.shapes import Names, Shape
from grammar.findings import Finding, Related, Span
from grammar.mend import DEEPEST
from grammar.tree import Item, Statement, describe

NOWHERE = Span("", 0, 0)
"""The span of a record that nobody wrote."""


class Slot(NamedTuple):
    """A value without a word of its own."""

    key: str
    shape: Shape
    required: bool = False
    help: str = ""


class Clause(NamedTuple):
    """A word and what follows it.

    `key` is the name in the record (the word, unless two clauses share one); `after` a second
    word that must follow the first, as in `lit at`; `many`: may be said again.
    """

    word: str
    shape: Shape
    help: str = ""
    key: str = ""
    after: str = ""
    many: bool = False
    required: bool = False
    default: str = ""


@dataclass(slots=True)
class Record:
    """A decoded form: key to `Value` (or a list of them where `many`), in order of writing."""

    values: dict[str, Any] = field(default_factory=dict)
    span: Span = NOWHERE
    word: str = ""
    order: list[tuple[str, Value]] = field(default_factory=list)
    broken: set[str] = field(default_factory=set)

    def get(self, key: str, default: Any = None) -> Any:
        """The plain data of a key, or the default."""
        value = self.values.get(key)
        return default if value is None else value.data

    def many(self, key: str) -> list[Value]:
        """All values of a key that may be said again."""
        values: list[Value] = self.values.get(key, [])
        return values

    def span_of(self, key: str) -> Span:
        """The place of a key's value, or of the whole record."""
        value = self.values.get(key)
        if isinstance(value, list):
            value = value[0] if value else None
        return self.span if value is None else value.span


@dataclass(frozen=True)
class Form:
    """Slots and clauses. `block`: a block may follow and holds clauses as statements.

    `ordered`: the record keeps the order of its clauses (wiring). `statements`: the block holds
    statements of another kind, kept undecoded under the key ``block``.
    """

    slots: tuple[Slot, ...] = ()
    clauses: tuple[Clause, ...] = ()
    block: bool = False
    statements: bool = False
    spoken: str = ""

    def __post_init__(self) -> None:
        words: dict[str, list[Clause]] = {}
        for clause in self.clauses:
            words.setdefault(clause.word, []).append(clause)
        object.__setattr__(self, "words", words)

    words: dict[str, list[Clause]] = field(init=False, repr=False, compare=False)

    def holding_itself(self, *clauses: tuple[str, str]) -> Form:
        """Return this form with further (word, help) clauses whose value is this form again."""
        for word, text in clauses:
            self.words[word] = [Clause(word, self, text, many=True)]
        return self

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """True if a slot or clause of it starts here, or if it needs none."""
        if not any(slot.required for slot in self.slots):
            return True
        return any(slot.shape.starts(cursor, ahead) for slot in self.slots)

    def expects(self) -> str:
        """What a person calls it."""
        if self.spoken:
            return self.spoken
        return " ".join(slot.shape.expects() for slot in self.slots if slot.required) or "its clauses"

    def decode(self, cursor: Cursor) -> Record:
        """Read slots and clauses from the cursor until something belongs to an outer form."""
        start = cursor.at
        record = decode_into(Record(), self, cursor)
        record.span = cursor.span_from(start)
        return record


def decode_into(record: Record, form: Form, cursor: Cursor) -> Record:
    """Read what a form allows into a record."""
    if len(cursor.words) >= DEEPEST:
        cursor.report(
            "nested-too-deep",
            f"clauses are nested more than {DEEPEST} deep",
            cursor.here(),
            "Give the inner parts names of their own and refer to them.",
        )
        cursor.at = len(cursor.items)
        return record
    cursor.words.append(form.words)
    while cursor.at < len(cursor.items):
        clause = _clause_here(form, cursor)
        if clause is not None:
            _take_clause(record, clause, cursor)
            continue
        slot = _slot_here(record, form, cursor)
        if slot is not None:
            _take_slot(record, slot, cursor)
            continue
        word = cursor.word()
        if word in form.words:
            _wrong_value(record, form, cursor)
            continue
        break
    cursor.words.pop()
    return record


def _clause_here(form: Form, cursor: Cursor) -> Clause | None:
    for clause in form.words.get(cursor.word(), ()):
        ahead = 1
        if clause.after:
            if cursor.word(1) != clause.after:
                continue
            ahead = 2
        if clause.shape.starts(cursor, ahead):
            return clause
    return None


def _take_clause(record: Record, clause: Clause, cursor: Cursor) -> None:
    start = cursor.at
    cursor.take()
    if clause.after:
        cursor.take()
    data = clause.shape.decode(cursor)
    put(record, clause, data, cursor.span_from(start), cursor)


def put(record: Record, clause: Clause, data: Any, span: Span, cursor: Cursor) -> None:
    """Keep a clause's value; said twice is a finding, and the first stands."""
    key = clause.key or clause.word
    if data is None:
        record.broken.add(key)
        return
    value = Value(data, span)
    if clause.many:
        record.values.setdefault(key, []).append(value)
    elif key in record.values:
        cursor.report(
            "duplicate-property",
            f"`{clause.word}` is said twice",
            span,
            "Keep one of the two.",
            related=(Related(record.values[key].span, "said first here"),),
        )
        return
    else:
        record.values[key] = value
    record.order.append((key, value))


def _slot_here(record: Record, form: Form, cursor: Cursor) -> Slot | None:
    for slot in form.slots:
        if slot.key in record.values or slot.key in record.broken:
            continue
        if slot.shape.starts(cursor) or _names_itself(slot, cursor):
            return slot
    return None


def _names_itself(slot: Slot, cursor: Cursor) -> bool:
    """No word is reserved: right after the head, a clause word that no value follows is a name."""
    return cursor.at == 0 and slot.required and isinstance(slot.shape, Names) and cursor.kind() == "NAME"


def _take_slot(record: Record, slot: Slot, cursor: Cursor) -> None:
    start = cursor.at
    data = slot.shape.decode(cursor)
    if data is None:
        record.broken.add(slot.key)
    else:
        value = Value(data, cursor.span_from(start))
        record.values[slot.key] = value
        record.order.append((slot.key, value))


def _wrong_value(record: Record, form: Form, cursor: Cursor) -> None:
    """A known word with something after it that it does not take."""
    word = cursor.word()
    clauses = form.words[word]
    span = cursor.here()
    cursor.take()
    wanted = " or ".join(clause.shape.expects() for clause in clauses)
    found = cursor.peek()
    said = "nothing" if found is None else describe(found)
    rule = "missing-value" if found is None or cursor.is_clause_word(cursor.word()) else "unexpected-value"
    hint = f"It takes {wanted}."
    if word == "and" and cursor.kind() == "NAME":
        hint = f"Names in a list are separated by commas: `, {cursor.word()}`. {hint}"
    cursor.report(rule, f"`{word}` is followed by {said}", span, hint)
    record.broken.update(clause.key or clause.word for clause in clauses)
    skip(cursor)


def skip(cursor: Cursor) -> None:
    """Past what cannot be read, up to a word that means something."""
    while cursor.at < len(cursor.items):
        word = cursor.word()
        if word and cursor.is_clause_word(word):
            return
        cursor.take()


def decode_statement(
    form: Form, statement: Statement, findings: list[Finding], *, skip_head: bool = True, what: str = ""
) -> Record:
    """Read one whole statement and its block by a form; everything left over is a finding."""
    items: Sequence[Item] = statement.items[1:] if skip_head else statement.items
    cursor = Cursor(statement.file, items, findings, statement=statement)
    record = Record(word=what)
    while True:
        decode_into(record, form, cursor)
        if cursor.at >= len(items):
            break
        _left_over(record, form, cursor, what)
    record.span = statement.span
    if statement.block is not None:
        _block(record, form, statement, findings, what)
    _missing(record, form, statement, findings, what)
    return record


def _left_over(record: Record, form: Form, cursor: Cursor, what: str) -> None:
    """One finding for what no clause and no slot takes; then past it.

    The clause that was nearly meant counts as broken: that it is missing is no second finding.
    """
    span = cursor.here()
    item = cursor.take()
    word = str(item) if item.type == "NAME" else ""
    known = list(form.words)
    if word:
        hint = "Write `on own channels`." if word == "own" and "on" in known else did_you_mean(word, known)
        for near in closest(word, known):
            record.broken.update(clause.key or clause.word for clause in form.words[near])
        cursor.report(
            "unknown-property",
            f"`{word}` means nothing to {_a(what)}",
            span,
            hint or f"{_a(what).capitalize()} takes {_list(known)}.",
        )
    elif item.type == "TIME" and "lit" in form.words:
        before = cursor.items[cursor.at - 2] if cursor.at > 1 else None
        small = "Words are written in small letters. " if str(before) == "AT" else ""
        cursor.report(
            "unexpected-value",
            f"{describe(item)} stands without a word before it",
            span,
            f"{small}Write `at {item}` for when it is seen, or `lit at {item}` for when it is fired.",
        )
        record.broken.add("seen")
    else:
        cursor.report(
            "unexpected-value",
            f"{describe(item)} is not expected here",
            span,
            f"{_a(what).capitalize()} takes {_list(known)}." if known else "Take it out.",
        )
    cursor.words.append(form.words)
    skip(cursor)
    cursor.words.pop()


def _a(what: str) -> str:
    if not what:
        return "this statement"
    return ("an " if what[0] in "aeiou" else "a ") + f"`{what}`"


def _list(words: Sequence[str]) -> str:
    if not words:
        return "nothing more"
    return ", ".join(f"`{word}`" for word in words[:14]) + (", …" if len(words) > 14 else "")


def _block(record: Record, form: Form, statement: Statement, findings: list[Finding], what: str) -> None:
    if form.statements:
        record.values["block"] = Value(statement.block, statement.span)
        return
    if not form.block:
        findings.append(
            Finding(
                "unexpected-value",
                f"{_a(what)} takes no block",
                statement.span,
                hint="Take out the braces and write its clauses on the line.",
            )
        )
        return
    for inner in statement.block or ():
        decode_property(record, form, inner, findings, what)


def decode_property(record: Record, form: Form, statement: Statement, findings: list[Finding], what: str) -> None:
    """Read one statement of a block: a clause as a statement of its own, and perhaps more of them."""
    cursor = Cursor(statement.file, statement.items, findings, statement=statement)
    nested = None
    head = cursor.word()
    if statement.block is not None:
        nested = _nested(form, head)
        if nested is None:
            findings.append(
                Finding(
                    "unexpected-value",
                    f"`{head or 'this'}` takes no block",
                    statement.span,
                    hint="Take out the inner braces.",
                )
            )
    if nested is not None:
        inner = nested.shape
        assert isinstance(inner, Form)
        record_inner = decode_statement(inner, statement, findings, what=head)
        put(record, nested, record_inner, statement.span, cursor)
        return
    if head and head not in form.words and not _slot_here(record, form, cursor):
        _left_over(record, form, cursor, what)
        return  # the rest belongs to a word that means nothing
    while cursor.at < len(statement.items):
        decode_into(record, form, cursor)
        if cursor.at < len(statement.items):
            _left_over(record, form, cursor, what)


def _nested(form: Form, word: str) -> Clause | None:
    for clause in form.words.get(word, ()):
        if isinstance(clause.shape, Form) and (clause.shape.block or clause.shape.statements):
            return clause
    return None


def _missing(record: Record, form: Form, statement: Statement, findings: list[Finding], what: str) -> None:
    for slot in form.slots:
        if slot.required and slot.key not in record.values and slot.key not in record.broken:
            findings.append(
                Finding(
                    "missing-value",
                    f"{_a(what)} needs {slot.shape.expects()}",
                    statement.span,
                    hint=slot.help or f"Write it after `{what}`.",
                )
            )
            record.broken.add(slot.key)
    for clause in form.clauses:
        key = clause.key or clause.word
        if clause.required and key not in record.values and key not in record.broken:
            findings.append(
                Finding(
                    "missing-property",
                    f"{_a(what)} needs `{clause.word}`",
                    statement.span,
                    hint=f"Add `{clause.word}` with {clause.shape.expects()}.",
                )
            )
            record.broken.add(key)
