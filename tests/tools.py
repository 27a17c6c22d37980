"""Programs that tests compare with: a test that needs one fails without it in CI, and elsewhere says that it did not run."""

from __future__ import annotations

import os
import shutil

import pytest


def need(program: str, package: str) -> None:
    """Go on if the program is there; else fail in CI, and skip loudly on a person's machine."""
    if shutil.which(program) is not None:
        return
    if os.environ.get("CI"):
        pytest.fail(f"`{program}` is missing: .ci/run installs {package}")
    pytest.skip(f"NOT RUN: needs `{program}` (Debian package {package})")
