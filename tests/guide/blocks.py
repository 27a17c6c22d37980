"""The fenced blocks of the guide.

- ```` ```show ```` blocks are one show: each is added to those before it, and the show is clean after every block.
- ```` ```show NAME ```` and ```` ```csv NAME ```` are files that stand beside it.
- ```` ```slip ```` is a line that somebody gets wrong: added to the show so far, and taken out again.
  The ```` ```text ```` block after it is, word for word, what the check then says of it.

No block is left out, and nothing is added that the reader does not see.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

from compiler.compile import Compiled, solve_files
from compiler.reports.text import render

GUIDE = Path(__file__).resolve().parents[2] / "grammar" / "GUIDE.md"
MAIN = "pond.show"
FENCE = re.compile(r"^```(\w+)[ ]?([^\n]*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


class Block(NamedTuple):
    """A fenced block: its word, the file name after it if there is one, its text, and where its text starts."""

    word: str
    name: str
    text: str
    start: int


class Stage(NamedTuple):
    """The show as far as a reader has come: its text and the files beside it."""

    text: str
    files: dict[str, str]

    def compiled(self) -> Compiled:
        """Compile it."""
        data = {MAIN: self.text, **self.files}

        def read_file(name: str) -> bytes:
            if name not in data:
                raise FileNotFoundError(2, "No such file")
            return data[name].encode()

        return solve_files(MAIN, read_file)


class Slip(NamedTuple):
    """A slip, the show with it, and the block that says what is told of it."""

    text: str
    stage: Stage
    told: Block

    def said(self) -> str:
        """What the check says of it, without notes and what is waived: all that the show has besides."""
        made = self.stage.compiled()
        findings = [one for one in made.findings if one.severity != "note" and one.waived_by is None]
        return render(findings, made.places.sources).rstrip("\n") + "\n"


def blocks(guide: str) -> list[Block]:
    """All fenced blocks, in order."""
    return [Block(found[1], found[2].strip(), found[3], found.start(3)) for found in FENCE.finditer(guide)]


def stages(guide: str) -> list[Stage]:
    """The show after each of its blocks. Files are there from the start, as they would be."""
    found = blocks(guide)
    files = {block.name: block.text for block in found if block.name}
    texts = [block.text for block in found if block.word == "show" and not block.name]
    return [Stage("\n".join(texts[: index + 1]), files) for index in range(len(texts))]


def slips(guide: str) -> list[Slip]:
    """The slips, each with the show so far."""
    found = blocks(guide)
    files = {block.name: block.text for block in found if block.name}
    texts: list[str] = []
    made = []
    for index, block in enumerate(found):
        if block.word == "show" and not block.name:
            texts.append(block.text)
        if block.word == "slip":
            made.append(Slip(block.text, Stage("\n".join([*texts, block.text]), files), found[index + 1]))
    return made
