"""`parts`: lists and searches the built-in catalogue, every value with where it comes from."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap
from typing import Any, NamedTuple

from compiler.cli import CLEAN, FOUND, WrongUseError
from compiler.cli.emit import say
from compiler.expand.book import Book
from compiler.expand.statements import catalogue
from compiler.limits.sets import rule_set
from compiler.model.parts import Parts
from compiler.vocabulary.forms import Record
from compiler.vocabulary.names import Name, did_you_mean
from grammar.findings import Span
from grammar.source import Source

_WIDTH = 100
_NOT_PARTS = frozenset(("ruleset",))
_TIED = "\xa0"  # holds the words of a value together on one line
_ORIGIN = ("source", "confidence")
_MAIN = {
    "match": ("bridge", "no_fire", "alone", "series", "parallel", "impulse"),
    "cable": ("gauge", "area", "resistance", "stranded", "metal", "limit"),
    "module": ("channels", "channel_limit", "rail_limit", "at_once", "pulse", "test_current", "test_resistor"),
    "battery": ("voltage", "inner", "limit", "fuse"),
    "effect": ("kind", "calibre", "prefire", "burn", "match", "shells", "delay"),
}
"""The values that a search shows, by kind; of kinds that are not here, all."""


class Part(NamedTuple):
    """One part of the catalogue."""

    kind: str
    name: str
    source: Source


def list_parts(words: tuple[str, ...], kind: str | None, *, written: bool) -> int:
    """Print the parts that hold all words, perhaps as they are written; 1 where there are none."""
    everything = [part for part in _parts() if kind is None or part.kind == kind]
    if kind is not None and not everything:
        kinds = list(dict.fromkeys(part.kind for part in _parts()))
        raise WrongUseError(
            f"There is no kind of part called `{kind}`. {did_you_mean(kind, kinds)} Kinds: {', '.join(kinds)}."
        )
    found = [part for part in everything if _holds(part, words)]
    book = Book([], catalogue=catalogue())
    made = [_written(part) if written else "\n".join(_lines(part, book)) for part in found]
    say("\n\n".join((*made, f"{'# ' if written else ''}{len(found)} of {len(everything)} parts")) + "\n")
    return CLEAN if found else FOUND


def _parts() -> Iterator[Part]:
    for kind, known in catalogue().items():
        if kind not in _NOT_PARTS:
            yield from (Part(kind, name, source) for name, source in known.items())


def _holds(part: Part, words: tuple[str, ...]) -> bool:
    text = " ".join(_written(part).split()).casefold()
    return all(" ".join(word.split()).casefold() in text for word in words)


def _written(part: Part) -> str:
    """The statement, without the comments of the part after it."""
    lines = part.source.text.rstrip().splitlines()
    while lines and (not lines[-1].strip() or lines[-1].startswith("#")):
        lines.pop()
    return "\n".join(lines)


def _lines(part: Part, book: Book) -> Iterator[str]:
    decl = book.find((part.kind,), Name(part.name, Span(part.source.name, 0, 0)))
    assert decl is not None
    yield f"{part.kind} {part.name}"
    values = [*_values(part, decl.record), *_inherited(part, decl.record, book), *_computed(part, book)]
    yield from _filled(", ".join(values))
    for key in _ORIGIN:
        if decl.record.get(key):
            yield from _filled(f"{key}: {decl.record.get(key)}")


def _values(part: Part, record: Record) -> Iterator[str]:
    """Clauses as they are written, in people's units."""
    keys = _MAIN.get(part.kind) or [key for key in record.values if key not in (*_ORIGIN, "name")]
    for key in keys:
        said: Any = record.values.get(key)
        for value in said if isinstance(said, list) else [said]:
            if value is not None:
                yield _TIED.join(part.source.text[value.span.start : value.span.end].split())


def _inherited(part: Part, record: Record, book: Book) -> Iterator[str]:
    """What a part takes from the one that it is like, as that one says it."""
    said = set(record.values)
    names: tuple[Name, ...] | None = record.get("like")
    while names:
        base = next((one for one in _parts() if (one.kind, one.name) == (part.kind, names[0].text)), None)
        decl = book.find((part.kind,), names[0])
        if base is None or decl is None:
            return
        yield f"like {base.name}: " + ", ".join(
            _values(base, Record({k: v for k, v in decl.record.values.items() if k not in said}))
        )
        said |= set(decl.record.values)
        names = decl.record.get("like")


def _computed(part: Part, book: Book) -> Iterator[str]:
    """A cable's resistance, which its size says."""
    if part.kind != "cable":
        return
    limits = rule_set(book, "strict", None).rules.limits
    cable = Parts(book, limits).cable(Name(part.name, Span(part.source.name, 0, 0)))
    if cable is not None:
        low, high = cable.ohm_per_m.low * 1000, cable.ohm_per_m.high * 1000
        yield f"one conductor {low:.3g} .. {high:.3g} ohm per km at 20 degC".replace(" ", _TIED)


def _filled(text: str) -> list[str]:
    lines = wrap(
        text, _WIDTH, initial_indent="    ", subsequent_indent="      ", break_long_words=False, break_on_hyphens=False
    )
    return [line.replace(_TIED, " ") for line in lines]
