"""Which waivers print on which sheet: those that touch it, and in doubt all."""

from __future__ import annotations

from typing import Any

Json = dict[str, Any]
_EVERYWHERE = ("limit ", "rule ")


class Touching:
    """Looks up the rails that a waiver's subject belongs to."""

    def __init__(self, plan: Json) -> None:
        """Read which rails each named thing of the plan is wired to."""
        self._texts = [(self._names(w), waiver_text(w)) for w in plan["waivers"]]
        self._rails: dict[str, set[str]] = {rail["name"]: {rail["name"]} for rail in plan["rails"]}
        for rail in plan["rails"]:
            self._note(rail["supply"], rail["name"])
            self._note(rail["position"], rail["name"])
            self._note(rail["feed"], rail["name"])
        for zone in plan["zones"]:
            for name in zone["rails"]:
                self._note(zone["name"], name)
        for circuit in plan["circuits"]:
            self._circuit(circuit)
        for out in plan["outs"]:
            for name in (out["circuit"], f"{out['rail']}.{out['channel']}", out["position"]):
                self._note(name, out["rail"])
        rails = {circuit["name"]: circuit["rail"] for circuit in plan["circuits"]}
        for cue in plan["cues"]:
            for name in cue["circuits"]:
                self._note(cue["number"], rails.get(name))
                self._note(cue["number"].partition(".")[0], rails.get(name))

    def _circuit(self, circuit: Json) -> None:
        matches = [match["name"] for match in circuit["matches"]]
        address = f"{circuit['rail']}.{circuit['channel']}"
        own = (circuit["name"], address, circuit["position"], circuit["key_effect"])
        for name in (*own, *circuit["devices"], *matches):
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
        """`circuit Curtain-A` and `circuit:Curtain-A` both name `Curtain-A`; a rule or limit is everybody's."""
        if waiver["subject"].startswith(_EVERYWHERE):
            return []
        words = waiver["subject"].replace(":", " ").replace(",", " ").split()
        return [*words, waiver["subject"]]


def waiver_text(waiver: Json) -> str:
    """A waiver as it stands on a sheet: what, why, who answers for it."""
    rule, subject = waiver["rule"], waiver["subject"]
    what = f"{rule} waived for {f'cue {subject}' if subject[:1].isdigit() else subject}"
    if subject.startswith("limit "):
        what = f"{subject} loosened"
    elif subject.startswith("rule "):  # `rule never-fired, now a note`
        what = subject.replace(", now ", " is now ")
    return f"{what}: {waiver['because']} ({waiver['by']})"
