"""Generated shows: places, power, parts, wired circuits, cues, scripts with chases and patterns. Nothing in them is broken.

A `Made` holds its statements apart, so that a law can shuffle them, and the same show with its
patterns written out by this file, which knows nothing of how the compiler does it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from hypothesis import strategies as st

EFFECTS = ("mine-red", "comet-gold", "shell-75", "shell-100-blue", "fan-green", "our-comet", "horn")
STEPS = ("150 ms", "0.2 s", "400 ms", "1 s")
LENGTHS = ("12 m", "60 ft", "24.5 m", "31 yd", "1800 cm")
CABLES = ("zip-18", "zip-16", "own-18")
HEAD = """show "Made" {
    revision 3
    zero     2027-06-19 22:15:00
    ambient  5 .. 25 degC
}"""
PARTS = (
    "cable own-18 { gauge 18 awg; stranded; limit 5 A }",
    "effect our-comet like comet-gold { burn 2 s; calibre 1.75 in }",
    "effect horn { kind chain; shells 3 of shell-75-blue; delay 700 ms }",
    "defaults { lead zip-18; slack 2 m plus 10 % }",
    "role Rigger",
    "weather { wind 20 mph; wind 15 mph for calibre 100 mm and above }",
    "music Waltz { timecode 25; starts 01:00:00:00; at 6:00; delay 40 ms }",
)


class Made(NamedTuple):
    """A show as statements, and the same show without patterns."""

    statements: tuple[str, ...]
    written_out: tuple[str, ...]
    places: tuple[str, ...]
    cues: tuple[str, ...]
    plays: int

    @property
    def text(self) -> str:
        """The show as one text."""
        return joined(self.statements)


def joined(statements: tuple[str, ...] | list[str]) -> str:
    """Statements as a text."""
    return "\n".join(statements) + "\n"


@dataclass
class Making:
    """What a show is made of so far."""

    draw: st.DrawFn
    both: list[str] = field(default_factory=lambda: [HEAD, *PARTS])
    short: list[str] = field(default_factory=list)
    long: list[str] = field(default_factory=list)
    cues: list[str] = field(default_factory=list)
    plays: int = 0

    def pick(self, *some: str) -> str:
        """One of them."""
        return self.draw(st.sampled_from(some))

    def number(self, low: int, high: int) -> int:
        """A whole number, both ends included."""
        return self.draw(st.integers(low, high))

    def chance(self) -> bool:
        """Yes or no."""
        return self.draw(st.booleans())


def _site(make: Making) -> tuple[str, ...]:
    count = make.number(3, 7)
    step = make.pick("8 m", "25 ft", "7.5 m, 1 m")
    make.both.append(f"position Q1..Q{count} from -20 m, 0 m every {step}")
    make.both.append(f"position Pier at {make.pick('0 m, 20 m', '10 ft, 60 ft, 12 ft')}")
    return tuple(f"Q{n}" for n in range(1, count + 1))


def _power(make: Making, places: tuple[str, ...]) -> None:
    """Two rails on two supplies, so that `twice` finds both."""
    make.both.append(f"supply West, East of lead-acid-24 at {places[0]}, {places[-1]}")
    for rail, supply, place in (("A", "West", places[0]), ("B", "East", places[-1])):
        spare = f"; spare {make.number(2, 6)}" if make.chance() else ""
        prefers = f"; prefers {make.pick(*places)}" if make.chance() else ""
        make.both.append(f"rail {rail} of dc-32 at {place} {{ feed {supply} through 5 m of trunk-4{spare}{prefers} }}")
    if make.chance():
        make.both.append("zone Field { rails A, B; role Rigger; armed from clock 21:40 }")
    if make.chance():
        make.both.append(f"rack Big of {make.number(4, 12)} tubes 100 mm at {make.pick(*places)}")


def _wired(make: Making, places: tuple[str, ...]) -> None:
    """A circuit wired by hand, and the cue that fires it."""
    rows = make.number(0, 2)
    for row in range(1, rows + 1):
        names = [f"Gerb-{row}-{n}" for n in range(1, 5)]
        make.both.append(f"device Gerb-{row}-1..Gerb-{row}-4 of silver-gerb at {make.pick(*places)}")
        wiring = make.pick(
            "series {0}, {1}, {2}, {3} spaced 2 m of zip-18",
            "parallel {0}, {1}, {2}, {3}",
            "parallel {{ series {0}, {1}; series {2}, {3} }}",
            "series spaced 6 ft of zip-18 {{ parallel {0}, {1}; parallel {2}, {3} }}",
        ).format(*names)
        on = f" on A.{row}" if make.chance() else ""
        make.both.append(f"circuit Row-{row}{on} {{ lead {make.pick(*LENGTHS)} of {make.pick(*CABLES)}; {wiring} }}")
        make.both.append(f'cue {row} {make.pick("at", "lit at")} 0:{10 * row:02d}.0 Row-{row} "Row {row}"')
        make.cues.append(str(row))


def _single_cues(make: Making, places: tuple[str, ...]) -> None:
    times = make.draw(st.lists(st.integers(60, 240), min_size=0, max_size=4, unique=True))
    for number, second in enumerate(times, 10):
        when = make.pick(
            f"at {second // 60}:{second % 60:02d}.5", f"lit at {second // 60}:{second % 60:02d}.25",
            f"at clock 22:{15 + second // 60:02d}:{second % 60:02d}", f"at Waltz 01:00:{second % 60:02d}:12",
            "by hand" if number == 10 else f"at {number} s after 10",
        )  # fmt: skip
        make.both.append(f"cue {number} {when} {make.pick(*EFFECTS)} at {make.pick(*places)}{_tail(make)}")
        make.cues.append(str(number))


def _tail(make: Making) -> str:
    return make.pick("", "", "", " tilt -10 .. 10 deg", " heading 90 deg", ' "Text, with # and ; in it"', " twice",
                     " count 2 in series", " count 2 in parallel", " count 2 on own channels", f" lead 20 m of {CABLES[1]}")  # fmt: skip


def _line(make: Making, places: tuple[str, ...]) -> str:
    """What a line of a script says after its time."""
    what = make.pick(*EFFECTS)
    if make.chance():
        return f"{what} at {make.pick(*places)}{_tail(make)}"
    span = make.pick(f"{places[0]}..{places[-1]}", f"{places[-1]}..{places[0]}", f"{places[0]}, {places[2]}")
    more = make.pick("", f" every {make.pick(*STEPS)}", f" every {make.pick(*STEPS)} and back",
                     f" with {make.pick(*EFFECTS)} at {make.pick(*places)}")  # fmt: skip
    return f"{what} at {span}{more}"


def offset(tenths: int) -> str:
    """An offset of so many tenths of a second."""
    return f"+{tenths // 600}:{tenths // 10 % 60:02d}.{tenths % 10}"


def _script(make: Making, places: tuple[str, ...], k: int) -> None:
    """A script from its own minute; some of its lines are played from a pattern."""
    patterns = [_pattern(make, places, f"Figure-{k}-{n}") for n in range(make.number(0, 2))]
    short, long = [], []
    for tenths in make.draw(st.lists(st.integers(0, 300), min_size=1, max_size=4, unique=True)):
        if patterns and make.chance():
            one = patterns[make.number(0, len(patterns) - 1)]
            effect, place, step = make.pick(*EFFECTS), make.pick(*places), make.pick(*STEPS)
            short.append(f"{offset(tenths)} play {one.name}({effect}, {place}, {step})")
            long.extend(f"{offset(tenths + by)} {row.format(E=effect, P=place, S=step)}" for by, row in one.rows)
            make.plays += 1
        else:
            row = f"{offset(tenths)} {_line(make, places)}"
            short.append(row)
            long.append(row)
    head = f"script Scene-{k} from {10 + k}:00 numbered {100 * k}"
    for rows, statements in ((short, make.short), (long, make.long)):
        statements.append("\n".join((f"{head} {{", *(f"    {row}" for row in rows), "}")))


class Figure(NamedTuple):
    """A pattern: its rows have {E}, {P} and {S} where an effect, a place and a step go, and start in tenths."""

    name: str
    rows: tuple[tuple[int, str], ...]


def _pattern(make: Making, places: tuple[str, ...], name: str) -> Figure:
    kinds = (
        "{E} at {P}",
        "{E} at {P} twice",
        "mine-red at {P}",
        f"{{E}} at {places[0]}..{places[-1]} every {{S}}",
        "{E} at Pier with comet-gold at {P}",
    )
    rows = tuple(
        (tenths, make.pick(*kinds))
        for tenths in sorted(make.draw(st.lists(st.integers(0, 90), min_size=1, max_size=3, unique=True)))
    )
    lines = (f"    {offset(by)} {row.format(E='Shown', P='Where', S='Gap')}" for by, row in rows)
    make.short.append("\n".join((f"pattern {name}(effect Shown, position Where, time Gap) {{", *lines, "}")))
    return Figure(name, rows)


@st.composite
def shows(draw: st.DrawFn) -> Made:
    """A show of some ten to forty statements."""
    make = Making(draw)
    places = _site(make)
    _power(make, places)
    _wired(make, places)
    _single_cues(make, places)
    for k in range(1, make.number(1, 3) + 1):
        _script(make, places, k)
    make.both.append(f'note "Shunted until read" for {make.pick("A", "B", places[0], "Rigger")}')
    return Made((*make.both, *make.short), (*make.both, *make.long), places, tuple(make.cues), make.plays)
