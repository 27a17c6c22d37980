"""Clean shows as text, in plots that share nothing, so that a mistake planted in one cannot touch another.

A `Draft` is a show as `Line`s that know nothing of their numbers until the text is made; a `Plot` is
the part of it that one mistake may spoil: its own places, supply, rail, devices, circuit and minute.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

MAIN = "made.show"


@dataclass(eq=False)
class Line:
    """A statement, perhaps of several lines of text. Characters from U+DC80 up stand for raw bytes."""

    text: str

    def swap(self, old: str, new: str) -> Line:
        """Replace the one place where `old` stands."""
        assert self.text.count(old) == 1, (old, self.text)
        self.text = self.text.replace(old, new)
        return self


class Expected(NamedTuple):
    """A finding that a mistake must give: its rule, and the line of text (from 0) within a `Line`."""

    rule: str
    line: Line
    down: int = 0


@dataclass
class Plot:
    """A clean corner of the show, spoiled by at most one mistake. `k` is in all of its names."""

    k: int
    draft: Draft
    rng: random.Random
    places: Line = field(init=False)
    supply: Line = field(init=False)
    rail: Line = field(init=False)
    gerbs: Line = field(init=False)
    circuit: Line = field(init=False)
    fire: Line = field(init=False)
    comet: Line = field(init=False)
    mine: Line = field(init=False)
    shell: Line = field(init=False)
    rack: Line = field(init=False)

    def __post_init__(self) -> None:
        """Write the clean lines."""
        k = self.k
        self.places = self.add(f"position Yard{k}-1..Yard{k}-4 from {k * 200} m, {self.rng.choice(('0 m', '20 ft'))} every 10 m")
        self.supply = self.add(f"supply Pack{k} of lead-acid-24 at Yard{k}-1")
        self.rail = self.add(f"rail Rail{k} of dc-16 at Yard{k}-1 {{ feed Pack{k} through 5 m of trunk-4; serves Yard{k}-1..Yard{k}-4; spare 2 }}")
        self.gerbs = self.add(f"device Gerb{k}-1..Gerb{k}-2 of our-gerb at Yard{k}-2")
        lead = self.rng.choice(("25 m of zip-18", "80 ft of zip-16"))
        self.circuit = self.add(f"circuit Row{k} on Rail{k}.1 {{ lead {lead}; series Gerb{k}-1..Gerb{k}-2 spaced 2 m of zip-18 }}")
        self.fire = self.cue(1, 1.0, f'Row{k} "Two gerbs"')
        self.comet = self.cue(2, 2.0, f'our-comet at Yard{k}-3 "Comet"')
        self.mine = self.add(f"cue {k}03 lit at {self.at(4.0)} our-mine at Yard{k}-2 on Rail{k}.5")
        self.shell = self.cue(4, 11.0, f"our-shell at Yard{k}-4")
        self.rack = self.add(f"rack Rack{k} of 5 tubes 75 mm at Yard{k}-4")

    def add(self, text: str) -> Line:
        """A further statement of this plot."""
        line = Line(text)
        self.draft.lines.append(line)
        return line

    def at(self, seconds: float) -> str:
        """Show time within this plot's minute."""
        return f"{self.k}:{seconds:04.1f}"

    def cue(self, number: int, seconds: float, what: str) -> Line:
        """A cue of this plot, seen so many seconds into its minute."""
        return self.add(f"cue {self.k}{number:02d} at {self.at(seconds)} {what}")

    def name(self, word: str, number: int | None = None) -> str:
        """A name that no other plot has."""
        return f"{word}{self.k}" + ("" if number is None else f"-{number}")

    def part(self, head: str, **properties: str) -> Line:
        """A part with its properties, one on each line; `_` stands for `-` in their words."""
        rows = [f"    {word.replace('_', '-')} {value}".rstrip() for word, value in properties.items()]
        return self.add("\n".join([f"{head} {{", *rows, "}"]))


HEAD = """show "A clean show" {
    revision 1
    zero     2027-06-19 22:00:00
    ambient  5 .. 30 degC
}
defaults { lead zip-18 }"""

MATCH = {
    "bridge": "1.6 ohm +- 0.2 ohm", "legs": "3 m of leg-24", "no_fire": "0.2 A", "alone": "0.6 A", "series": "1 A",
    "parallel": "1 A", "impulse": "0.8 .. 3 A2ms", "function": "10 ms", "group": '"ours, group 1"',
    "source": '"invented for tests"', "confidence": '"invented"',
}  # fmt: skip
MODULE = {
    "channels": "16", "driver": "1.5 ohm +- 10 %", "drop": "0.2 V", "channel_limit": "25 A", "rail_limit": "90 A", "at_once": "6",
    "pulse": "100 ms +- 5 ms", "recovery": "20 ms", "tick": "10 ms", "jitter": "2 ms", "circuit": "0.5 .. 60 ohm",
    "test_current": "8 mA", "test_fault": "20 mA", "reach": "120 m", "source": '"invented for tests"', "confidence": '"invented"',
}  # fmt: skip
BATTERY = {
    "voltage": "21 .. 29.4 V nominal 25.2 V", "inner": "0.02 .. 0.1 ohm", "limit": "250 A", "fuse": "125 A",
    "source": '"invented for tests"', "confidence": '"invented"',
}  # fmt: skip
EFFECTS = (
    "effect our-comet { kind comet; match our-match; burn 2 s }",
    "effect our-mine { kind mine; match our-match; prefire 0 s; burn 1.5 s }",
    "effect our-gerb { kind gerb; match our-match; burn 30 s }",
    "effect our-shell { kind shell; match our-match; prefire 2.7 s +- 0.3 s; burn 1.5 s; calibre 75 mm }",
)


@dataclass
class Draft:
    """A show on its way to text. Other files it uses, by name, stand in `files`."""

    rng: random.Random
    lines: list[Line] = field(default_factory=list)
    files: dict[str, str] = field(default_factory=dict)
    head: Line = field(init=False)

    def __post_init__(self) -> None:
        """Write what every plot uses."""
        self.head = Line(HEAD)
        rows = [f"    {word.replace('_', '-')} {value}" for word, value in MATCH.items()]
        self.lines = [self.head, Line("\n".join(["match our-match {", *rows, "}"])), *map(Line, EFFECTS)]

    def plot(self, k: int) -> Plot:
        """A further plot, clean as it stands."""
        return Plot(k, self, self.rng)

    def shuffled(self) -> None:
        """Order of writing means nothing; some comments and empty lines come between."""
        self.rng.shuffle(self.lines)

    def text(self) -> tuple[bytes, dict[Line, int]]:
        """The bytes of the main file, and the line number (from 1) at which each `Line` starts."""
        starts: dict[Line, int] = {}
        rows: list[str] = []
        for line in self.lines:
            if self.rng.random() < 0.1:
                rows.extend(self.rng.choice((("",), ("# a remark of the crew",), ("", "# --- next ---"))))
            starts[line] = len(rows) + 1
            rows.extend(line.text.split("\n"))
        return ("\n".join(rows) + "\n").encode("utf-8", "surrogateescape"), starts


def numbered(expected: list[Expected], starts: dict[Line, int]) -> Iterator[tuple[str, str, int]]:
    """Expected findings as (rule, file, line)."""
    for one in expected:
        yield one.rule, MAIN, starts[one.line] + one.down
