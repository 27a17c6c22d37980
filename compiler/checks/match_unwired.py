"""Every match is wired.

Protects from
    A device that is loaded, shown on the sheets, and never connected: found dark in the show and
    live after it.

How it is computed
    Every match of every device is looked for in the circuits. Reported once per device. A device
    that a cue fires and that is not wired at all is `cue-unwired`.

Limit and source
    None may be left over. A device alone gets a circuit of its own; a row of falls does not, because
    how it is wired has to be said.

Breaks it
    falls Curtain of silver-gerb from Q1 to Q2 { count 12 every 1 m; matches 4; fuse quickmatch }
    circuit Curtain-A on A.1 { lead 5 m of zip-14; parallel Curtain.1, Curtain.2, Curtain.3 }

Keeps it
    circuit Curtain-A on A.1 { lead 5 m of zip-14; parallel Curtain.1..4 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import fired_circuits, members
from compiler.checks.rule import rule
from compiler.checks.words import many, names
from compiler.model.solved import Solved
from grammar.findings import Finding


def _check(solved: Solved) -> Iterable[Finding]:
    wired = {match for circuit in solved.model.circuits.values() for match in members(circuit.wiring)}
    cued = fired_circuits(solved)
    for device in solved.model.devices.values():
        left = [match for match in device.matches if match not in wired]
        if not left or (device.name in cued and device.name not in solved.model.circuits):
            continue
        verb = "is" if len(left) == 1 else "are"
        yield Finding(
            "match-unwired",
            f"{names(left)} of {device.name} {verb} in no circuit",
            at=f"device:{device.name}",
            subject=f"device {device.name}",
            values={"matches": left},
            working=f"{many(len(device.matches), 'match')}, {len(left)} in no circuit",
            hint=f"Add {names(left)} to a circuit, or take {device.name} out of the show.",
        )


RULE = rule("match-unwired", "error", __doc__, _check)
