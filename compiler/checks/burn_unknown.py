"""Everything that could burn into a hold states how long it burns.

Protects from
    A hold that reads as kept because nobody said how long the gerbs burn.

How it is computed
    Effects without `burn` that a cue of show time fires before the end of the last hold. Told once,
    at the hold that follows, with all of their names.

Limit and source
    No value, no number. The maker's label states the burn time.

Breaks it
    hold Ferry from 1:00 to 2:00 because "the ferry passes"
    effect Mist { kind fountain; match generic-match }
    cue 1 at 0:10.0 Mist at Q1

Keeps it
    hold Ferry from 1:00 to 2:00 because "the ferry passes"
    effect Mist { kind fountain; match generic-match; burn 30 s }
    cue 1 at 0:10.0 Mist at Q1
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.burns import burns
from compiler.checks.rule import rule
from compiler.checks.words import in_order, names
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    if not solved.model.holds:
        return
    last_s = max(hold.to_s for hold in solved.model.holds)
    unknown = [burn for burn in burns(solved) if burn.effect.burn_s is None and burn.from_s < last_s]
    if not unknown:
        return
    effects = in_order({burn.effect.name for burn in unknown})
    hold = min((hold for hold in solved.model.holds if hold.to_s > unknown[0].from_s), key=lambda hold: hold.from_s)
    verb = "states" if len(effects) == 1 else "state"
    yield Finding(
        "burn-unknown",
        f"{names(effects)} {verb} no burn time: whether the hold `{hold.name}` is kept is not known",
        at=f"hold:{hold.name}",
        subject=f"hold {hold.name}",
        values={"hold": hold.name, "effects": effects, "cues": sorted({burn.cue.number for burn in unknown})},
        detail="Without it they count as gone out the moment they are seen.",
        hint=f"Write the time on the maker's label, as in `burn 30 s`, in {names([f'effect {one}' for one in effects])}.",
        related=(Related(f"cue:{unknown[0].cue.number}", "the first that is fired"),),
    )


RULE = rule("burn-unknown", "warning", __doc__, _check)
