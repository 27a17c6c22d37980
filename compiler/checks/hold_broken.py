"""Nothing is fired and nothing burns inside a hold.

Protects from
    A shell over the ferry: the hold is agreed with somebody outside the crew, who relies on it.

How it is computed
    Everything lasts from its firing time to firing time + longest prefire + burn; a chain to its last
    burst and that one's burn. A hold reaches from its beginning, itself included, up to its end: what
    has gone out by the beginning and what is lit at the end are outside. What states no burn is told by
    `burn-unknown`; what counts from a press has no show time and is told by `press-unchecked`.

Limit and source
    The hold as the show states it. Never waived: move the cue, or agree on another hold.

Breaks it
    hold Ferry from 0:20 to 0:40 because "the ferry passes"
    cue 1 at 0:25.0 comet-gold at Q1

Keeps it
    hold Ferry from 0:20 to 0:40 because "the ferry passes"
    cue 1 at 0:40.0 comet-gold at Q1
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.burns import Burn, burns
from compiler.checks.lookups import stem
from compiler.checks.rule import rule
from compiler.checks.words import clock, quantity
from compiler.model.solved import Solved
from compiler.model.types import Hold
from grammar.findings import Finding, Related


def _lit_inside(burn: Burn, hold: Hold) -> bool:
    return hold.from_s <= burn.from_s < hold.to_s


def _inside(burn: Burn, hold: Hold) -> bool:
    return _lit_inside(burn, hold) or burn.from_s < hold.from_s < burn.to_s


def _mend(burn: Burn, hold: Hold) -> str:
    """Times to paste, before and after the hold: as seen, which is what most cues state."""
    prefire = burn.effect.prefire_s
    before_s = hold.from_s - (burn.to_s - burn.from_s) + prefire.nominal
    after = f"`at {clock(hold.to_s + prefire.nominal)}` or later"
    if before_s < prefire.nominal:
        return f"Write {after}, or agree on another hold."
    return f"Write `at {clock(before_s)}` or earlier, or {after}; or agree on another hold."


def _told(some: list[Burn], hold: Hold) -> Finding:
    """The worst of one cue: what is lit inside the hold, else what burns longest into it."""
    worst = max(some, key=lambda burn: (_lit_inside(burn, hold), burn.to_s))
    number = worst.cue.number
    what = (
        f"is fired {quantity(worst.from_s - hold.from_s, 's')} into the hold `{hold.name}`"
        if _lit_inside(worst, hold)
        else f"still burns {quantity(min(worst.to_s, hold.to_s) - hold.from_s, 's')} into the hold `{hold.name}`"
    )
    more = f", and so {'does' if len(some) == 2 else 'do'} {len(some) - 1} more of the cue" if len(some) > 1 else ""
    return Finding(
        "hold-broken",
        f"{worst.effect.name} of cue {number} {what}{more}",
        at=f"cue:{number}",
        subject=f"cue {number}",
        values={
            "hold": hold.name,
            "from_s": hold.from_s,
            "to_s": hold.to_s,
            "fired_s": worst.from_s,
            "ends_s": worst.to_s,
            "devices": [burn.device.name for burn in some],
        },
        working=f"{worst.words()}; hold {clock(hold.from_s)} to {clock(hold.to_s)}",
        detail=f"The hold: {hold.because}." if hold.because else "",
        hint=_mend(worst, hold),
        related=(Related(f"hold:{hold.name}", "the hold"),),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    if not solved.model.holds:
        return
    found: dict[tuple[str, str], list[Burn]] = {}
    for burn in burns(solved):
        for hold in solved.model.holds:
            if _inside(burn, hold):
                found.setdefault((stem(burn.cue.number), hold.name), []).append(burn)
    holds = {hold.name: hold for hold in solved.model.holds}
    for (_, name), some in found.items():
        yield _told(some, holds[name])


RULE = rule("hold-broken", "error", __doc__, _check)
