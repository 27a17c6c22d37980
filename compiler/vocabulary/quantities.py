"""Shapes of quantities: numbers with units, tolerances and intervals, places, angles.

They come out in SI (temperatures in degC, angles in degrees, gauges as their number).
"""

from __future__ import annotations

from typing import NamedTuple

from compiler.model.quantities import Given
from compiler.vocabulary.cursor import Cursor
from compiler.vocabulary.names import did_you_mean
from compiler.vocabulary.units import SPOKEN, UNITS, Unit, ask_pint, meant, units_of
from grammar.findings import Edit, Span
from grammar.tree import Group

_NUMERIC = frozenset(("NUMBER",))
LARGEST = 1e12
"""No number of a show is larger; beyond it, sums would lose their meaning."""


def _number(cursor: Cursor) -> float | None:
    """The next number; one that nobody can mean is a finding."""
    start = cursor.at
    span = cursor.here()
    text = str(cursor.take())
    if decimal_comma(cursor):
        cursor.take()
        fraction = str(cursor.take())
        span = cursor.span_from(start)
        if len(fraction) == 3:
            hint = f"Write `{text}.{fraction}` if the comma is a decimal one, or `{text}{fraction}` if it parts the thousands."
            cursor.report("bad-number", f"`{text},{fraction}` has a comma", span, hint)
        else:
            mend = f"{text}.{fraction}"
            cursor.report(
                "bad-number",
                f"`{text},{fraction}` has a decimal comma",
                span,
                f"Write `{mend}`.",
                edit=Edit(span, mend),
            )
        return None
    number = float(text)
    if -LARGEST <= number <= LARGEST:
        return number
    cursor.report("bad-number", "this number is too large", span, "Check its digits.")
    return None


def decimal_comma(cursor: Cursor) -> bool:
    """True for `2,5`: a comma without spaces between two numbers."""
    one, comma, other = cursor.items[cursor.at - 1], cursor.peek(), cursor.peek(1)
    return (
        comma is not None and other is not None and comma.type == "COMMA" and other.type == "NUMBER"
        and str(comma) == "," and comma.start_pos == one.end_pos and other.start_pos == comma.end_pos
        and str(other).isdecimal()
    )  # fmt: skip


class Quantity(NamedTuple):
    """A number with a unit of one dimension; with `spread` also a tolerance or an interval.

    Gives a `Given` if `spread`, else a float; SI, degC or degrees. `least` and `most` bound what
    is plausible; outside them is a finding and no value.
    """

    dimension: str
    spread: bool = False
    least: float | None = None
    most: float | None = None
    example: str = ""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A number starts a quantity."""
        return cursor.kind(ahead) in _NUMERIC

    def expects(self) -> str:
        """``a length, as in `48 m```."""
        spoken, example = SPOKEN[self.dimension]
        return f"{spoken}, as in `{self.example or example}`"

    def decode(self, cursor: Cursor) -> Given | float | None:
        """Number, unit, and the spread if one follows."""
        start = cursor.at
        given = _given(cursor, self.dimension)
        if given is None:
            return None
        span = cursor.span_from(start)
        if not self.spread and not given.low == given.nominal == given.high:
            cursor.report(
                "unexpected-value", "one value is due here, not an interval", span, f"Write {self.expects()}."
            )
            return None
        if not _plausible(cursor, self, given, span):
            return None
        return given if self.spread else given.nominal


def _plausible(cursor: Cursor, shape: Quantity, given: Given, span: Span) -> bool:
    least, most = shape.least, shape.most
    unit = next((n for n in units_of(shape.dimension) if UNITS[n].factor == 1.0), "")
    if least is not None and given.low < least:
        bound, side, value = least, "below", given.low
    elif most is not None and given.high > most:
        bound, side, value = most, "above", given.high
    else:
        return True
    cursor.report(
        "out-of-range",
        f"{value:.6g} {unit} is {side} what can be meant here ({bound:.6g} {unit})".replace("  ", " "),
        span,
        f"Check the number and its unit: {shape.expects()}.",
    )
    return False


def _given(cursor: Cursor, dimension: str) -> Given | None:
    """A value, a value with tolerance, or an interval with perhaps its nominal."""
    start = cursor.at
    if cursor.kind(1) == "DOTS":  # `5 .. 30 degC`: the second unit serves both
        low_number = _number(cursor)
        cursor.take()
        high = _value(cursor, dimension)
        if high is None or low_number is None:
            return None
        value, unit = high
        return _interval(cursor, start, low_number * unit.factor + unit.offset, value, dimension)
    first = _value(cursor, dimension)
    if first is None:
        return None
    value, unit = first
    if cursor.kind() == "DOTS":
        cursor.take()
        second = _value(cursor, dimension)
        return None if second is None else _interval(cursor, start, value, second[0], dimension)
    if cursor.kind() == "TOLERANCE":
        cursor.take()
        spread = _tolerance(cursor, value, unit, dimension)
        return None if spread is None else Given(value - spread, value, value + spread)
    return Given(value, value, value)


def _interval(cursor: Cursor, start: int, low: float, high: float, dimension: str) -> Given | None:
    nominal = (low + high) / 2
    if cursor.word() == "nominal":
        cursor.take()
        stated = _value(cursor, dimension)
        if stated is None:
            return None
        nominal = stated[0]
    span = cursor.span_from(start)
    if low > high:
        cursor.report(
            "empty-range", "this interval runs backwards, so it holds no value", span, "Write the smaller end first."
        )
        return None
    if not low <= nominal <= high:
        cursor.report(
            "out-of-range",
            "the nominal value lies outside its interval",
            span,
            "Give a nominal value between the two ends.",
        )
        return None
    return Given(low, nominal, high)


def _tolerance(cursor: Cursor, value: float, unit: Unit, dimension: str) -> float | None:
    """The half width of a tolerance: `0.2`, `0.2 ohm`, `10 %`."""
    start = cursor.at
    if cursor.kind() != "NUMBER":
        cursor.report("missing-value", "a tolerance is due here", cursor.here(), "Write `± 0.2` or `± 10 %`.")
        return None
    if cursor.kind(1) == "PERCENT" and str(cursor.peek(1)) == "%":
        number = _number(cursor)
        cursor.take()
        if number is None:
            return None
        spread = abs(value) * number / 100
    elif (word := cursor.word(1)) and (word in UNITS or not cursor.is_clause_word(word)):
        stated = _value(cursor, "temperature difference" if dimension == "temperature" else dimension)
        if stated is None:
            return None
        spread = stated[0]
    else:
        bare = _number(cursor)
        if bare is None:
            return None
        spread = bare * unit.factor
    if spread < 0:
        cursor.report(
            "out-of-range",
            "a tolerance cannot be negative",
            cursor.span_from(start),
            "Write its size; both sides are meant.",
        )
        return None
    return spread


def _value(cursor: Cursor, dimension: str) -> tuple[float, Unit] | None:
    """One number with its unit, in SI; and the unit."""
    start = cursor.at
    if cursor.kind() != "NUMBER":
        spoken, example = SPOKEN[dimension]
        cursor.report("missing-value", f"{spoken} is due here", cursor.here(), f"Write it as `{example}`.")
        return None
    number = _number(cursor)
    unit = _unit(cursor, start, dimension)
    if unit is None or number is None:
        return None
    return number * unit.factor + unit.offset, unit


def _unit(cursor: Cursor, start: int, dimension: str) -> Unit | None:
    """The unit after a number, with `per …` where the dimension has it; reports what is wrong."""
    item = cursor.peek()
    word = str(item) if item is not None and item.type in ("NAME", "PERCENT") else ""
    unit = UNITS.get(word)
    if unit is None and (not word or word == "per" or cursor.is_clause_word(word)):
        return _no_unit(cursor, start, dimension)
    span = cursor.here()
    cursor.take()
    if unit is None:
        return _foreign_unit(cursor, word, span, dimension)
    if cursor.word() == "per":
        unit = _per(cursor, unit)
        if unit is None:
            return None
    if unit.dimension != dimension:
        _wrong_dimension(cursor, start, unit.dimension, dimension)
        return None
    return unit


def _no_unit(cursor: Cursor, start: int, dimension: str) -> Unit | None:
    number = str(cursor.items[cursor.at - 1])
    if dimension == "per temperature" and cursor.word() == "per":
        cursor.take()
        if cursor.word() == "K":
            cursor.take()
            return UNITS["1/K"]
    units = units_of(dimension)
    spoken, _ = SPOKEN[dimension]
    choices = ", ".join(f"`{number} {unit}`" for unit in units[:4] if unit.isascii())
    cursor.report(
        "missing-unit", f"{number} has no unit; {spoken} is due here", cursor.span_from(start), f"Say which: {choices}."
    )
    return None


def _foreign_unit(cursor: Cursor, word: str, span: Span, dimension: str) -> Unit | None:
    better = meant(word)
    known = units_of(dimension)
    if not better:
        asked = ask_pint(word)
        if asked is not None and asked.dimension == dimension:
            return asked
    hint = f"Write `{better}`." if better else did_you_mean(word, known)
    spoken, example = SPOKEN[dimension]
    cursor.report(
        "unknown-unit",
        f"`{word}` is not a unit that is known here",
        span,
        hint or f"{spoken.capitalize()} is due here, as in `{example}`.",
        edit=Edit(span, better) if better else None,
    )
    return None


def _per(cursor: Cursor, unit: Unit) -> Unit | None:
    """`6.4 ohm per 1000 ft`, `26 ohm per km`: the unit of the quotient."""
    cursor.take()
    start = cursor.at
    count = float(str(cursor.take())) if cursor.kind() == "NUMBER" else 1.0
    word = cursor.word()
    under = UNITS.get(word)
    if under is None or count <= 0:
        cursor.report("unknown-unit", "what it is per is not clear", cursor.here(), "Write `per km` or `per 1000 ft`.")
        return None
    cursor.take()
    name = {("resistance", "length"): "resistance per length"}.get((unit.dimension, under.dimension))
    if name is None:
        cursor.report(
            "wrong-dimension",
            f"{unit.dimension} per {under.dimension} has no meaning here",
            cursor.span_from(start),
            "Write `26 ohm per km`.",
        )
        return None
    return Unit(name, unit.factor / (count * under.factor))


def _wrong_dimension(cursor: Cursor, start: int, found: str, wanted: str) -> None:
    spoken, example = SPOKEN[wanted]
    was, _ = SPOKEN.get(found, (f"a {found}", ""))
    cursor.report(
        "wrong-dimension",
        f"this is {was}, but {spoken} is due here",
        cursor.span_from(start),
        f"Write it as `{example}`.",
    )


class Number(NamedTuple):
    """A number that may carry a per cent sign; bare otherwise (ratios, factors)."""

    least: float = 0.0
    most: float = 1000.0

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A number starts it."""
        return cursor.kind(ahead) == "NUMBER"

    def expects(self) -> str:
        """What a person calls it."""
        return "a number or a share, as in `1.5` or `10 %`"

    def decode(self, cursor: Cursor) -> float | None:
        """The number; `10 %` is 0.1."""
        start = cursor.at
        number = _number(cursor)
        if cursor.kind() == "PERCENT":
            cursor.take()
            number = None if number is None else number / 100
        if number is None or self.least <= number <= self.most:
            return number
        cursor.report(
            "out-of-range",
            f"{number:g} is outside {self.least:g} to {self.most:g}",
            cursor.span_from(start),
            "Check the number.",
        )
        return None


class Point(NamedTuple):
    """Coordinates with commas: `-18 m, 12 m` or `-18 m, 12 m, 14 m`. Gives three floats, metres."""

    fewest: int = 2

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A number."""
        return cursor.kind(ahead) == "NUMBER"

    def expects(self) -> str:
        """What a person calls it."""
        return "a place, as in `-18 m, 12 m, 14 m` (east, north, up)"

    def decode(self, cursor: Cursor) -> tuple[float, float, float] | None:
        """Two or three lengths."""
        start = cursor.at
        values: list[float] = []
        length = Quantity("length", least=-100_000.0, most=100_000.0)
        while True:
            value = length.decode(cursor)
            if value is None:
                _skip_list(cursor)
                return None
            values.append(float(value))  # type: ignore[arg-type]  # no spread: a float
            if cursor.kind() != "COMMA" or cursor.kind(1) != "NUMBER":
                break
            cursor.take()
        if not self.fewest <= len(values) <= 3:
            cursor.report(
                "unexpected-value",
                f"{len(values)} coordinates are given",
                cursor.span_from(start),
                f"Write {self.expects()}; a decimal point is a dot, not a comma.",
            )
            return None
        values += [0.0] * (3 - len(values))
        return values[0], values[1], values[2]


class PointList:
    """Points in parentheses with commas: `(-90 m, -110 m), (90 m, -110 m)`. Gives a tuple of triples."""

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A group."""
        return cursor.kind(ahead) == "GROUP"

    def expects(self) -> str:
        """What a person calls it."""
        return "points, as in `(-90 m, -110 m), (90 m, -110 m)`"

    def decode(self, cursor: Cursor) -> tuple[tuple[float, float, float], ...] | None:
        """Two points or more."""
        start = cursor.at
        points: list[tuple[float, float, float]] = []
        while cursor.kind() == "GROUP":
            group = cursor.take()
            assert isinstance(group, Group)
            inner = Cursor(cursor.file, group.items, cursor.findings, statement=cursor.statement)
            point = Point().decode(inner) if inner.items else None
            if point is None:
                return None
            points.append(point)
            if cursor.kind() == "COMMA" and cursor.kind(1) == "GROUP":
                cursor.take()
        if len(points) >= 2:
            return tuple(points)
        cursor.report(
            "missing-value", "a line needs two points or more", cursor.span_from(start), f"Write {self.expects()}."
        )
        return None


def _skip_list(cursor: Cursor) -> None:
    """Past the rest of a list with commas, so that one slip is one finding."""
    while cursor.kind() == "COMMA":
        cursor.take()
        while cursor.kind() in ("NUMBER", "PERCENT") or cursor.next_is_unit():
            cursor.take()


class Spread(NamedTuple):
    """From one angle to another: `5 deg` or `-20 .. 20 deg`, either way round. Gives (from, to)."""

    dimension: str = "angle"
    most: float = 180.0

    def starts(self, cursor: Cursor, ahead: int = 0) -> bool:
        """A number."""
        return cursor.kind(ahead) == "NUMBER"

    def expects(self) -> str:
        """What a person calls it."""
        return "an angle, as in `5 deg` or `-20 .. 20 deg`"

    def decode(self, cursor: Cursor) -> tuple[float, float] | None:
        """Both ends."""
        start = cursor.at
        ends = self._ends(cursor)
        if ends is None or max(abs(ends[0]), abs(ends[1])) <= self.most:
            return ends
        cursor.report("out-of-range", f"this is beyond {self.most:g} deg", cursor.span_from(start), "Check the number.")
        return None

    def _ends(self, cursor: Cursor) -> tuple[float, float] | None:
        first: float | None
        if cursor.kind(1) == "DOTS":
            first = _number(cursor)
        else:
            value = _value(cursor, self.dimension)
            first = None if value is None else value[0]
        if first is None or cursor.kind() != "DOTS":
            return None if first is None else (first, first)
        cursor.take()
        last = _value(cursor, self.dimension)
        return None if last is None else (first, last[0])
