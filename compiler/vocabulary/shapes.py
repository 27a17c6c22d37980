"""The shapes that values take in the show language, each able to say whether it starts here.

A shape reads from a `Cursor`. `decode` returns the value, or None after it has reported why
there is none. Quantities are in `compiler.vocabulary.quantities`, times in `…times`.
"""

from __future__ import annotations

from typing import Any, NamedTuple, Protocol

from compiler.vocabulary.cursor import Cursor
from compiler.vocabulary.names import MOST_IN_RANGE, Name, an, did_you_mean, open_range, too_long
from grammar.findings import Span


class Shape(Protocol):
    """What every shape can do."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """True if the items ahead could be this shape."""

    def decode(self, cursor: Cursor) -> Any:
        """Read the value, or report and return None."""

    def expects(self) -> str:
        """What a person calls it, with an example."""


class Count(NamedTuple):
    """A whole number without a unit."""

    least: int = 0
    most: int = 1_000_000

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A number starts a count."""
        return cursor.kind(ahead) == "NUMBER"

    def expects(self) -> str:
        """What a person calls it."""
        return "a whole number, as in `30`"

    def decode(self, cursor: Cursor) -> int | None:
        """The number, if it is whole and within bounds."""
        span = cursor.here()
        text = str(cursor.take())
        if not text.isdecimal() or len(text) > 9:
            cursor.report("bad-number", f"`{text}` is not a whole number", span, "Write a number such as `30`.")
            return None
        number = int(text)
        if not self.least <= number <= self.most:
            cursor.report("out-of-range", f"{number} is outside {self.least} to {self.most}", span, "Check the number.")
            return None
        return number


class Text:
    """A text in double quotes."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A text token."""
        return cursor.kind(ahead) == "TEXT"

    def expects(self) -> str:
        """What a person calls it."""
        return 'a text, as in `"Curtain up"`'

    def decode(self, cursor: Cursor) -> str:
        """The text without its quotes."""
        return str(cursor.take())[1:-1]


class Flag:
    """A word that says all by itself."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """Always: nothing follows."""
        del cursor, ahead
        return True

    def expects(self) -> str:
        """What a person calls it."""
        return "nothing more: the word says it all"

    def decode(self, cursor: Cursor) -> bool:
        """True."""
        del cursor
        return True


class Choice(NamedTuple):
    """One word of a few."""

    words: tuple[str, ...]

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """One of the words, or a name that has no other meaning here."""
        word = cursor.word(ahead)
        if word in self.words or len(self.words) == 1:
            return word in self.words
        return word != "" and not cursor.is_clause_word(word)

    def expects(self) -> str:
        """The words to choose from."""
        return "one of " + ", ".join(f"`{word}`" for word in self.words)

    def decode(self, cursor: Cursor) -> str | None:
        """The word, if it is one of them."""
        span = cursor.here()
        word = str(cursor.take())
        if word in self.words:
            return word
        cursor.report(
            "unexpected-value",
            f"`{word}` is not a choice here",
            span,
            " ".join(filter(None, (did_you_mean(word, self.words), f"It takes {self.expects()}."))),
        )
        return None


class Names(NamedTuple):
    """Names of entities: one, or a list with commas and ranges if `many`. Gives a tuple of `Name`.

    `of` names the kinds that may be meant (resolved by the model, not here); `new`: names being
    given, not looked up.
    """

    of: tuple[str, ...] = ()
    many: bool = True

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A name that is no clause word here."""
        return cursor.kind(ahead) == "NAME" and not cursor.is_clause_word(cursor.word(ahead))

    def expects(self) -> str:
        """What a person calls it."""
        what = " or ".join(self.of) if self.of else "name"
        return f"the name of {an(what)}" if self.of else "a name"

    def decode(self, cursor: Cursor) -> tuple[Name, ...] | None:
        """The names, ranges opened; a range that is none is a finding."""
        names: list[Name] = []
        start = cursor.at
        whole = True
        while True:
            if cursor.kind() != "NAME":
                cursor.report(
                    "missing-value", "a name is due here", cursor.here(), "Take out the comma, or name one more."
                )
                return None
            opened = self._one(cursor)
            whole = whole and opened is not None
            names.extend(opened or ())
            if len(names) > MOST_IN_RANGE and whole:
                cursor.report(
                    "too-many",
                    f"this list holds more than {MOST_IN_RANGE} names",
                    cursor.span_from(start),
                    "Split it into several.",
                )
                whole = False
            if not whole:
                names.clear()
            if cursor.kind() != "COMMA":
                break
            cursor.take()
        if not self.many and len(names) > 1:
            cursor.report(
                "unexpected-value", "one name is due here, not several", cursor.span_from(start), "Name just one."
            )
            return None
        return tuple(names) if whole else None

    def _one(self, cursor: Cursor) -> list[Name] | None:
        span = cursor.here()
        text = str(cursor.take())
        if cursor.kind() == "DOTS" and cursor.kind(1) in ("NAME", "NUMBER"):  # `Q1 .. Q9`
            cursor.take()
            text = f"{text}..{cursor.take()}"
            span = Span(span.file, span.start, cursor.items[cursor.at - 1].end_pos or span.end)
        if ".." not in text:
            return [Name(text, span)]
        step = 1
        if cursor.word() == "by" and cursor.kind(1) == "NUMBER" and str(cursor.peek(1)).isdecimal():
            cursor.take()
            step = min(int(str(cursor.take())[:9]), 10**9)
        opened = open_range(text, step)
        if opened is None and too_long(text, step):
            cursor.report(
                "too-many", f"`{text}` makes more than {MOST_IN_RANGE:,} names", span, "Check the number after `..`."
            )
            return None
        if opened is None:
            cursor.report(
                "empty-range",
                f"`{text}` names nothing",
                span,
                "Both ends need the same stem and a number, as in `Q1..Q9`, and not more than 2,000 names.",
            )
            return None
        return [Name(name, span) for name in opened]


class RuleName:
    """The slug of a rule, whatever else the word may mean here. Gives a tuple of one `Name`."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """Any name."""
        return cursor.kind(ahead) == "NAME"

    def expects(self) -> str:
        """What a person calls it."""
        return "the name of a rule, as in `never-fired`"

    def decode(self, cursor: Cursor) -> tuple[Name]:
        """The slug as written."""
        name = Name(str(cursor.peek()), cursor.here())
        cursor.take()
        return (name,)


class Address:
    """A rail and a channel: `A.1`. Gives (rail, channel)."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A name with a number after its last dot."""
        _, dot, channel = cursor.word(ahead).rpartition(".")
        return bool(dot) and channel.isdecimal() and len(channel) < 6

    def expects(self) -> str:
        """What a person calls it."""
        return "a rail and a channel, as in `A.1`"

    def decode(self, cursor: Cursor) -> tuple[str, int]:
        """Rail and channel."""
        rail, _, channel = str(cursor.take()).rpartition(".")
        return rail, int(channel)


class Labels:
    """Numbers of cues with commas: `12, 102.3`. Gives a tuple of texts."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A number, or the name of a numbered line."""
        return cursor.kind(ahead) in ("NUMBER", "NAME")

    def expects(self) -> str:
        """What a person calls it."""
        return "numbers of cues, as in `12, 102.3`"

    def decode(self, cursor: Cursor) -> tuple[str, ...]:
        """The numbers as written."""
        found = [str(cursor.take())]
        while cursor.kind() == "COMMA" and self.starts(cursor, 1):
            cursor.take()
            found.append(str(cursor.take()))
        return tuple(found)


class Label:
    """A number as it is written, kept as text: a cue's number."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A number."""
        return cursor.kind(ahead) == "NUMBER"

    def expects(self) -> str:
        """What a person calls it."""
        return "a number, as in `12`"

    def decode(self, cursor: Cursor) -> str | None:
        """The digits."""
        span = cursor.here()
        text = str(cursor.take())
        if not text.isdecimal():
            cursor.report("bad-number", f"`{text}` cannot number a cue", span, "Use a whole number.")
            return None
        return text.lstrip("0") or "0"
