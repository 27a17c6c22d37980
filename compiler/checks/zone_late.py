"""Every zone is armed before it fires.

Protects from
    Cues that a rail does not fire because nobody has armed it yet; or, worse, a crew that is still
    forward in a zone that fires.

How it is computed
    Firing times of all circuits on the rails of a zone that is `armed from` a time, against that time.
    Told once for a zone, with its first cue. What counts from a press is told by `press-unchecked`.

Limit and source
    The time that the zone states. Fired at that very time passes. Never waived.

Breaks it
    show "Harbour night" { zero 2027-06-19 22:00:00 }
    zone West { rails A; armed from clock 22:05 }
    cue 1 at 0:10.0 comet-gold at Q1        # from rail A, at 22:00:10

Keeps it
    show "Harbour night" { zero 2027-06-19 22:00:00 }
    zone West { rails A; armed from clock 21:40 }
    cue 1 at 0:10.0 comet-gold at Q1
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import clock, in_order, many
from compiler.model.solved import FiredCue, Solved
from compiler.model.types import Zone
from grammar.findings import Finding, Related


def _early(solved: Solved, zone: Zone, armed_s: float) -> list[tuple[FiredCue, str]]:
    """Cues that fire a rail of the zone too early, each with the first such rail, in firing order."""
    found = []
    for cue in solved.schedule.cues:
        if cue.press is None and cue.fired_s < armed_s:
            rails = {solved.addresses[name].rail for name in cue.circuits if name in solved.addresses}
            early = in_order(rails & set(zone.rails))
            if early:
                found.append((cue, early[0]))
    return found


def _check(solved: Solved) -> Iterable[Finding]:
    for zone in solved.model.zones.values():
        early = [] if zone.armed_s is None else _early(solved, zone, zone.armed_s)
        if not early:
            continue
        (cue, rail), armed_s = early[0], zone.armed_s or 0.0
        more = f", {many(len(early), 'cue')} in all" if len(early) > 1 else ""
        yield Finding(
            "zone-late",
            f"zone {zone.name} is armed at show time {clock(armed_s)}, but cue {cue.number} fires its rail {rail} before{more}",
            at=f"zone:{zone.name}",
            role="armed",
            subject=f"zone {zone.name}",
            values={"armed_s": armed_s, "fired_s": cue.fired_s, "cues": [one.number for one, _ in early]},
            working=f"armed {clock(armed_s)}, cue {cue.number} fired {clock(cue.fired_s)}",
            detail="What is not armed does not fire, and before it is armed people may be at the pieces.",
            hint=f"Arm zone {zone.name} earlier, or move cue {cue.number} to another rail or a later time.",
            related=(Related(f"cue:{cue.number}", "fired before"),),
        )


RULE = rule("zone-late", "error", __doc__, _check)
