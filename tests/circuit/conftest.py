"""Makes the independent solvers in `tests/oracle` importable, and keeps their algebra on one thread."""

from __future__ import annotations

import ctypes
import sys
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))


def _one_thread() -> None:
    """Stop the linear algebra library from spinning up threads.

    On matrices of this size they cost many times more than they bring, most of all beside other
    work. The environment variable for it comes too late: numpy is loaded before this file. Where
    numpy was built otherwise nothing is found and the tests are only slower.
    """
    for library in (Path(np.__file__).parent.parent / "numpy.libs").glob("*openblas*"):
        loaded = ctypes.CDLL(str(library))
        for name in ("scipy_openblas_set_num_threads64_", "openblas_set_num_threads"):
            if hasattr(loaded, name):
                getattr(loaded, name)(1)


_one_thread()
