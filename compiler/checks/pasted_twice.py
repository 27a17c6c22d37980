"""No line stands twice in the show.

Protects from
    A line pasted twice: two shells where the design has one, a channel and a match wasted, and a load
    nobody planned.

How it is computed
    Two devices of the same effect at the same place with the same tilt, fired at the same time by
    two different cues; what counts from another press is at another time. Several at once in one cue
    (`count 3`) are meant. Reported at the later line.

Limit and source
    Common practice. Two of a kind in one place at one moment are written `count 2`, or differ in
    tilt.

Breaks it
    cue 1 at 0:10.0 comet-gold at Q1
    cue 2 at 0:10.0 comet-gold at Q1

Keeps it
    cue 1 at 0:10.0 comet-gold at Q1
    cue 2 at 0:10.0 comet-gold at Q2
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import devices_of
from compiler.checks.rule import rule
from compiler.checks.words import moment, names
from compiler.model.solved import Solved
from compiler.model.types import Device
from grammar.findings import Finding, Related

What = tuple[str, str, float | None, str | None, float]  # effect, place, tilt, press, firing time


def _pairs(solved: Solved) -> dict[tuple[str, str], list[tuple[What, Device]]]:
    """(earlier cue, later cue): what both of them fire."""
    first: dict[What, tuple[str, str]] = {}
    found: dict[tuple[str, str], list[tuple[What, Device]]] = {}
    for cue in solved.schedule.cues:
        for device in devices_of(solved, cue):
            what = device.effect, device.position, device.tilt_deg, cue.press, cue.fired_s
            number, before = first.setdefault(what, (cue.number, device.name))
            if number != cue.number and before != device.name:
                found.setdefault((number, cue.number), []).append((what, device))
    return found


def _check(solved: Solved) -> Iterable[Finding]:
    for (first, second), found in _pairs(solved).items():
        effect, place, _, press, fired_s = found[0][0]
        more = f" and {len(found) - 1} more" if len(found) > 1 else ""
        yield Finding(
            "pasted-twice",
            f"cue {second} fires {effect} at {place}{more}, as cue {first} does at the same time",
            at=f"cue:{second}",
            subject=f"cue {second}",
            values={
                "effect": effect,
                "place": place,
                "fired_s": fired_s,
                "cues": [first, second],
                "devices": [device.name for _, device in found],
            },
            working=f"both lit {moment(fired_s, press)}",
            detail=f"Made by it: {names([device.name for _, device in found])}.",
            hint=f"Take cue {second} out, or write `count 2 in parallel` in cue {first} where two are meant.",
            related=(Related(f"cue:{first}", "the same here"),),
        )


RULE = rule("pasted-twice", "warning", __doc__, _check, waivable=True)
