"""Notes by the thing they are for."""

from __future__ import annotations

from collections.abc import Iterable

from compiler.model.types import Note


class Notes:
    """The show's notes, looked up by the name of the thing; text order, each once."""

    def __init__(self, notes: Iterable[Note]) -> None:
        """Sort the notes by what they are about."""
        self._by_name: dict[str, set[str]] = {}
        for note in notes:
            self._by_name.setdefault(note.about, set()).add(note.text)

    def about(self, name: str) -> list[str]:
        """The notes for the thing called `name`; `""` gives those for every sheet."""
        return sorted(self._by_name.get(name, ()))
