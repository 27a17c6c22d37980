"""Every channel that is named exists.

Protects from
    A lead end tagged for a channel that the rail does not have: found in the field, at dusk.

How it is computed
    The channel a circuit is written or bound to, against the number of channels of the rail's module,
    counted from 1.

Limit and source
    `channels` of the module.

Breaks it
    rail A of dc-16 at Q1 { feed Pack-1 }
    circuit First on A.17 { lead 5 m of zip-18; series D1 }

Keeps it
    circuit First on A.16 { lead 5 m of zip-18; series D1 }
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compiler.checks.lookups import module_on
from compiler.checks.rule import rule
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _channels(solved: Solved) -> Iterator[tuple[str, str, int]]:
    """Circuit, rail and channel: as written where the show says so, else as assigned."""
    for name, circuit in solved.model.circuits.items():
        address = solved.addresses.get(name)
        if circuit.rail is not None and circuit.channel is not None:
            yield name, circuit.rail, circuit.channel
        elif address is not None:
            yield name, address.rail, address.channel


def _check(solved: Solved) -> Iterable[Finding]:
    for name, rail, channel in _channels(solved):
        module = module_on(solved, rail)
        if module is None or 1 <= channel <= module.channels:
            continue
        yield Finding(
            "channel-unknown",
            f"{name} is on {rail}.{channel}, rail {rail} has channels 1 to {module.channels}",
            at=f"circuit:{name}",
            role="on",
            subject=f"circuit {name}",
            values={"rail": rail, "channel": channel, "channels": module.channels},
            working=f"channel {channel}, limit {module.channels} (module {module.name})",
            hint=f"Write `on {rail}.N` with N from 1 to {module.channels}, or leave `on` out and a channel is found.",
            related=(Related(f"rail:{rail}", "the rail"),),
        )


RULE = rule("channel-unknown", "error", __doc__, _check)
