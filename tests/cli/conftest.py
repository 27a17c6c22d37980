"""What the tests of the command share: a way to run it as a user does, and shows to run it on."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).resolve().parents[2]

CLEAN = """show "Clean" { revision 1 }
defaults { lead zip-18 }
position Q1 at 0 m, 0 m
supply Pack of lead-acid-24 at Q1
rail A of dc-16 at Q1 { feed Pack through 3 m of trunk-2.5 }
cue 1 at 0:05.0 shell-75 at Q1 "Maroon"
"""
"""Nothing but the note that a generic match is no maker's data."""

WARNED = CLEAN + "position Q2 at 0 m, 0 m\n"
"""Two places at one point: a warning."""

BROKEN = CLEAN + "cue 2 at 0:15.0 shel-75 at Q1\n"
"""A name that is not known: an error in the last line."""


class Ran(NamedTuple):
    """What one run of the command left."""

    code: int
    out: str
    err: str


@pytest.fixture
def linstock(tmp_path: Path) -> Callable[..., Ran]:
    """Runs the command in a process of its own, in `tmp_path`, without a terminal."""

    def run(*arguments: str, **surroundings: str) -> Ran:
        done = subprocess.run(
            [sys.executable, "-m", "compiler", *arguments],
            cwd=tmp_path, env=environment(**surroundings), capture_output=True, timeout=120, check=False,
        )  # fmt: skip
        return Ran(done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8"))

    return run


def environment(**more: str) -> dict[str, str]:
    """The environment without what a CI service or a user may have set, and with what a test sets."""
    ours = ("NO_COLOR", "GITHUB_ACTIONS", "TF_BUILD", "TEAMCITY_VERSION", "PYTHONWARNINGS")
    kept = {key: value for key, value in os.environ.items() if key not in ours}
    return {**kept, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8", "TERM": "xterm", **more}


@pytest.fixture
def shows(tmp_path: Path) -> Path:
    """A folder with `clean.show`, `warned.show` and `broken.show`; the command runs in it."""
    for name, text in (("clean", CLEAN), ("warned", WARNED), ("broken", BROKEN)):
        (tmp_path / f"{name}.show").write_text(text, encoding="utf-8")
    return tmp_path
