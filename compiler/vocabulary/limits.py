"""The limits that a rule set holds: one line each."""

from __future__ import annotations

from typing import NamedTuple


class LimitKind(NamedTuple):
    """What a limit is. `tighter`: which way tightens it: ``less``, ``more`` or ``either``.

    `waivable`: whether `because … by …` may loosen it.
    """

    dimension: str
    unit: str
    tighter: str
    waivable: bool
    help: str


LIMITS: dict[str, LimitKind] = {
    "margin": LimitKind("ratio", "1", "more", True, "least current of a match over its firing current"),
    "test-current": LimitKind(
        "current", "A", "less", False, "greatest current of the continuity test, into a short circuit"
    ),
    "test-fraction": LimitKind("ratio", "1", "less", False, "greatest test current as a share of the no-fire current"),
    "test-fault": LimitKind(
        "current", "A", "less", False, "greatest test current after one protective part has failed"
    ),
    "function-time": LimitKind("time", "s", "less", True, "time within which a match must have its firing impulse"),
    "chase-step": LimitKind("time", "s", "less", True, "longest step of a chase before it is taken for a slip"),
    "sun-heating": LimitKind(
        "temperature difference", "K", "more", True, "heating of dark cable in the sun above the ambient"
    ),
    "spare-share": LimitKind("ratio", "1", "more", True, "share of a rail's channels that stays free"),
    "spare-least": LimitKind("count", "1", "more", True, "fewest channels of a rail that stay free"),
    "copper-low": LimitKind("ratio", "1", "more", True, "how far a conductor may be better than the standard copper"),
    "copper-high": LimitKind("ratio", "1", "more", True, "how far a conductor may be worse than the standard copper"),
    "stranding-high": LimitKind("ratio", "1", "more", True, "what stranding adds to a conductor's resistance"),
}
