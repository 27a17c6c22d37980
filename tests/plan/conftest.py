"""What the plan's tests share."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

_HERE = Path(__file__).parent


def _load(name: str) -> ModuleType:
    """A helper beside this file, whatever the folder is called on the import path."""
    known = f"linstock_tests_plan_{name}"
    if known not in sys.modules:
        spec = importlib.util.spec_from_file_location(known, _HERE / f"{name}.py")
        assert spec is not None
        assert spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        sys.modules[known] = module
        spec.loader.exec_module(module)
    return sys.modules[known]


@pytest.fixture(scope="session")
def sample() -> ModuleType:
    """The invented show and its plain solver."""
    return _load("sample_show")
