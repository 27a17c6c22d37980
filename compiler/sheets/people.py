"""Numbers and names as people read them. Formats only: nothing about the show is computed.

A bound is rounded to the side that hides nothing: what is least down, what is greatest up.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from typing import Any

NOT_COMPUTED = "not computed"
NOT_STATED = "not stated"
DASH = "–"
MINUS = "\N{MINUS SIGN}"
PAIR = 2

_MEMBER = re.compile(r"^(.*?)(0|[1-9][0-9]{0,8})$", re.DOTALL)
_REPLACED = "\N{REPLACEMENT CHARACTER}"


def plain(text: str) -> str:
    """`text` on one line, with nothing in it that a page, a printer or a terminal would obey.

    Control, format and bidirectional marks become a visible replacement character, every
    kind of space an ordinary one.
    """
    if text.isprintable():
        return text
    return "".join(_seen(char) for char in text)


def _seen(char: str) -> str:
    if char.isprintable():
        return char
    if unicodedata.category(char) == "Zs" or char in "\t\n\r":
        return " "
    return _REPLACED


def cleaned(value: object) -> object:
    """A JSON value with every text in it made plain."""
    if isinstance(value, str):
        return plain(value)
    if isinstance(value, dict):
        return {key: cleaned(item) for key, item in value.items()}
    if isinstance(value, list):
        return [cleaned(item) for item in value]
    return value


# --- numbers ------------------------------------------------------------------------------------


def fixed(value: float | None, digits: int, rounding: str = ROUND_HALF_UP) -> str:
    """`value` with `digits` decimals; `not computed` where there is none."""
    if value is None:
        return NOT_COMPUTED
    # repr first: the plan's 2.3 is meant as 2.3, not as the binary fraction a little below it
    rounded = Decimal(repr(float(value))).quantize(Decimal(1).scaleb(-digits), rounding)
    text = f"{abs(rounded):f}"
    return MINUS + text if rounded < 0 else text


def at_least(value: float | None, digits: int = 2) -> str:
    """A lower bound: rounded down."""
    return fixed(value, digits, ROUND_FLOOR)


def at_most(value: float | None, digits: int = 2) -> str:
    """An upper bound: rounded up."""
    return fixed(value, digits, ROUND_CEILING)


def exact(value: float | None, unit: str = "", missing: str = NOT_STATED) -> str:
    """A stated figure as short as it can be said: `0.5`, `15 A`."""
    if value is None:
        return missing
    text = f"{Decimal(repr(float(value))).normalize():f}"
    text = MINUS + text[1:] if text.startswith("-") else text
    return f"{text} {unit}" if unit else text


def span(low: float | None, high: float | None, digits: int) -> str:
    """`low – high`, rounded outward."""
    if low is None or high is None:
        return NOT_COMPUTED
    return f"{at_least(low, digits)} {DASH} {at_most(high, digits)}"


def milliamperes(amps: float | None, *, most: bool = True) -> str:
    """A small current in mA with one decimal; up where it is a load, down where it is a limit."""
    if amps is None:
        return NOT_COMPUTED
    milli = float(Decimal(repr(float(amps))).scaleb(3))
    return at_most(milli, 1) if most else at_least(milli, 1)


def clock(seconds: float | None) -> str:
    """Show time as `m:ss.mmm`, with hours in front from one hour on: `1:02:03.500`."""
    if seconds is None:
        return ""
    milli = int(Decimal(repr(abs(float(seconds)))).scaleb(3).quantize(Decimal(1), ROUND_HALF_UP))
    minutes, rest = divmod(milli, 60_000)
    tail = f"{rest // 1000:02d}.{rest % 1000:03d}"
    hours, minutes = divmod(minutes, 60)
    sign = MINUS if seconds < 0 and milli else ""
    return f"{sign}{hours}:{minutes:02d}:{tail}" if hours else f"{sign}{minutes}:{tail}"


def armed(zone: Mapping[str, Any]) -> str:
    """When a zone is armed, by the wall clock where the show says when it is zero: `armed at 21:40`."""
    if zone["armed_s"] is None:
        return ""
    by_clock = zone["armed_clock"] and zone["armed_clock"].removesuffix(":00")
    return f"armed at {by_clock or clock(zone['armed_s']) + ' of show time'}"


def moment(instant: Mapping[str, Any]) -> str:
    """When a stretch of time begins: a show time, or the time after a press."""
    if instant["press"] is None:
        return clock(instant["from_s"])
    return f"{since(instant['from_s'])} after press {instant['press']}"


def since(seconds: float | None) -> str:
    """A time that counts from something: `+0:08.0`, no more decimals than it needs."""
    told = clock(seconds)
    whole, point, decimals = told.partition(".")
    sign = "" if told.startswith(MINUS) or not told else "+"
    return f"{sign}{whole}{point}{decimals[:1]}{decimals[1:].rstrip('0')}"


def degrees(value: float) -> str:
    """An angle to the nearest degree: `−15°`."""
    return f"{fixed(value, 0)}°".replace(f"{MINUS}0°", "0°")


def millimetres(metres_: float) -> str:
    """A calibre as it is spoken of: to the millimetre."""
    return f"{fixed(metres_ * 1000, 0)} mm"


def signed_milliseconds(seconds: float | None) -> str:
    """A small shift in time with its sign: `+5 ms`, `0 ms`."""
    if seconds is None:
        return ""
    milli = Decimal(repr(float(seconds))).scaleb(3).quantize(Decimal("0.1"), ROUND_HALF_UP)
    sign = "+" if milli > 0 else MINUS if milli < 0 else ""
    return f"{sign}{exact(abs(float(milli)))} ms"


def metres(value: float | None) -> str:
    """A length to cut, rounded up to a tenth of a metre: `26.4 m`."""
    if value is None:
        return "length not stated"
    return exact(float(at_most(value, 1)), "m")


# --- names --------------------------------------------------------------------------------------


def listed(names: Sequence[str]) -> str:
    """Names with runs drawn together: `Q1..Q5, Q7, Pylon-W`; order as given."""
    runs: list[tuple[str, str, int]] = []
    for name in names:
        follows = bool(runs) and _follows(runs[-1][1], name)
        if follows:
            first, _, count = runs[-1]
            runs[-1] = (first, name, count + 1)
        else:
            runs.append((name, name, 1))
    return ", ".join(_run(*run) for run in runs)


def _run(first: str, last: str, count: int) -> str:
    if count == 1:
        return first
    return f"{first}, {last}" if count == PAIR else f"{first}..{last}"


def _follows(name: str, after: str) -> bool:
    mine, theirs = _MEMBER.match(name), _MEMBER.match(after)
    if mine is None or theirs is None or mine[1] != theirs[1]:
        return False
    return int(theirs[2]) == int(mine[2]) + 1


def counted(number: int, thing: str, things: str = "") -> str:
    """`1 splice`, `6 splices`."""
    return f"{number} {thing if number == 1 else things or thing + 's'}"
