"""Every cue fires something that is wired.

Protects from
    A cue that the operator presses and that lights nothing.

How it is computed
    Every circuit or device that a cue names must be a circuit with wiring and matches. A circuit
    that got no channel is reported by `no-free-channel`.

Limit and source
    None may be left over.

Breaks it
    effect flag { kind other }
    device Banner of flag at Q1
    cue 1 at 0:10.0 Banner "it has no match, so nothing wires it"

Keeps it
    device Banner of comet-gold at Q1
    cue 1 at 0:10.0 Banner
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import members
from compiler.checks.rule import rule
from compiler.model.solved import Solved
from compiler.model.types import Cue
from grammar.findings import Finding, Related


def _why(solved: Solved, name: str) -> str | None:
    """Why a cue can't fire `name`; None where it can."""
    circuit = solved.model.circuits.get(name)
    if circuit is None:
        device = solved.model.devices.get(name)
        if device is not None and not device.matches:
            return "has no match"
        return "is in no circuit of its own"
    if next(members(circuit.wiring), None) is None:
        return "has no match"
    return None


def _finding(solved: Solved, cue: Cue, name: str, why: str) -> Finding:
    kind = "circuit" if name in solved.model.circuits else "device"
    known = kind == "circuit" or name in solved.model.devices
    return Finding(
        "cue-unwired",
        f"cue {cue.number} fires {name}, which {why}",
        at=f"cue:{cue.number}",
        subject=f"cue {cue.number}",
        values={"cue": cue.number, "name": name},
        detail="The cue would light nothing.",
        hint=f"Wire it: `circuit {name} {{ lead 10 m; single … }}`, give its effect a `match`, or "
        f"take it out of cue {cue.number}.",
        related=(Related(f"{kind}:{name}", "it is made here"),) if known else (),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    for cue in solved.model.cues:
        for name in cue.circuits:
            why = _why(solved, name)
            if why is not None:
                yield _finding(solved, cue, name, why)


RULE = rule("cue-unwired", "error", __doc__, _check)
