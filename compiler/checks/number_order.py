"""Numbered cues follow each other in time.

Protects from
    A cue that was moved and kept its number: whoever calls the numbers, or looks for where the show
    stands, is led astray.

How it is computed
    Cues whose number is one (`12`; parts `12.1` count as `12`, cues of scripts without `numbered` have
    none), in order of number, by when their first part is seen and fired. Each that is both seen and
    fired before the one before it is counted: numbers may run with either. Told once for the show, at
    the first. Cues that count from a press are left out: their show time is not known.

Limit and source
    Common practice: numbers run with the show. The same time passes.

Breaks it
    cue 1 at 0:20.0 comet-gold at Q1
    cue 2 at 0:10.0 comet-gold at Q2

Keeps it
    cue 1 at 0:10.0 comet-gold at Q1
    cue 2 at 0:20.0 comet-gold at Q2
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from compiler.checks.lookups import stem
from compiler.checks.rule import rule
from compiler.checks.words import clock, many
from compiler.model.solved import FiredCue, Solved
from grammar.findings import Finding, Related


def _seen_s(cue: FiredCue) -> float:
    """When it is seen; the schedule gives it for every cue."""
    return cue.fired_s + cue.prefire_s.nominal if cue.seen_s is None else cue.seen_s


def _numbered(solved: Solved) -> list[FiredCue]:
    """The first-seen part of every numbered cue of show time, in order of number."""
    found: dict[int, FiredCue] = {}
    for cue in solved.schedule.cues:
        number = stem(cue.number)
        if cue.press is None and number.isdecimal():
            first = found.setdefault(int(number), cue)
            if _seen_s(cue) < _seen_s(first):
                found[int(number)] = cue
    return [found[number] for number in sorted(found)]


def _check(solved: Solved) -> Iterable[Finding]:
    pairs = [
        (one, next_)
        for one, next_ in pairwise(_numbered(solved))
        if _seen_s(next_) < _seen_s(one) and next_.fired_s < one.fired_s
    ]
    if not pairs:
        return
    one, other = pairs[0]
    first, second = stem(one.number), stem(other.number)
    others = len(pairs) - 1
    more = f"; {many(others, 'other')} {'is' if others == 1 else 'are'} out of order too" if others else ""
    yield Finding(
        "number-order",
        f"cue {second} is seen before cue {first}{more}",
        at=f"cue:{other.number}",
        subject=f"cue {second}",
        values={
            "cues": [first, second],
            "seen_s": [_seen_s(one), _seen_s(other)],
            "out_of_order": [stem(late.number) for _, late in pairs],
        },
        working=f"cue {first} seen {clock(_seen_s(one))}, cue {second} seen {clock(_seen_s(other))}",
        detail="Numbers are called, and looked for on the sheets, in the order of the show.",
        hint=f"Correct the time of one of them, or give cue {second} a number below {first}.",
        related=(Related(f"cue:{one.number}", "seen after it"),),
    )


RULE = rule("number-order", "warning", __doc__, _check, waivable=True)
