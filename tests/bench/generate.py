"""Shows of any size with one fixed mix, and plain ledgers of the same number of entries.

The mix: one circuit a cue; one cue in ten has several matches (in turn in series, in parallel, a tapped
line, strings side by side); one in twenty is fired in the same instant as the cue before it; three
supplies; a rail for every 24 cues; lengths in metres and in feet; three fifths of the cues as
statements of their own, the rest in scripts. Everything is clean: no error, no warning. All invented.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from typing import NamedTuple

CUES_A_RAIL = 24  # of 32 channels; the rule set keeps four spare
STEP_S = 0.2  # longer than a pulse and its rest, so that only meant cues meet
FIRST_S = 10.0
BLOCK = 50  # cues of one stretch: 30 statements, then a script of 20
ALONE = 30
SUPPLIES = ("West", "Middle", "East")

# Effects of the built-in catalogue and their nominal prefire in seconds, as stated there.
EFFECTS = (
    ("comet-gold", 0.0), ("mine-red", 0.0), ("shell-75-silver", 2.7), ("fan-green", 0.0),
    ("shell-100-red", 3.2), ("comet-blue", 0.0), ("shell-150-gold", 4.2), ("mine-white", 0.0),
)  # fmt: skip
MODULE = """module field-32 {
    channels 32; driver 1.5 ohm +- 10 %; drop 0.2 V; channel-limit 45 A; rail-limit 110 A; at-once 4
    pulse 100 ms +- 5 ms; recovery 20 ms; tick 10 ms; jitter 2 ms; circuit 0.5 .. 60 ohm
    test-current 8 mA; test-fault 20 mA; reach 400 ft
    source "invented for measuring"; confidence "invented"
}"""
SEVERAL = ("series", "parallel", "ladder", "strings")


class Planned(NamedTuple):
    """One cue to be written: its number from 1, firing time in seconds, and rail from 0."""

    number: int
    fired_s: float
    rail: int


def generate(cues: int, seed: int = 0) -> str:
    """A clean show of so many cues as text; the same numbers give the same text."""
    rng = random.Random(seed)
    rails = -(-cues // CUES_A_RAIL)
    wide = max(2, round(rails**0.5))
    lines = [*_head(cues), *_site(rails, wide), *_power(rails, wide, rng)]
    planned = _planned(cues, rails, rng)
    for start in range(0, cues, BLOCK):
        lines.extend(_block(planned[start : start + BLOCK], wide, rng))
    return "\n".join(lines) + "\n"


def bean(transactions: int, seed: int = 0) -> str:
    """A plain ledger: so many balanced transactions of four lines each."""
    rng = random.Random(seed)
    accounts = [f"Expenses:Crew:Item{number}" for number in range(30)]
    lines = ['option "operating_currency" "EUR"', ""]
    lines.extend(f"2020-01-01 open {name}" for name in (*accounts, "Assets:Bank", "Assets:Cash"))
    for number in range(transactions):
        first, second = rng.sample(accounts, 2)
        one, other = rng.randrange(100, 90_000), rng.randrange(100, 90_000)
        day = f"20{20 + number // 5000 % 60:02d}-{1 + number // 28 % 12:02d}-{1 + number % 28:02d}"
        lines += [
            f'{day} * "Payee {number % 97}" "Entry {number}"',
            f"  {first}  {one / 100:.2f} EUR",
            f"  {second}  {other / 100:.2f} EUR",
            f"  {rng.choice(('Assets:Bank', 'Assets:Cash'))}",
        ]
    return "\n".join(lines) + "\n"


# --- what stands in the field ---------------------------------------------------------------------


def _head(cues: int) -> Iterator[str]:
    yield f"# A show of {cues} cues, made by a program to measure the compiler."
    yield f'show "Made of {cues} cues" {{'
    yield "    revision 1"
    yield "    zero     2027-06-19 22:00:00"
    yield "    ambient  41 .. 86 degF"
    yield "}"
    yield from MODULE.splitlines()
    yield "defaults { lead zip-18; slack 6 ft plus 10 % }"


def _site(rails: int, wide: int) -> Iterator[str]:
    """Places in rows of a square field; one place for each rail."""
    for row in range(-(-rails // wide)):
        count = min(wide, rails - row * wide)
        north = f"{row * 10} m" if row % 2 else f"{row * 10 / 0.3048:.3f} ft"
        if count == 1:
            yield f"position {_place(row * wide, wide)} at 0 m, {north}"
        else:
            yield f"position {_place(row * wide, wide)}..{_place(row * wide + count - 1, wide)} from 0 m, {north} every 10 m"


def _place(rail: int, wide: int) -> str:
    return f"F{rail // wide + 1}-{rail % wide + 1}"


def _power(rails: int, wide: int, rng: random.Random) -> Iterator[str]:
    for index, name in enumerate(SUPPLIES):
        yield f"supply {name} of lead-acid-48 at {_place(index % rails, wide)}"
    for rail in range(rails):
        length = rng.choice(("12 m", "40 ft", "25 m", "100 ft"))
        serves = f"{_place(rail, wide)}, {_place(rail + 1, wide)}" if rail + 1 < rails else _place(rail, wide)
        supply = SUPPLIES[rail * len(SUPPLIES) // rails]
        yield (f"rail R{rail + 1} of field-32 at {_place(rail, wide)} "
               f"{{ feed {supply} through {length} of trunk-6; serves {serves} }}")  # fmt: skip


# --- what is fired ----------------------------------------------------------------------------------


def _planned(cues: int, rails: int, rng: random.Random) -> list[Planned]:
    """Times and rails: one in twenty in the instant of the cue before; rails in random order."""
    order = [rail for rail in range(rails) for _ in range(CUES_A_RAIL)]
    rng.shuffle(order)
    planned: list[Planned] = []
    slot = 0
    for number in range(1, cues + 1):
        slot += number % 20 != 0
        planned.append(Planned(number, round(FIRST_S + slot * STEP_S, 3), order[number - 1]))
    return planned


def _block(planned: list[Planned], wide: int, rng: random.Random) -> Iterator[str]:
    yield ""
    for cue in planned[:ALONE]:
        if cue.number % 10 == 3:
            yield from _several(cue, wide, rng)
        else:
            yield _single(cue, wide, rng)
    if planned[ALONE:]:
        yield from _script(planned[ALONE:], wide, rng)


def _single(cue: Planned, wide: int, rng: random.Random) -> str:
    name, prefire_s = EFFECTS[cue.number % len(EFFECTS)]
    lead = rng.choice(("", "", " lead 22 m of zip-18", " lead 75 ft of zip-16"))
    if cue.number % 7 == 0:
        return f"cue {cue.number} lit at {clock(cue.fired_s)} {name} at {_place(cue.rail, wide)}{lead}"
    return f"cue {cue.number} at {clock(cue.fired_s + prefire_s)} {name} at {_place(cue.rail, wide)}{lead}"


def _script(planned: list[Planned], wide: int, rng: random.Random) -> Iterator[str]:
    """Lines that count from the script's start; several matches on one line are `count 3 in series`."""
    rows = []
    for cue in planned:
        name, prefire_s = EFFECTS[cue.number % len(EFFECTS)]
        extra = ""
        if cue.number % 10 == 3:
            extra = f" count {rng.choice((3, 4))} in {rng.choice(('series', 'parallel'))} lead 60 ft of zip-14"
        rows.append((cue.fired_s + prefire_s, f"{name} at {_place(cue.rail, wide)}{extra}"))
    start, end = int(min(seen for seen, _ in rows)), int(max(seen for seen, _ in rows)) + 1
    first = planned[0].number
    yield f"script Scene{first} from {clock(start)} to {clock(end)} numbered {first} {{"
    for seen, row in rows:
        yield f"    +{clock(seen - start)}  {row}"
    yield "}"


def _several(cue: Planned, wide: int, rng: random.Random) -> Iterator[str]:
    """A circuit of several matches with its devices, and its cue."""
    n, place = cue.number, _place(cue.rail, wide)
    kind = SEVERAL[n // 10 % len(SEVERAL)]
    lead = rng.choice(("18 m of zip-14", "60 ft of zip-14"))
    if kind == "ladder":
        matches = rng.choice((3, 4))
        yield f"falls D{n} of silver-gerb at {place} {{ count {matches * 2} every 1 m; matches {matches} }}"
        wires = f"parallel D{n}.1..{matches} spaced 6 ft of zip-14"
    else:
        count = 6 if kind == "strings" else rng.choice((2, 3, 4))
        yield f"device D{n}-1..D{n}-{count} of gold-gerb at {place}"
        wires = (
            f"parallel {{ series D{n}-1..D{n}-3; series D{n}-4..D{n}-6 }}" if kind == "strings"
            else f"{kind} D{n}-1..D{n}-{count} spaced 2 m of zip-18"
        )  # fmt: skip
    yield f"circuit C{n} {{ lead {lead}; {wires} }}"
    yield f"cue {n} at {clock(cue.fired_s)} C{n}"


def clock(seconds: float) -> str:
    """Show time as the language writes it."""
    total_ms = round(seconds * 1000)
    minutes, rest_ms = divmod(total_ms, 60_000)
    hours, left = divmod(minutes, 60)
    head = f"{hours}:{left:02d}" if hours else f"{left}"
    return f"{head}:{rest_ms // 1000:02d}.{rest_ms % 1000:03d}"
