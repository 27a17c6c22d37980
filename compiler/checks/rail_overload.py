"""No rail carries more than it may at any instant.

Protects from
    A rail that shuts down, sags or burns while several of its channels fire together: nothing on it
    fires from then on.

How it is computed
    At every instant: the rail's greatest current with each alive circuit shorted at its match end,
    and the others possibly absent. Reported once per rail, at its worst instant.

Limit and source
    `rail-limit` of the module, as its maker states it. Equal to the limit passes.

Breaks it
    cue 1 at 0:10.0 Fan-1, Fan-2, Fan-3, Fan-4 "all four on rail A"

Keeps it
    cue 1 at 0:10.0 Fan-1, Fan-2 "two on rail A"
    cue 2 at 0:10.5 Fan-3, Fan-4 "two on rail A"
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compiler.checks.loads import Load, Worst, alive_here, alive_words, heaviest, more_words, on_rail, when, worst
from compiler.checks.lookups import module_on, move_words, part_words
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, against, many
from compiler.model.solved import Solved
from grammar.findings import Finding


def _loads(solved: Solved) -> Iterator[Load]:
    for instant in solved.instants:
        for load in instant.rails:
            module = module_on(solved, load.rail)
            if module is not None and module.rail_limit_a is not None:
                yield load.rail, load.amps.greatest, module.rail_limit_a, instant


def _finding(solved: Solved, found: Worst) -> Finding:
    shown, limit = against(found.amps, found.limit_a, "A")
    alive = on_rail(solved, found.instant, found.name)
    most = heaviest(solved, alive)
    mover = most[0] if most else "".join(alive[:1])
    module = solved.model.modules[solved.model.rails[found.name].module]
    return Finding(
        "rail-overload",
        f"rail {found.name} carries up to {shown} {when(found.instant)}, it stands {limit}",
        at=f"rail:{found.name}",
        subject=f"rail {found.name}",
        values={
            "current_a": found.amps,
            "limit_a": found.limit_a,
            "at_s": found.instant.from_us / 1e6,
            "circuits": list(alive),
            "other_instants": found.more,
        },
        working=f"{many(len(alive), 'circuit')} alive together: {shown}, limit {limit}",
        detail=f"{alive_words(solved, alive)}{more_words(found)} " + part_words("module", module.name, module.origin),
        hint=f"Fire some of them at another moment, or {move_words(solved, mover)}. {FIELD}",
        related=alive_here(alive),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    for found in worst(_loads(solved)):
        yield _finding(solved, found)


RULE = rule("rail-overload", "error", __doc__, _check, waivable=True)
