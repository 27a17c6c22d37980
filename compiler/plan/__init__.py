"""The published plan: one plain JSON value with a schema and a version.

Everything that is printed or handed to another program is made from it alone.
"""

from __future__ import annotations

FORMAT_VERSION = 1


def schema_text() -> str:
    """The plan's JSON Schema (draft 2020-12) as the text that ships with the compiler."""
    from importlib.resources import files

    return files("compiler.plan").joinpath("schema.json").read_text(encoding="utf-8")
