"""Every chase steps no faster than its rails tick and no slower than a chase does.

Protects from
    `15 ms` for `150 ms`: steps that the module rounds onto each other. `15 s` for `1.5 s`: a chase
    that outlasts its scene.

How it is computed
    The step between the parts of a chase against the longest tick of the rails it fires from, and
    against the limit `chase-step`.

Limit and source
    `tick` of the module; limit `chase-step`, 2 s under "strict" (common practice). Equal passes.

Breaks it
    cue 1 at 0:10.0 comet-gold at Q1..Q5 every 5 ms

Keeps it
    cue 1 at 0:10.0 comet-gold at Q1..Q5 every 150 ms
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import limit, limit_words, module_of, part_words, stem
from compiler.checks.rule import rule
from compiler.checks.words import against
from compiler.model.solved import Solved
from compiler.model.types import Cue, Limit, Module
from grammar.findings import Finding


def _slowest(solved: Solved, circuits: list[str]) -> Module | None:
    """The module with the longest tick among those a chase fires from."""
    found = [module for name in circuits if (module := module_of(solved, name)) is not None]
    return max(found, key=lambda module: module.tick_s) if found else None


def _fast(cue: Cue, step_s: float, module: Module) -> Finding:
    shown, tick = against(step_s, module.tick_s, "s")
    return Finding(
        "chase-step",
        f"the chase of cue {stem(cue.number)} steps every {shown}, module {module.name} ticks every {tick}",
        at=f"cue:{cue.number}",
        role="every",
        subject=f"cue {stem(cue.number)}",
        values={"step_s": step_s, "tick_s": module.tick_s},
        working=f"step {shown}, tick {tick}",
        detail="Steps would be rounded onto each other. " + part_words("module", module.name, module.origin),
        hint=f"Write `every {tick}` or more; was `every {shown}` meant to be ten times that?",
    )


def _slow(cue: Cue, step_s: float, most: Limit) -> Finding:
    shown, longest = against(step_s, most.value, "s")
    return Finding(
        "chase-step",
        f"the chase of cue {stem(cue.number)} steps every {shown}, the longest is {longest}",
        at=f"cue:{cue.number}",
        role="every",
        subject=f"cue {stem(cue.number)}",
        values={"step_s": step_s, "limit_s": most.value},
        working=f"step {shown}, limit {longest}",
        detail=limit_words(most),
        hint=f"Write `every {longest}` or less, or one line per effect where such a pace is meant.",
    )


def _check(solved: Solved) -> Iterable[Finding]:
    chases = [cue for cue in solved.model.cues if cue.chase_step_s is not None]
    if not chases:
        return
    parts: dict[str, list[str]] = {}
    for cue in solved.model.cues:
        parts.setdefault(stem(cue.number), []).extend(cue.circuits)
    most = limit(solved, "chase-step")
    for cue in chases:
        step_s = cue.chase_step_s or 0.0
        module = _slowest(solved, parts[stem(cue.number)])
        if module is not None and step_s < module.tick_s:
            yield _fast(cue, step_s, module)
        elif most is not None and step_s > most.value:
            yield _slow(cue, step_s, most)


RULE = rule("chase-step", "warning", __doc__, _check, waivable=True)
