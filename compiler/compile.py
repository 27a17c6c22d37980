"""From text to plan: the stages of the compiler, each a function of what came before.

text → syntax tree → statements → model → addresses → lengths → wirings → schedule
→ solved → findings → plan
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from compiler.address import addresses
from compiler.checks import run_checks, without_echoes
from compiler.circuit import build_wiring, solve_show
from compiler.expand.book import Book
from compiler.expand.load import ReadFile, load, reader_of
from compiler.expand.macros import Macros
from compiler.expand.statements import catalogue, declare_all
from compiler.judge import judged
from compiler.layout import laid_out
from compiler.model.build import build_model
from compiler.model.labels import labelled
from compiler.model.outs import without_outs
from compiler.model.solved import Solved, Wiring
from compiler.model.types import Circuit, Model
from compiler.model.values import replace
from compiler.places import Places
from compiler.schedule import schedule
from grammar.findings import Finding

SEVERITIES = ("error", "warning", "note")


@dataclass(frozen=True, slots=True)
class Compiled:
    """A compiled show: solved values, findings with places, and the sources they point into."""

    solved: Solved
    findings: tuple[Finding, ...]
    places: Places

    def plan(self) -> dict[str, Any]:
        """The published plan (`compiler.plan`), made when it is asked for."""
        from compiler.plan.build import build_plan

        return build_plan(self.solved, self.findings, self.places.place)


def compile_show(path: str | Path) -> tuple[dict[str, Any], tuple[Finding, ...]]:
    """Compile a show file: its plan and its findings. Nothing that the file holds raises."""
    compiled = solve(path)
    return compiled.plan(), compiled.findings


def solve(path: str | Path) -> Compiled:
    """Compile a show file up to the findings."""
    path = Path(path)
    return solve_files(path.name, reader_of(path.parent))


def solve_files(main: str, read_file: ReadFile) -> Compiled:
    """Compile a show whose files are given by a function: the stages, one after another."""
    loaded = load(main, read_file)
    book = Book(loaded.findings, catalogue=catalogue(), unread=loaded.unread)
    declare_all(Macros(book.findings, loaded.tables).expand(loaded.statements), book)
    model = build_model(book)
    addressed = addresses(model)
    model = labelled(without_outs(model, addressed.addresses), addressed.addresses)
    lengths = laid_out(model, addressed.addresses)
    model = replace(model, circuits=lengths.circuits)
    wirings, wiring_findings = _wirings(model)
    times = schedule(model, addressed.addresses)
    solution = solve_show(model, wirings, addressed.addresses, times)
    solved = Solved(
        model, addressed.addresses, lengths.distances_m, wirings, times,
        solution.instants, solution.circuits, solution.feeds_ohm,
    )  # fmt: skip
    earlier = (*book.findings, *addressed.findings, *lengths.findings, *wiring_findings, *solution.findings)
    findings = without_echoes((*earlier, *run_checks(solved, earlier)))
    model, findings = judged(findings, model, addressed.addresses)
    places = Places(book, loaded.sources, loaded.main)
    return Compiled(replace(solved, model=model), places.settled(findings), places)


def _wirings(model: Model) -> tuple[dict[str, Wiring], list[Finding]]:
    wirings: dict[str, Wiring] = {}
    findings: list[Finding] = []
    for name, circuit in model.circuits.items():
        if not _computable(circuit):
            continue  # said already: it has no channel, or its cable is not said
        wiring, found = build_wiring(circuit, model)
        findings.extend(found)
        if wiring is not None:
            wirings[name] = wiring
    return wirings, findings


def _computable(circuit: Circuit) -> bool:
    lead = circuit.wiring.lead
    return lead is not None and lead.length_m is not None and lead.cable is not None
