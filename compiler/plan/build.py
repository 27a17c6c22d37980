"""Builds the published plan from what was solved and found."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from compiler.model.solved import Solved
from compiler.plan import FORMAT_VERSION, circuits, power, things
from compiler.plan.fingerprint import fingerprint
from compiler.plan.notes import Notes
from compiler.plan.safety import safety
from grammar.findings import Finding

Json = dict[str, object]


def build_plan(solved: Solved, findings: Sequence[Finding], places: Callable[[Finding], Json | None]) -> Json:
    """The plan as a plain JSON value; its names and units are told by `schema.json`.

    `places` turns a finding into where it is in the source (`{file, line, column}`) or
    None. Numbers are rounded here and nowhere else; what was not computed is null.
    Lists are in natural name order or in order of time, never in source order.
    """
    model = solved.model
    notes = Notes(model.notes)
    order = power.ordered_instants(solved)
    plan: Json = {
        "format_version": FORMAT_VERSION,
        "fingerprint": "",
        "show": things.show(model, notes),
        "rules": things.rules(model),
        "positions": things.positions(model, notes),
        "igniters": things.igniters(model),
        "cables": things.cables(solved),
        "effects": things.effects(model),
        "supplies": power.supplies(model, notes),
        "feeds": power.feeds(solved),
        "rails": power.rails(solved, _used(solved), notes),
        "circuits": circuits.circuits(solved, circuits.index(solved, order), notes),
        "devices": things.devices(model, notes),
        "cues": things.cues(solved, notes),
        "instants": power.instants(solved, order),
        **safety(solved, notes),
        "waivers": things.waivers(model),
        "findings": things.findings(findings, places),
        "faults": [],
        "spans": [],
    }
    plan["fingerprint"] = fingerprint(plan)
    return plan


def _used(solved: Solved) -> dict[str, set[int]]:
    """Rail to the channels that something is wired to."""
    used: dict[str, set[int]] = {}
    for name, address in solved.addresses.items():
        if name in solved.model.circuits or name in solved.model.outs:
            used.setdefault(address.rail, set()).add(address.channel)
    return used
