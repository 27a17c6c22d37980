"""What stands on a circuit's label: a template of the show, filled when the channel is known."""

from __future__ import annotations

import re
from collections.abc import Mapping

from compiler.expand.book import Book
from compiler.model.solved import Address
from compiler.model.types import Model
from compiler.model.values import replace
from compiler.model.wiring import members_of
from compiler.vocabulary.forms import Record
from compiler.vocabulary.names import did_you_mean
from grammar.findings import Finding

FIELDS = ("rail", "channel", "place", "effect", "circuit", "cue")
DEFAULT = "{rail}.{channel} {place}"
_FIELD = re.compile(r"\{([^{}]*)\}")


def label_of(defaults: Record, book: Book) -> str:
    """The show's template; a field that is none is a finding, and the default holds."""
    template: str = defaults.get("label", DEFAULT)
    for found in _FIELD.finditer(template):
        if found[1] not in FIELDS:
            book.findings.append(
                Finding(
                    "unknown-name",
                    f"a label has no field `{{{found[1]}}}`",
                    defaults.span_of("label"),
                    hint=did_you_mean(found[1], FIELDS) or f"Fields: {', '.join(f'`{{{f}}}`' for f in FIELDS)}.",
                )
            )
            return DEFAULT
    return template


def filled(template: str, values: dict[str, str]) -> str:
    """A label with its fields filled in."""
    return _FIELD.sub(lambda found: values.get(found[1], ""), template).strip()


def labelled(model: Model, addresses: Mapping[str, Address]) -> Model:
    """The model with every circuit's label filled in."""
    fired = {name: cue.number for cue in reversed(model.cues) for name in cue.circuits}
    circuits = {}
    for name, circuit in model.circuits.items():
        address = addresses.get(name)
        device = model.devices[model.match_uses[next(members_of(circuit.wiring))].device]
        values = {
            "rail": address.rail if address else "?", "channel": str(address.channel) if address else "?",
            "place": circuit.place, "effect": device.effect, "circuit": name, "cue": fired.get(name, ""),
        }  # fmt: skip
        circuits[name] = replace(circuit, label=filled(model.show.label, values))
    return replace(model, circuits=circuits)
