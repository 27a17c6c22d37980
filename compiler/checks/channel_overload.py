"""No channel carries more than its driver may.

Protects from
    A driver that burns out, welds closed or drops its channel in the middle of the show: the
    effect fires late, not at all, or the channel stays on.

How it is computed
    Greatest current of the channel as wired: greatest supply voltage, least resistances, coldest
    copper, over all instants at which the circuit is alive, with every other circuit possibly
    absent. For a circuit that no cue fires: the same, alone on its supply.

Limit and source
    `channel-limit` of the module, as its maker states it. Equal to the limit passes.

Breaks it
    module weak-4 { channels 4; channel-limit 2 A }
    rail A of weak-4 at Q1 { feed Pack-1 }
    circuit Row on A.1 { lead 5 m of zip-14; parallel D1, D2, D3, D4, D5, D6 }

Keeps it
    circuit Row on A.1 { lead 5 m of zip-14; series D1, D2, D3, D4, D5, D6 }
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compiler.checks.lookups import module_of, part_words
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, against, quantity
from compiler.model.solved import CircuitResult, Solved
from compiler.model.types import Module
from grammar.findings import Finding, Related


def overloaded(solved: Solved) -> Iterator[tuple[CircuitResult, Module, float, float]]:
    """Circuits above their channel's limit: result, module, greatest and limit in amperes."""
    for name, result in solved.circuits.items():
        module = module_of(solved, name)
        current = result.current_a or result.alone_current_a
        if module is None or module.channel_limit_a is None or current is None:
            continue
        if current.greatest > module.channel_limit_a:
            yield result, module, current.greatest, module.channel_limit_a


def _check(solved: Solved) -> Iterable[Finding]:
    for result, module, amps, limit_a in overloaded(solved):
        shown, limit = against(amps, limit_a, "A")
        address = solved.addresses[result.name]
        least_ohm = quantity(result.resistance_ohm.low, "ohm")
        yield Finding(
            "channel-overload",
            f"{result.name} draws up to {shown} from channel {address.rail}.{address.channel}, "
            f"its driver stands {limit}",
            at=f"circuit:{result.name}",
            subject=f"circuit {result.name}",
            values={"current_a": amps, "limit_a": limit_a},
            working=f"greatest supply into {least_ohm}: {shown}, limit {limit}",
            detail=part_words("module", module.name, module.origin),
            hint=f"Write fewer branches in parallel, more in series, or split {result.name} over two channels. {FIELD}",
            related=(Related(f"rail:{address.rail}", "the rail"),),
        )


RULE = rule("channel-overload", "error", __doc__, _check, waivable=True)
