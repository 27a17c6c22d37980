"""Compiles drafts, compares what was found with what was planted, and counts."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from compiler.compile import Compiled, solve_files

from .draft import MAIN, Draft, Expected, Line, numbered
from .planter import Planter
from .planters import PLANTERS

Told = tuple[str, str, int]
"""A finding as counted: rule, file, line."""


class Outcome(NamedTuple):
    """One compiled draft: what was planted, what was found, and the text for whoever looks."""

    planted: Counter[Told]
    found: Counter[Told]
    text: str

    @property
    def missed(self) -> list[Told]:
        """Planted and not found."""
        return sorted((self.planted - self.found).elements())

    @property
    def extra(self) -> list[Told]:
        """Found and not planted: echoes and misfires."""
        return sorted((self.found - self.planted).elements())

    def explained(self) -> str:
        """What differs, and the lines it is about."""
        rows = self.text.split("\n")
        return "\n".join(
            f"{word} {rule} at {line}: {rows[line - 1].strip()[:150]}"
            for word, some in (("missed", self.missed), ("extra", self.extra))
            for rule, _, line in some
        )


def compiled(draft: Draft) -> tuple[Compiled, bytes, dict[Line, int]]:
    """Compile a draft from memory."""
    main, starts = draft.text()
    files = {MAIN: main, **{name: text.encode() for name, text in draft.files.items()}}

    def read_file(name: str) -> bytes:
        if name not in files:
            raise FileNotFoundError(2, "No such file or directory")
        return files[name]

    return solve_files(MAIN, read_file), main, starts


def outcome(planters: Sequence[Planter], seed: int) -> Outcome:
    """A clean show with these mistakes planted, one in each plot, and one plot left clean."""
    draft = Draft(random.Random(seed))
    expected: list[Expected] = []
    for index, planter in enumerate(planters):
        expected.extend(planter.plant(draft.plot(index + 1)))
    draft.plot(len(planters) + 1)
    draft.shuffled()
    solved, main, starts = compiled(draft)
    found = Counter(
        (finding.rule, str(place["file"]), int(str(place["line"])))
        for finding in solved.findings
        for place in (solved.places.place(finding),)
    )
    planted = Counter(numbered(expected, starts))
    return Outcome(planted, found, main.decode("utf-8", "replace"))


class Score(NamedTuple):
    """Planted, found and right findings of many shows, by rule."""

    planted: Counter[str]
    found: Counter[str]
    right: Counter[str]

    def recall(self) -> float:
        """Share of the planted that were found."""
        return self.right.total() / self.planted.total()

    def precision(self) -> float:
        """Share of the found that were planted."""
        return self.right.total() / self.found.total()

    def __str__(self) -> str:
        """Two figures, and the rules that fall short of them."""
        short = [
            f"\n  {rule}: {self.planted[rule]} planted, {self.found[rule]} found, {self.right[rule]} of them right"
            for rule in sorted(self.planted | self.found)
            if not self.planted[rule] == self.found[rule] == self.right[rule]
        ]
        return f"recall {self.recall():.4f}, precision {self.precision():.4f} over {self.planted.total()} mistakes" + "".join(short)


def score(outcomes: Iterable[Outcome]) -> Score:
    """Count findings by rule."""
    made = Score(Counter(), Counter(), Counter())
    for one in outcomes:
        made.planted.update(rule for rule, _, _ in one.planted.elements())
        made.found.update(rule for rule, _, _ in one.found.elements())
        made.right.update(rule for rule, _, _ in (one.planted & one.found).elements())
    return made


def chosen(seed: int) -> list[Planter]:
    """One to ten planters that can stand in one show; over many seeds every one of them comes up."""
    rng = random.Random(seed)
    wanted = 1 + seed % 10
    first = PLANTERS[seed % len(PLANTERS)]
    picked = [first]
    for planter in rng.sample(PLANTERS, len(PLANTERS)):
        if len(picked) >= wanted:
            break
        if planter is not first and not any(planter.clashes(other) for other in picked):
            picked.append(planter)
    return picked
