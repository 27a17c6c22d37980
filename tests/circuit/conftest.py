"""Makes the independent solvers in `tests/oracle` importable as the package `oracle`."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
