"""Shapes of time: `0:06.0`, `1:02:03.5`, `-0:10`, `+0:02.5`, `2027-06-19 22:15:00`."""

from __future__ import annotations

import datetime as dt
import re
from typing import NamedTuple

from compiler.vocabulary.cursor import Cursor
from compiler.vocabulary.names import Name
from compiler.vocabulary.quantities import Quantity, decimal_comma
from compiler.vocabulary.units import units_of
from grammar.findings import Edit

_CLOCK = re.compile(r"^([+-]?)(\d{1,4}):(\d\d)(?::(\d\d))?(\.\d{1,6})?$")


class Time(NamedTuple):
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
        start = cursor.at
        text = str(cursor.take())
        if decimal_comma(cursor):
            cursor.take()
            text = f"{text}.{cursor.take()}"
            span = cursor.span_from(start)
            cursor.report(
                "bad-time",
                f"`{text.replace('.', ',')}` has a decimal comma",
                span,
                f"Write `{text}`.",
                edit=Edit(span, text),
            )
            return None
        found = _CLOCK.match(text)
        if found is None:
            cursor.report("bad-time", f"`{text}` is not a time", span, _mend(text))
            return None
        sign, first, second, third, fraction = found.groups()
        if int(second) > 59 or (third is not None and int(third) > 59):
            cursor.report(
                "bad-time",
                f"`{text}` has more than 59 in a field",
                span,
                "Minutes after hours, and seconds, run from 00 to 59.",
            )
            return None
        if third is not None and int(first) == 0:
            cursor.report(
                "bad-time",
                f"`{text}` has hours, and they are 0",
                span,
                f"Write `{sign}{int(second)}:{third}{fraction or ''}` for minutes and seconds, "
                f"or `{sign}{first}:{second}.{third}` if the last colon is a point.",
            )
            return None
        if self.offset != (sign == "+"):
            hint = (
                f"Write `+{text.lstrip('-')}` for a time from the script's start."
                if self.offset
                else f"Write `{text[1:]}`: a plus belongs into a script."
            )
            cursor.report("bad-time", f"`{text}` is {'a show time' if self.offset else 'an offset'}", span, hint)
            return None
        fields = [int(first), int(second)] + ([int(third)] if third is not None else [])
        whole = 0
        for field in fields:
            whole = whole * 60 + field
        seconds = round(whole + float(fraction or 0), 6)
        return -seconds if sign == "-" else seconds


class LineTime:
    """The head of a script's line. Gives (seconds, whether they count from the script's start)."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A time token."""
        return cursor.kind(ahead) == "TIME"

    def expects(self) -> str:
        """What a person calls it."""
        return "an offset, as in `+0:02.5`, or a show time, as in `0:12.5`"

    def decode(self, cursor: Cursor) -> tuple[float, bool] | None:
        """Seconds and which they are."""
        offset = str(cursor.peek()).startswith("+")
        seconds = Time(offset=offset).decode(cursor)
        return None if seconds is None else (seconds, offset)


def _mend(text: str) -> str:
    """The likeliest reading of a malformed time."""
    parts = text.lstrip("+-").split(":")
    if text.startswith(":") and len(parts) == 2:
        return f"Write the minutes too: `0{text}`."
    if len(parts) == 2 and re.fullmatch(r"\d(\.\d+)?", parts[1]):
        return f"Seconds take two digits: `{text[: text.index(':') + 1]}0{parts[1]}`."
    if len(parts) >= 4 or ";" in text:
        return "Timecode with frames is not read here: write `0:06.0` in minutes and seconds."
    return "Write minutes and seconds with two digits, as in `0:06.0`, or hours too, as in `1:02:03.5`."


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
            cursor.report(
                "bad-time", f"`{text}` is not a date and time", cursor.span_from(start), f"Write {self.expects()}."
            )
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


class Clock:
    """A wall-clock time: `clock 22:15` or `clock 22:15:30.5`. Gives seconds after midnight."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """The word `clock` and a time."""
        return cursor.word(ahead) == "clock" and cursor.kind(ahead + 1) == "TIME"

    def expects(self) -> str:
        """What a person calls it."""
        return "a wall-clock time, as in `clock 22:15`"

    def decode(self, cursor: Cursor) -> float | None:
        """Seconds after midnight."""
        cursor.take()
        span = cursor.here()
        text = str(cursor.take())
        found = re.fullmatch(r"(\d\d):(\d\d)(?::(\d\d(?:\.\d{1,6})?))?", text)
        if found is None or int(found[1]) > 23 or int(found[2]) > 59 or float(found[3] or 0) >= 60:
            cursor.report(
                "bad-time", f"`{text}` is not a time of day", span, "Write it as `clock 22:15` or `clock 22:15:30`."
            )
            return None
        return int(found[1]) * 3600.0 + int(found[2]) * 60.0 + float(found[3] or 0)


class Timecode:
    """A timecode label of four fields, kept as text until its rate is known."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A time token."""
        return cursor.kind(ahead) == "TIME"

    def expects(self) -> str:
        """What a person calls it."""
        return "a timecode, as in `01:00:00:00` (hours, minutes, seconds, frames)"

    def decode(self, cursor: Cursor) -> str | None:
        """The label, if it has four fields of two digits."""
        span = cursor.here()
        text = str(cursor.take())
        if re.fullmatch(r"\d\d:\d\d:\d\d[:;]\d\d", text):
            return text
        cursor.report("bad-time", f"`{text}` is not a timecode", span, f"Write {self.expects()}.")
        return None


class MusicTime:
    """A music and a timecode in it: `Waltz 01:00:04:00`. Gives (name, label)."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A name and a time token."""
        return cursor.kind(ahead) == "NAME" and cursor.word(ahead) != "clock" and cursor.kind(ahead + 1) == "TIME"

    def expects(self) -> str:
        """What a person calls it."""
        return "a music and a timecode, as in `Waltz 01:00:04:00`"

    def decode(self, cursor: Cursor) -> tuple[Name, str] | None:
        """The name of the music and the label."""
        name = Name(str(cursor.peek()), cursor.here())
        cursor.take()
        label = Timecode().decode(cursor)
        return None if label is None else (name, label)


class Rate:
    """Frames a second: `25`, `29.97`, `29.97 drop`. Gives (number as written, whether it drops)."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A number."""
        return cursor.kind(ahead) == "NUMBER"

    def expects(self) -> str:
        """What a person calls it."""
        return f"a rate: {', '.join(f'`{rate}`' for rate in RATES)} or `29.97 drop`"

    def decode(self, cursor: Cursor) -> tuple[str, bool] | None:
        """The rate, if timecode is counted at it."""
        start = cursor.at
        rate = str(cursor.take())
        drop = cursor.word() == "drop"
        if drop:
            cursor.take()
        if rate not in RATES or (drop and rate != "29.97"):
            cursor.report(
                "out-of-range",
                f"timecode is not counted at `{rate}{' drop' if drop else ''}`",
                cursor.span_from(start),
                f"Write {self.expects()}.",
            )
            return None
        return rate, drop


def _no_time(cursor: Cursor) -> None:
    """`at 1.23` is likelier a slip for `at 1:23` than anything else."""
    span = cursor.here()
    text = str(cursor.take())
    whole, _, part = text.partition(".")
    likely = f"{whole}:{part}" if len(part) == 2 and part < "60" else f"0:{whole:0>2}" + (f".{part}" if part else "")
    cursor.report(
        "bad-time",
        f"`{text}` is not a time",
        span,
        f"Write `{likely}`: minutes, a colon, and seconds with two digits.",
        edit=Edit(span, likely),
    )


_TIME_UNITS = units_of("time")
RATES = ("24", "25", "30", "29.97")


class AfterCue:
    """So long after another cue: `8 s after 59`. Gives (seconds, number of the cue)."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A number."""
        return cursor.kind(ahead) == "NUMBER"

    def expects(self) -> str:
        """What a person calls it."""
        return "a time after another cue, as in `8 s after 59`"

    def decode(self, cursor: Cursor) -> tuple[float, str] | None:
        """Seconds and the number."""
        start = cursor.at
        if cursor.word(1) not in _TIME_UNITS:
            _no_time(cursor)
            return None
        seconds = Quantity("time", least=0.0, most=86_400.0).decode(cursor)
        if not isinstance(seconds, float):
            return None
        while cursor.kind() == "NUMBER" and cursor.word(1) in _TIME_UNITS:  # `1 min 20 s`
            more = Quantity("time", least=0.0, most=86_400.0).decode(cursor)
            if not isinstance(more, float):
                return None
            seconds += more
        if cursor.word() != "after":
            clock = offset_text(seconds).removeprefix("+")
            cursor.report(
                "bad-time", "a time of the show is written with a colon", cursor.span_from(start), f"Write `{clock}`."
            )
            return None
        if cursor.kind(1) != "NUMBER":
            cursor.report("missing-value", "after which cue is not said", cursor.here(), f"Write {self.expects()}.")
            return None
        cursor.take()
        return seconds, str(cursor.take())
