"""What is fired by hand has no show time: holds and arming times are kept by the operator.

Protects from
    Taking a clean check for more than it is: nobody knows when a press comes, so no press was checked
    against a hold or against the arming of a zone.

How it is computed
    A show with a `hold`, or with a zone that is `armed from` a time, and with cues `by hand`. Told
    once; a note, because nothing is to be mended.

Limit and source
    None.

Breaks it
    hold Ferry from 1:00 to 2:00 because "the ferry passes"
    cue 1 by hand comet-gold at Q1

Keeps it
    hold Ferry from 1:00 to 2:00 because "the ferry passes"
    cue 1 at 0:10.0 comet-gold at Q1
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import in_order, names
from compiler.model.solved import Solved
from grammar.findings import Finding


def _check(solved: Solved) -> Iterable[Finding]:
    model = solved.model
    kept = [f"hold {hold.name}" for hold in model.holds]
    kept += [f"the arming of zone {zone.name}" for zone in model.zones.values() if zone.armed_s is not None]
    presses = in_order({cue.press for cue in solved.schedule.cues if cue.press is not None})
    if not kept or not presses:
        return
    kept = in_order(kept)
    what = "press" if len(presses) == 1 else "presses"
    yield Finding(
        "press-unchecked",
        f"{names(kept)} {'is' if len(kept) == 1 else 'are'} not checked against {what} {names(presses)}",
        at=f"cue:{presses[0]}",
        subject=f"cue {presses[0]}",
        values={"presses": presses, "kept": kept},
        detail="When a press comes is not known. What counts from it is the operator's to keep outside.",
        hint=f'Say it to the operator on the sheet: `note "No press while a hold lasts" for cue {presses[0]}`.',
    )


RULE = rule("press-unchecked", "note", __doc__, _check)
