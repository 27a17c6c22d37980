"""Every cue fires something that is wired.

Protects from
    A cue that the operator presses and that lights nothing.

How it is computed
    Every circuit or device that a cue names must be wired: a circuit with matches, or a device whose
    matches are in one. A circuit that got no channel is reported by `no-free-channel`.

Limit and source
    None may be left over.

Breaks it
    falls Curtain of silver-gerb at Q1 { count 12 every 1 m; matches 4 }
    cue 1 at 0:10.0 Curtain "nothing wires it"

Keeps it
    falls Curtain of silver-gerb at Q1 { count 12 every 1 m; matches 4 }
    circuit Curtain-A on A.1 { lead 5 m of zip-14; series Curtain.1..4 }
    cue 1 at 0:10.0 Curtain-A
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
        return "is wired in no circuit"
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
        hint=f"Wire it, as in `circuit {name}-A {{ lead 10 m; series {name} }}`, or take it out of cue {cue.number}.",
        related=(Related(f"{kind}:{name}", "it is made here"),) if known else (),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    for cue in solved.model.cues:
        for name in cue.circuits:
            why = _why(solved, name)
            if why is not None:
                yield _finding(solved, cue, name, why)


RULE = rule("cue-unwired", "error", __doc__, _check)
