"""Which waivers print on which sheet: those that touch it, and in doubt all."""

from __future__ import annotations

from typing import Any

Json = dict[str, Any]


class Touching:
    """Looks up the rails that a waiver's subject belongs to."""

    def __init__(self, plan: Json) -> None:
        """Read which rails each named thing of the plan is wired to."""
        self._texts = [(self._names(w), waiver_text(w)) for w in plan["waivers"]]
        self._rails: dict[str, set[str]] = {rail["name"]: {rail["name"]} for rail in plan["rails"]}
        for rail in plan["rails"]:
            self._note(rail["supply"], rail["name"])
        for circuit in plan["circuits"]:
            matches = [match["name"] for match in circuit["matches"]]
            address = f"{circuit['rail']}.{circuit['channel']}"
            for name in (circuit["name"], address, *circuit["devices"], *matches):
                self._note(name, circuit["rail"])

    def rail(self, name: str) -> list[str]:
        """Waivers for this rail's sheet: all but those that name only things on other rails."""
        return [text for names, text in self._texts if self._touches(names, name)]

    def _touches(self, names: list[str], rail: str) -> bool:
        known = [self._rails[name] for name in names if name in self._rails]
        return not known or any(rail in rails for rails in known)

    def _note(self, name: str | None, rail: str | None) -> None:
        if name is not None and rail is not None:
            self._rails.setdefault(name, set()).add(rail)

    @staticmethod
    def _names(waiver: Json) -> list[str]:
        """`circuit Curtain-A` and `circuit:Curtain-A` both name `Curtain-A`."""
        words = waiver["subject"].replace(":", " ").replace(",", " ").split()
        return [*words, waiver["subject"]]


def waiver_text(waiver: Json) -> str:
    """A waiver as it stands on a sheet: what, why, who answers for it."""
    rule, subject = waiver["rule"], waiver["subject"]
    what = f"{subject} loosened" if rule in subject.split() else f"{rule} waived for {subject}"
    return f"{what}: {waiver['because']} ({waiver['by']})"
