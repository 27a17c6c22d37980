"""Declarations to the model: frozen values in SI, only what is whole enough to compute on."""

from __future__ import annotations

from compiler.expand.book import Book, Decl
from compiler.expand.changes import apply_changes
from compiler.expand.lines import Line, all_lines
from compiler.expand.when import Clockwork
from compiler.limits import rule_set
from compiler.model.labels import label_of
from compiler.model.lines import Lines, Pending, run_of
from compiler.model.outs import out_orders
from compiler.model.parts import Parts
from compiler.model.quantities import Given
from compiler.model.safety import Safety
from compiler.model.site import Site
from compiler.model.tubes import fill_tubes
from compiler.model.types import Circuit, Cue, Model, Note, ShowFacts
from compiler.model.values import replace
from compiler.model.wiring import Wired, members_of
from compiler.vocabulary.forms import Record
from compiler.vocabulary.names import Name, did_you_mean, natural
from grammar.findings import Finding, Related, Span

_JOINT = Given(0.0, 0.005, 0.010)  # one twisted and crimped joint; common practice


def build_model(book: Book) -> Model:
    """Make the model of all declarations. Slips are findings in the book; nothing raises."""
    apply_changes(book)
    show = _single(book, "show")
    chosen = rule_set(book, show.get("rules", "strict"), show.values["rules"].span if "rules" in show.values else None)
    parts = Parts(book, chosen.rules.limits)
    parts.declared()
    facts = _facts(show, _single(book, "defaults"), parts, book)
    clockwork = Clockwork(book, facts.zero)
    site = Site(book, parts)
    wired = Wired(book, parts, site)
    lines = Lines(book, parts, site)
    lines.take(all_lines(book, clockwork))
    safety = Safety(book, clockwork)
    _made_by_lines(book, wired, lines)
    _bind(book, parts, wired, site)
    cues = _cues(book, wired, lines, parts)
    known = {*wired.circuits, *wired.devices, *site.positions, *site.rails, *site.supplies, *(c.number for c in cues)}
    model = Model(
        facts, chosen.rules, parts.matches, parts.cables, parts.batteries, parts.modules, parts.effects,
        site.positions, site.supplies, site.rails, wired.devices, wired.uses, wired.circuits, cues,
        _notes(book, {*known, *safety.roles}), chosen.waivers, site.structures, safety.firing_points, safety.crowds,
        site.racks, safety.zones, safety.holds, safety.winds, clockwork.music, safety.roles,
        severities=chosen.severities, waived=safety.waived(known),
    )  # fmt: skip
    return fill_tubes(replace(model, out_orders=out_orders(model, book, safety)), book)


def _single(book: Book, kind: str) -> Record:
    """The one statement of a kind that is said once; a second one is a finding."""
    decls = book.singles.get(kind, [])
    for decl in decls[1:]:
        book.findings.append(
            Finding("duplicate-property", f"`{kind}` is said twice", decl.record.span, hint="Put all of it into one.")
        )
    if not decls:
        return Record()
    book.put(f"{kind}:", "", decls[0].record.span)
    book.put_record(f"{kind}:", decls[0].record)
    return decls[0].record


def _facts(show: Record, defaults: Record, parts: Parts, book: Book) -> ShowFacts:
    ambient: Given = show.get("ambient", Given(5.0, 17.5, 30.0))
    meter: Record = show.get("meter", Record())
    slack: Record = defaults.get("slack", Record())
    names: tuple[Name, ...] | None = defaults.get("lead")
    lead = parts.cable(names[0]) if names else None
    book.no_lead = "lead" in defaults.broken or (bool(names) and lead is None)
    return ShowFacts(
        show.get("title", ""), show.get("revision", 0), show.get("zero", ""), (ambient.low, ambient.high),
        meter.get("error", 0.1), meter.get("share", 0.015 if not meter.values else 0.0),
        slack.get("length", 2.0), slack.get("share", 0.10 if not slack.values else 0.0),
        defaults.get("route", "along-axes"), lead.name if lead else None, defaults.get("joint", _JOINT),
        label_of(defaults, book),
    )  # fmt: skip


def _made_by_lines(book: Book, wired: Wired, lines: Lines) -> None:
    for device, uses, circuits, pending in lines.devices():
        if device.name in wired.devices or any(circuit.name in wired.circuits for circuit in circuits):
            book.findings.append(
                Finding(
                    "duplicate-name",
                    f"a circuit `{device.name}` exists already",
                    pending.line.record.span_of("as"),
                    hint="Give one of the two another name with `as`.",
                )
            )
            continue
        if circuits[0].rail is not None and not _rail_known(book, wired, pending):
            book.touched.add(device.name)
            continue
        wired.devices[device.name] = device
        wired.uses.update((use.name, use) for use in uses)
        lines.circuits_of[device.name] = tuple(circuit.name for circuit in circuits)
        book.put_line(f"device:{device.name}", pending.line.record, pending.line.statement)
        for circuit in circuits:
            wired.circuits[circuit.name] = circuit
            book.put_line(f"circuit:{circuit.name}", pending.line.record, pending.line.statement)


def _rail_known(book: Book, wired: Wired, pending: Pending) -> bool:
    rail, _ = pending.line.record.get("on")
    span = pending.line.record.span_of("on")
    return book.find(("rail",), Name(rail, span)) is not None and rail in wired.site.rails


def _bind(book: Book, parts: Parts, wired: Wired, site: Site) -> None:
    """Addresses that the show fixes for circuits that a line made."""
    bound: dict[str, Decl] = {}
    for decl in book.singles.get("bind", ()):
        names: tuple[Name, ...] = decl.record.get("circuit", ())
        if not names or "to" not in decl.record.values:
            continue
        name = names[0]
        circuit = wired.circuits.get(name.text)
        if circuit is None:
            _unknown_circuit(book, wired, name)
            continue
        if circuit.rail is not None:
            _bound_twice(book, name, bound.get(name.text))
            continue
        rail, channel = decl.record.get("to")
        if book.find(("rail",), Name(rail, decl.record.span_of("to"))) is None or rail not in site.rails:
            book.touched.add(name.text)
            continue
        bound[name.text] = decl
        wired.circuits[name.text] = _with_lead(replace(circuit, rail=rail, channel=channel), decl, parts, book)
        book.put(f"circuit:{name.text}", "on", decl.record.span_of("to"))


def _with_lead(circuit: Circuit, decl: Decl, parts: Parts, book: Book) -> Circuit:
    if "lead" not in decl.record.values:
        return circuit
    run = run_of(decl.record.get("lead"), parts, book)
    return replace(circuit, wiring=replace(circuit.wiring, lead=run))


def _unknown_circuit(book: Book, wired: Wired, name: Name) -> None:
    if name.text in book.touched or book.has(("circuit",), name.text):
        return
    book.findings.append(
        Finding(
            "unknown-name",
            f"there is no circuit called `{name.text}`",
            name.span,
            hint=did_you_mean(name.text, wired.circuits) or "Circuits of cue lines are called PLACE-EFFECT-N.",
        )
    )


def _bound_twice(book: Book, name: Name, first: Decl | None) -> None:
    where = book.place(f"circuit:{name.text}", "on") if first is None else first.record.span
    book.findings.append(
        Finding(
            "duplicate-property",
            f"the channel of `{name.text}` is said twice",
            name.span,
            hint="Keep one of the two.",
            related=(Related(where, "said first here"),) if where else (),
        )
    )


def _cues(book: Book, wired: Wired, lines: Lines, parts: Parts) -> tuple[Cue, ...]:
    fired_by: dict[str, tuple[str, ...]] = {name: (name,) for name in wired.circuits}
    for circuit in wired.circuits.values():
        for use in members_of(circuit.wiring):
            device = wired.uses[use].device
            if device != circuit.name and device not in wired.circuits:
                fired_by[device] = tuple(dict.fromkeys((*fired_by.get(device, ()), circuit.name)))
    for circuit in wired.circuits.values():
        effects = [parts.effects[wired.devices[wired.uses[u].device].effect] for u in members_of(circuit.wiring)]
        lines.prefires[circuit.name] = Given(
            min(e.prefire_s.low for e in effects), effects[0].prefire_s.nominal, max(e.prefire_s.high for e in effects)
        )
    numbers: dict[str, Line] = {}
    cues = []
    for cue, line in lines.cues(fired_by):
        circuits = tuple(name for name in cue.circuits if name in wired.circuits or name in wired.devices)
        if not circuits and cue.circuits:
            continue  # what it fires is broken, and said so
        first = numbers.setdefault(cue.number, line)
        if first is not line:
            _number_twice(book, cue.number, line.span, first.span)
            book.touched.update(cue.circuits)
            continue
        book.put_line(f"cue:{cue.number}", line.record, line.statement)
        cues.append(cue if circuits == cue.circuits else replace(cue, circuits=circuits))
    return tuple(sorted(cues, key=lambda cue: natural(cue.number)))


def _number_twice(book: Book, number: str, span: Span, first: Span) -> None:
    book.findings.append(
        Finding(
            "duplicate-name",
            f"the cue number {number} is used twice",
            span,
            hint="Number one of them anew.",
            related=(Related(first, "used first here"),),
        )
    )


def _notes(book: Book, known: set[str]) -> tuple[Note, ...]:
    notes = []
    for decl in book.singles.get("note", ()):
        text = decl.record.get("text")
        if text is None:
            continue
        names: tuple[Name, ...] = decl.record.get("about", ())
        if not names and "about" not in decl.record.broken and "about_cues" not in decl.record.values:
            notes.append(Note(text, ""))
        kinds = ("rail", "position", "circuit", "device", "supply", "role")
        notes.extend(Note(text, n.text) for n in names if n.text in known or book.find(kinds, n) is not None)
        for number in decl.record.get("about_cues", ()):
            if any(k == number or k.startswith(f"{number}.") for k in known) or number in book.touched_numbers:
                notes.append(Note(text, number))
            else:
                book.findings.append(
                    Finding(
                        "unknown-name",
                        f"there is no cue {number}",
                        decl.record.span_of("about_cues"),
                        hint="Name the number of a cue.",
                    )
                )
    return tuple(sorted(notes, key=lambda note: (natural(note.about), note.text)))
