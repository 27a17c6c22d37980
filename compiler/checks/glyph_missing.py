"""Every name and text can be printed.

Protects from
    A sheet with an empty box where a name should be, or a name that shows as another one because
    of a character that nobody sees.

How it is computed
    Characters of all names, titles, cue texts and notes are looked up in the faces of the sheets.
    Reported once per thing.

Limit and source
    The faces that travel with the compiler: Latin, Greek, Cyrillic and many more, but not every
    script.

Breaks it
    position Quay-一 at 0 m, 0 m

Keeps it
    position Quä-1 at 0 m, 0 m
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compiler.checks.rule import rule
from compiler.checks.words import many, names
from compiler.model.solved import Solved
from grammar.findings import Finding


def _texts(solved: Solved) -> Iterator[tuple[str, str, str]]:
    """Entity key, what it is called, and a text of it that prints."""
    model = solved.model
    yield "show:", "the show's title", model.show.title
    for kind, table in (
        ("position", model.positions),
        ("supply", model.supplies),
        ("rail", model.rails),
        ("device", model.devices),
        ("match", model.matches),
        ("cable", model.cables),
        ("effect", model.effects),
    ):
        for name in table:
            yield f"{kind}:{name}", f"the {kind} {name}", name
    for circuit in model.circuits.values():
        yield f"circuit:{circuit.name}", f"circuit {circuit.name}", circuit.name
    for cue in model.cues:
        yield f"cue:{cue.number}", f"the text of cue {cue.number}", cue.text
    for note in model.notes:
        yield "", "a note", note.text


def _check(solved: Solved) -> Iterable[Finding]:
    foreign = [found for found in _texts(solved) if not found[2].isascii()]
    if not foreign:
        return
    from compiler.sheets.fonts import undrawable  # reads two fonts: only where it is needed

    told: set[str] = set()
    for key, called, text in foreign:
        lacking = sorted(undrawable(text))
        if not lacking or text in told:
            continue
        told.add(text)
        codes = [f"U+{ord(character):04X}" for character in lacking]
        yield Finding(
            "glyph-missing",
            f"{called} has {many(len(lacking), 'character')} that the sheets can't print: {names(codes)}",
            at=key or None,
            subject=called,
            values={"characters": codes},
            hint="Write it with letters that the sheets hold; Latin letters with their accents all do.",
        )


RULE = rule("glyph-missing", "error", __doc__, _check)
