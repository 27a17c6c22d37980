"""The entries of the catalogue, and what the check says of each today.

- ``slips/NAME.show``: a small show with one slip that a person makes; ``NAME.txt`` beside it is all that the check says of it.
- ``findings/RULE.txt``: what the check says of the breaking sample of a rule in ``tests/rules/samples``.

``python -m tests.catalogue.entries`` writes the texts anew. Read what changed, aloud: does it say what is wrong, where,
who must be clear if it is about the field, and what to do next?
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from compiler.checks import severity_of, slugs
from compiler.compile import solve
from compiler.reports.text import render, summary

HERE = Path(__file__).parent
SLIPS = HERE / "slips"
FINDINGS = HERE / "findings"
SAMPLES = HERE.parent / "rules" / "samples"


class Entry(NamedTuple):
    """One entry: the show, and the text that says what is told of it. `rule`: a note that is wanted too."""

    show: Path
    text: Path
    rule: str = ""

    def said(self) -> str:
        """All findings as text; notes only where the entry is about a note."""
        made = solve(self.show)
        wanted = {self.rule} if self.rule and severity_of(self.rule) == "note" else set()
        findings = [one for one in made.findings if one.severity != "note" or one.rule in wanted]
        return render(findings, made.places.sources) + summary(findings) + "\n"


def slips() -> list[Entry]:
    """The slips, by name."""
    return [Entry(path, path.with_suffix(".txt")) for path in sorted(SLIPS.glob("*.show"))]


def findings() -> list[Entry]:
    """The rules, in their order."""
    return [Entry(SAMPLES / f"{slug}-breaks.show", FINDINGS / f"{slug}.txt", slug) for slug in slugs()]


def entries() -> Iterator[Entry]:
    """All entries."""
    yield from slips()
    yield from findings()


def main() -> None:
    """Write every text anew, and take away texts of entries that are gone."""
    FINDINGS.mkdir(exist_ok=True)
    written = set()
    for entry in entries():
        entry.text.write_text(entry.said(), encoding="utf-8", newline="\n")
        written.add(entry.text)
    for left in {*SLIPS.glob("*.txt"), *FINDINGS.glob("*.txt")} - written:
        left.unlink()


if __name__ == "__main__":
    main()
