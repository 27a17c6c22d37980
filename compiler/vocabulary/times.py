"""Shapes of time: `0:06.0`, `1:02:03.5`, `-0:10`, `+0:02.5`, `2027-06-19 22:15:00`."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass

from compiler.vocabulary.cursor import Cursor

_CLOCK = re.compile(r"^([+-]?)(\d{1,4}):(\d\d)(?::(\d\d))?(\.\d{1,6})?$")


@dataclass(frozen=True, slots=True)
class Time:
    """A time in minutes and seconds, perhaps hours. `offset`: with a plus, from a script's start.

    Gives seconds as a float, exact to the microsecond.
    """

    offset: bool = False

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A time token."""
        return cursor.kind(ahead) == "TIME"

    def expects(self) -> str:
        """What a person calls it."""
        return "an offset, as in `+0:02.5`" if self.offset else "a time, as in `0:06.0` or `1:02:03.5`"

    def decode(self, cursor: Cursor) -> float | None:
        """Seconds."""
        span = cursor.here()
        text = str(cursor.take())
        found = _CLOCK.match(text)
        if found is None:
            cursor.report("bad-time", f"`{text}` is not a time", span, _mend(text))
            return None
        sign, first, second, third, fraction = found.groups()
        if int(second) > 59 or (third is not None and int(third) > 59):
            cursor.report("bad-time", f"`{text}` has more than 59 in a field", span,
                          "Minutes after hours, and seconds, run from 00 to 59.")
            return None
        if self.offset != (sign == "+"):
            hint = (f"Write `+{text.lstrip('-')}` for a time from the script's start." if self.offset
                    else f"Write `{text[1:]}`: a plus belongs into a script.")
            cursor.report("bad-time", f"`{text}` is {'a show time' if self.offset else 'an offset'}", span, hint)
            return None
        fields = [int(first), int(second)] + ([int(third)] if third is not None else [])
        whole = 0
        for field in fields:
            whole = whole * 60 + field
        seconds = round(whole + float(fraction or 0), 6)
        return -seconds if sign == "-" else seconds


def _mend(text: str) -> str:
    """The likeliest reading of a malformed time."""
    parts = text.lstrip("+-").split(":")
    if len(parts) == 2 and re.fullmatch(r"\d(\.\d+)?", parts[1]):
        return f"Seconds take two digits: `{text[: text.index(':') + 1]}0{parts[1]}`."
    if len(parts) >= 4 or ";" in text:
        return "Timecode with frames is not read here: write `0:06.0` in minutes and seconds."
    return "Write minutes and seconds with two digits, as in `0:06.0`, or hours too, as in `1:02:03.5`."


@dataclass(frozen=True, slots=True)
class Moment:
    """A date and perhaps a time of day. Gives ISO text such as `2027-06-19 22:15:00`."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A date token."""
        return cursor.kind(ahead) == "DATE"

    def expects(self) -> str:
        """What a person calls it."""
        return "a date and a time, as in `2027-06-19 22:15:00`"

    def decode(self, cursor: Cursor) -> str | None:
        """The moment, if such a day exists."""
        start = cursor.at
        text = str(cursor.take())
        if cursor.kind() == "TIME":
            text += " " + str(cursor.take())
        try:
            moment = dt.datetime.fromisoformat(text)
        except ValueError:
            cursor.report("bad-time", f"`{text}` is not a date and time", cursor.span_from(start),
                          f"Write {self.expects()}.")
            return None
        return moment.isoformat(sep=" ") if " " in text else text


def offset_seconds(text: str) -> float | None:
    """Seconds of an offset such as `+0:02.5`; None for anything else."""
    found = _CLOCK.match(text)
    if found is None or found[1] != "+":
        return None
    whole = 0
    for part in (found[2], found[3], found[4]):
        whole = whole * 60 + int(part) if part is not None else whole
    return round(whole + float(found[5] or 0), 6)


def offset_text(seconds: float) -> str:
    """An offset as it is written, to the microsecond: `+0:02.5`."""
    micro = round(seconds * 1_000_000)
    minutes, rest = divmod(micro, 60_000_000)
    second, fraction = divmod(rest, 1_000_000)
    tail = f".{fraction:06d}".rstrip("0").rstrip(".")
    return f"+{minutes}:{second:02d}{tail}"
