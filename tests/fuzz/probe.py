"""What must hold for any bytes at all: findings and no traceback, each in a place of its file, in bounded time."""

from __future__ import annotations

import json
import signal
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field

from compiler.compile import SEVERITIES, Compiled, solve_files
from compiler.reports.text import render
from grammar.findings import Finding, Span

MAIN = "made.show"
FIXED_S, A_BYTE_S, A_THING_S = 0.5, 50e-6, 200e-6
"""What a run may take: so much, so much for each byte, and so much for each thing that a range makes."""
MOST_THINGS = 100_000
"""Ranges in a short text may make many things, but not without end."""


@dataclass
class Worst:
    """The run that came nearest to its bound, for the printed report."""

    share: float = 0.0
    seconds: float = 0.0
    data: bytes = b""
    runs: int = 0
    rules: set[str] = field(default_factory=set)

    def add(self, seconds: float, data: bytes, things: int) -> float:
        """Count a run; gives its share of what it may take."""
        share = seconds / (FIXED_S + A_BYTE_S * len(data) + A_THING_S * things)
        self.runs += 1
        if share > self.share:
            self.share, self.seconds, self.data = share, seconds, data
        return share

    def __str__(self) -> str:
        """One line."""
        return (
            f"{self.runs} inputs, {len(self.rules)} rules; worst run {self.seconds:.3f} s for {len(self.data)} bytes, "
            f"{self.share:.0%} of its bound"
        )


WORST = Worst()


def probe(data: bytes, files: Mapping[str, bytes] | None = None) -> Compiled:
    """Compile any bytes, and hold the result to everything that must hold. Raises `AssertionError`."""
    known = {**(files or {}), MAIN: data}

    def read_file(name: str) -> bytes:
        if name not in known:
            raise FileNotFoundError(2, "No such file or directory")
        return known[name]

    start = time.process_time()
    with _stopped_after(10 * (FIXED_S + A_BYTE_S * len(data)) + A_THING_S * MOST_THINGS):
        compiled = solve_files(MAIN, read_file)
        plan = compiled.plan()
        text = render(compiled.findings, compiled.places.sources)
    things = _things(compiled)
    assert things <= MOST_THINGS, f"{len(data)} bytes make {things} things"
    share = WORST.add(time.process_time() - start, data, things)
    json.dumps(plan, allow_nan=False)
    assert text.replace("\n", "").isprintable()
    for finding in compiled.findings:
        _sound(finding, compiled)
        WORST.rules.add(finding.rule)
    assert share < 1.0, f"{share:.1f} times as long as {len(data)} bytes and {things} things may take"
    return compiled


@contextmanager
def _stopped_after(seconds: float) -> Iterator[None]:
    """Ends a run that would go on for minutes: one bad input must not hide the others."""

    def stop(*_: object) -> None:
        raise TimeoutError(f"stopped after {seconds:.1f} s of processor time")

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0.0)
        signal.signal(signal.SIGPROF, before)


def _things(compiled: Compiled) -> int:
    """How many places, rails, matches, circuits and cues the show has."""
    model = compiled.solved.model
    return len(model.positions) + len(model.rails) + len(model.match_uses) + len(model.circuits) + len(model.cues)


def _sound(finding: Finding, compiled: Compiled) -> None:
    """A finding says what, where and how bad; its places lie inside their files."""
    assert finding.severity in SEVERITIES, finding
    assert finding.headline, finding
    spans = [finding.at, *(related.at for related in finding.related), *([finding.edit.span] if finding.edit else [])]
    for span in spans:
        assert isinstance(span, Span), finding
        text = compiled.places.sources[span.file].text
        assert 0 <= span.start <= span.end <= len(text), finding
    place = compiled.places.place(finding)
    lines = compiled.places.sources[str(place["file"])].text.count("\n") + 1
    assert 1 <= int(str(place["line"])) <= int(str(place["end_line"])) <= lines, finding
