"""`change rail N5 { … }`: other values for some clauses of a thing that another file declares."""

from __future__ import annotations

from compiler.expand.book import Book, Decl
from compiler.vocabulary.forms import Record, decode_property
from compiler.vocabulary.kinds import KINDS
from compiler.vocabulary.names import Name, did_you_mean
from grammar.findings import Finding

CHANGEABLE = (
    "position", "structure", "supply", "rail", "device", "falls", "circuit", "rack", "zone", "music",
    "match", "cable", "module", "battery", "effect",
)  # fmt: skip


def apply_changes(book: Book) -> None:
    """Apply every `change` to the declarations in the book; two changes of one clause are a finding."""
    changed: dict[tuple[str, str, str], Record] = {}
    for decl in book.singles.get("change", ()):
        _apply(book, decl, changed)


def _apply(book: Book, change: Decl, changed: dict[tuple[str, str, str], Record]) -> None:
    kinds: tuple[Name, ...] | None = change.record.get("kind")
    names: tuple[Name, ...] | None = change.record.get("names")
    if not kinds or not names:
        return
    word = kinds[0].text
    if word not in CHANGEABLE:
        book.findings.append(
            Finding(
                "unknown-statement",
                f"`{word}` cannot be changed",
                kinds[0].span,
                hint=did_you_mean(word, CHANGEABLE) or f"What can be changed: {', '.join(CHANGEABLE)}.",
            )
        )
        return
    new = Record(word=word)
    for statement in change.record.get("block", ()):
        decode_property(new, KINDS[word].form, statement, book.findings, word)
    for name in names:
        decl = book.find(("device" if word == "falls" else word,), name)
        if decl is not None and not _built_in(book, decl, name):
            _merge(book, decl, new, changed)


def _built_in(book: Book, decl: Decl, name: Name) -> bool:
    if decl.name not in book.catalogue.get(decl.kind, {}):
        return False
    book.findings.append(
        Finding(
            "unexpected-value",
            f"`{decl.name}` belongs to the built-in catalogue",
            name.span,
            hint=f"Make your own: `{decl.kind} my-{decl.name} {{ like {decl.name}; … }}`.",
        )
    )
    return True


def _merge(book: Book, decl: Decl, new: Record, changed: dict[tuple[str, str, str], Record]) -> None:
    record = Record(
        dict(decl.record.values), decl.record.span, decl.record.word, list(decl.record.order), set(decl.record.broken)
    )
    for key, value in new.values.items():
        first = changed.setdefault((decl.kind, decl.name, key), new)
        if first is not new:
            book.findings.append(
                Finding(
                    "duplicate-property",
                    f"`{key}` of `{decl.name}` is changed twice",
                    new.span_of(key),
                    hint="Keep one of the two.",
                )
            )
            continue
        record.values[key] = value
        record.order = [(k, v) for k, v in record.order if k != key] + [(k, v) for k, v in new.order if k == key]
    if decl.kind == "position" and {"at", "from"} & set(new.values):
        for key in {"at", "from", "every"} - set(new.values):
            record.values.pop(key, None)  # it was one of several in step; now it has a place of its own
        decl.index, decl.of = 0, 1
    record.broken |= new.broken
    decl.record = record
    book.records[f"{'device' if decl.kind == 'falls' else decl.kind}:{decl.name}"] = record
