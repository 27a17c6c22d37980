"""Every match gets its firing impulse while the pulse lasts.

Protects from
    A pulse that is high enough but too short, or a current that only just lasts: the least
    sensitive match of the box stays dark.

How it is computed
    Impulse = least current² × the shorter of the module's shortest pulse and the match's function
    time. It counts only while the current stays at or above the firing current: a peak below
    it is worth nothing, whatever its integral. Such a match is reported by `firing-current` and not
    said again. Reported once per circuit, at its weakest match.

Limit and source
    The upper end of `impulse` of the match: the least sensitive one fires. Function time: `function`
    of the match, else the limit `function-time`. Equal passes.

Breaks it
    match slow { bridge 1.6 ohm; legs none; no-fire 0.2 A; alone 0.5 A; series 1 A; parallel 1 A; impulse 8 .. 900 A2ms; function 10 ms }

Keeps it
    match slow { bridge 1.6 ohm; legs none; no-fire 0.2 A; alone 0.5 A; series 1 A; parallel 1 A; impulse 1 .. 3 A2ms; function 10 ms }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import FIELD, against, match_in, others, quantity
from compiler.model.solved import MatchResult, Solved
from grammar.findings import Finding, Related


def _share(match: MatchResult) -> float | None:
    """Least impulse as a share of what is required; None where unknown or told by current."""
    if match.impulse_a2s is None or not match.required_a2s:
        return None
    if match.current_a is not None and match.current_a.least < (match.required_a or 0.0):
        return None
    return match.impulse_a2s.least / match.required_a2s


def _finding(solved: Solved, name: str, match: MatchResult, more: int) -> Finding:
    assert match.impulse_a2s is not None
    assert match.required_a2s is not None
    shown, wanted = against(match.impulse_a2s.least, match.required_a2s, "A2s")
    use = solved.model.match_uses.get(match.name)
    amps = "" if match.current_a is None else f" at a least current of {quantity(match.current_a.least, 'A')}"
    return Finding(
        "firing-impulse",
        f"{match_in(match.name, name)} may get an impulse of only {shown}, it needs {wanted}",
        at=f"circuit:{name}",
        subject=f"circuit {name}",
        values={
            "match": match.name,
            "least_a2s": match.impulse_a2s.least,
            "required_a2s": match.required_a2s,
            "other_matches": more,
        },
        working=f"{shown}{amps}, required {wanted}",
        detail="Required by the least sensitive match of its type"
        f"{'' if use is None or use.igniter is None else f', {use.igniter}'}. Impulse counts only "
        f"while the current is at or above the firing current.{others(more, 'match')}",
        hint="Raise the current with a heavier or shorter lead or fewer matches, or use a module "
        f"with a longer `pulse`. {FIELD}",
        related=() if use is None else (Related(f"device:{use.device}", "the weakest match"),),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    for name, result in solved.circuits.items():
        low = {
            match: share
            for match, found in result.matches.items()
            if (share := _share(found)) is not None and share < 1.0
        }
        if low:
            weakest = min(low, key=lambda match: low[match])
            yield _finding(solved, name, result.matches[weakest], len(low) - 1)


RULE = rule("firing-impulse", "error", __doc__, _check)
