"""Shows from text, for tests: compile without files, and find things again by name."""

from __future__ import annotations

from typing import Any

from compiler.compile import Compiled, solve_files


def compiled(text: str | bytes, **files: str) -> Compiled:
    """Compile one text as ``main.show``; `files` are further files, ``parts_show`` for ``parts.show``."""
    data = {"main.show": text if isinstance(text, bytes) else text.encode()}
    data.update((name.replace("__", "/").replace("_show", ".show"), body.encode()) for name, body in files.items())

    def read_file(name: str) -> bytes:
        try:
            return data[name]
        except KeyError:
            raise FileNotFoundError(2, "No such file") from None

    return solve_files("main.show", read_file)


def plan_of(text: str, **files: str) -> dict[str, Any]:
    """The plan of a show's text."""
    return compiled(text, **files).plan()


def found(text: str | bytes, **files: str) -> list[tuple[str, int]]:
    """Rule and line of every error and warning, in order of place."""
    result = compiled(text, **files)
    return [
        (finding.rule, int(str(result.places.place(finding)["line"])))
        for finding in result.findings
        if finding.severity != "note"
    ]


def circuit(plan: dict[str, Any], name: str) -> dict[str, Any]:
    """One circuit of a plan."""
    one: dict[str, Any] = next(c for c in plan["circuits"] if c["name"] == name)
    return one
