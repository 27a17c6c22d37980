"""Write into the guide what the check says of its slips today: ``python -m tests.guide.update``. Read the difference."""

from __future__ import annotations

from tests.guide.blocks import GUIDE, slips


def updated(guide: str) -> str:
    """The guide with every ``text`` block after a slip made anew."""
    for slip in reversed(slips(guide)):
        guide = guide[: slip.told.start] + slip.said() + guide[slip.told.start + len(slip.told.text) :]
    return guide


if __name__ == "__main__":
    GUIDE.write_text(updated(GUIDE.read_text(encoding="utf-8")), encoding="utf-8", newline="\n")
