"""Every channel has one circuit.

Protects from
    Two circuits on one channel: both fire at the first cue, one of them when nobody expects it.

How it is computed
    Circuits are counted by rail and channel, whoever gave them their address. Reported once per
    channel, at the second circuit.

Limit and source
    One. Never waived. Matches that fire together belong in one circuit, written as such.

Breaks it
    circuit First on A.1 { lead 5 m of zip-18; series D1 }
    circuit Second on A.1 { lead 5 m of zip-18; series D2 }

Keeps it
    circuit First on A.1 { lead 5 m of zip-18; series D1 }
    circuit Second on A.2 { lead 5 m of zip-18; series D2 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import move_words
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, many, names
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    channels: dict[tuple[str, int], list[str]] = {}
    for circuit, address in solved.addresses.items():
        channels.setdefault((address.rail, address.channel), []).append(circuit)
    for (rail, channel), circuits in channels.items():
        if len(circuits) < 2:
            continue
        first, *rest = circuits
        yield Finding(
            "channel-used-twice",
            f"channel {rail}.{channel} is used by {names(circuits)}",
            at=f"circuit:{rest[0]}",
            role="on",
            subject=f"channel {rail}.{channel}",
            values={"rail": rail, "channel": channel, "circuits": circuits},
            working=f"{many(len(circuits), 'circuit')} on {rail}.{channel}, limit 1",
            detail="All of them would fire at the first cue of any of them.",
            hint=f"To give {rest[0]} a channel of its own, {move_words(solved, rest[0], same_rail=True)}. {FIELD}",
            related=(
                Related(f"circuit:{first}", "first used here"),
                *(Related(f"circuit:{name}", "used here too") for name in rest[1:]),
            ),
        )


RULE = rule("channel-used-twice", "error", __doc__, _check)
