"""What is taken out: a place, a rail, a device or a cue. Numbers, steps and addresses of the rest stay.

Channels are found as if nothing were out, so that nothing else moves. Then what is out leaves the
model, and the plan lists it: its sheet says to take it off and shunt it.
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.expand.book import Book
from compiler.model.safety import Safety
from compiler.model.solved import Address
from compiler.model.types import Circuit, Model, Out, OutOrder
from compiler.model.values import replace
from compiler.model.wiring import members_of
from compiler.vocabulary.names import Name
from grammar.findings import Span


def out_orders(model: Model, book: Book, safety: Safety) -> tuple[OutOrder, ...]:
    """Every `out` of the show, each thing by its kind and name; unknown names are findings."""
    orders: list[OutOrder] = []
    for decl in book.singles.get("out", ()):
        record = decl.record
        names: tuple[Name, ...] = record.get("names", ())
        numbers: tuple[str, ...] = record.get("cues", ())
        if not names and not numbers and not record.broken:
            safety.say(
                "missing-value",
                "what is taken out is not said",
                record.span,
                'Write `out Q4 because "…" by "…"`, or `out cue 12 because …`.',
            )
        if not (names or numbers) or not safety.answered_for(record, "something is taken out"):
            continue
        because, by = record.get("because"), record.get("by")
        for name in names:
            kind = _kind(model, name.text)
            if kind is None:
                book.find(("position", "rail", "device", "circuit"), name)
            else:
                orders.append(OutOrder(kind, name.text, because, by))
        orders.extend(
            OutOrder("cue", number, because, by)
            for number in numbers
            if _known_cue(model, number, safety, record.span_of("cues"))
        )
    return tuple(orders)


def _kind(model: Model, name: str) -> str | None:
    for kind, known in (
        ("position", model.positions),
        ("rail", model.rails),
        ("device", model.devices),
        ("circuit", model.circuits),
    ):
        if name in known:
            return kind
    return None


def _numbers(model: Model, number: str) -> list[str]:
    """A cue and all its parts."""
    return [cue.number for cue in model.cues if cue.number == number or cue.number.startswith(f"{number}.")]


def _known_cue(model: Model, number: str, safety: Safety, span: Span) -> bool:
    if _numbers(model, number) or number in safety.book.touched_numbers:
        return True
    safety.say("unknown-name", f"there is no cue {number}", span, "Name the number of a cue.")
    return False


def without_outs(model: Model, addresses: dict[str, Address]) -> Model:
    """The model without what is out; `outs` lists it with its channel."""
    if not model.out_orders:
        return model
    cues_out = {
        number: order for order in model.out_orders if order.kind == "cue" for number in _numbers(model, order.name)
    }
    outs: dict[str, Out] = {}
    for order in model.out_orders:
        for circuit in _circuits(model, order, addresses, cues_out):
            address = addresses.get(circuit.name)
            outs.setdefault(circuit.name, Out(
                circuit.name, address.rail if address else None, address.channel if address else None, circuit.place,
                f"{'place' if order.kind == 'position' else order.kind} {order.name}", order.because, order.by,
            ))  # fmt: skip
    circuits = {name: circuit for name, circuit in model.circuits.items() if name not in outs}
    wired = {use for circuit in circuits.values() for use in members_of(circuit.wiring)}
    gone = {use for name in outs for use in members_of(model.circuits[name].wiring)} - wired
    devices = {name: device for name, device in model.devices.items() if not set(device.matches) <= gone}
    uses = {name: use for name, use in model.match_uses.items() if name not in gone or use.device in devices}
    cues = tuple(
        replace(cue, circuits=tuple(name for name in cue.circuits if name not in outs))
        for cue in model.cues
        if cue.number not in cues_out and not (cue.circuits and all(n in outs for n in cue.circuits))
    )
    kept = {cue.number for cue in cues}
    gone_cues = tuple(cue for cue in model.cues if cue.number not in kept)
    return replace(model, circuits=circuits, devices=devices, match_uses=uses, cues=cues, outs=outs, cues_out=gone_cues)


def _circuits(
    model: Model, order: OutOrder, addresses: dict[str, Address], cues_out: dict[str, OutOrder]
) -> Iterable[Circuit]:
    for circuit in model.circuits.values():
        address = addresses.get(circuit.name)
        if order.kind == "position":
            on_it = address is not None and model.rails[address.rail].position == order.name
            is_out = circuit.place == order.name or on_it
        elif order.kind == "rail":
            is_out = address is not None and address.rail == order.name
        elif order.kind == "device":
            is_out = set(members_of(circuit.wiring)) <= set(model.devices[order.name].matches)
        elif order.kind == "circuit":
            is_out = circuit.name == order.name
        else:
            firing = [cue.number for cue in model.cues if circuit.name in cue.circuits]
            is_out = bool(firing) and all(number in cues_out for number in firing)
        if is_out:
            yield circuit
