"""Renderers of findings: text, JSON, SARIF, JUnit and the annotations that CI services read.

Each renders a `Told` into one document; none computes anything about the show.
"""

from __future__ import annotations

from importlib import import_module

from compiler.reports.told import Told

_ANNOTATIONS = "compiler.reports.annotations"
_RENDERERS = {
    "text": ("compiler.reports.text", "document"),
    "json": ("compiler.reports.findings", "document"),
    "sarif": ("compiler.reports.sarif", "document"),
    "junit": ("compiler.reports.junit", "document"),
    "annotations": (_ANNOTATIONS, "by_surroundings"),
    "annotations-github": (_ANNOTATIONS, "github"),
    "annotations-azure": (_ANNOTATIONS, "azure"),
    "annotations-teamcity": (_ANNOTATIONS, "teamcity"),
    "annotations-gnu": (_ANNOTATIONS, "gnu"),
}

FORMATS = tuple(_RENDERERS)
"""Names of the formats; `compiler.cli` repeats them, since its help may import nothing; a test compares."""


def rendered(form: str, told: Told) -> str:
    """One document in one of `FORMATS`, ending in a newline unless it is empty."""
    module, function = _RENDERERS[form]
    text: str = getattr(import_module(module), function)(told)
    return text
