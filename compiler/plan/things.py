"""The plan's sections about the show, its rules, the site, what burns, parts and cues."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from compiler.model.solved import FiredCue, Solved
from compiler.model.types import Device, Effect, Model, Waiver
from compiler.plan.circuits import match_names
from compiler.plan.notes import Notes
from compiler.plan.numbers import given, number, plain
from compiler.plan.order import natural, natural_key
from compiler.plan.timecode import timecodes
from grammar.findings import Finding

Json = dict[str, object]
_SEVERITIES = ("error", "warning", "note")


def show(model: Model, notes: Notes) -> Json:
    """The head of the show."""
    facts = model.show
    return {
        "title": facts.title,
        "revision": facts.revision,
        "zero": facts.zero or None,
        "ambient_degC": {"low": number(facts.ambient_c[0]), "high": number(facts.ambient_c[1])},
        "meter": {"ohm": number(facts.meter_ohm), "ratio": number(facts.meter_ratio)},
        "slack": {"length_m": number(facts.slack_m), "ratio": number(facts.slack_ratio)},
        "route": facts.route,
        "joint_ohm": given(facts.joint_ohm),
        "notes": notes.about(""),
    }


def rules(model: Model) -> Json:
    """The rule set in force with every limit, its source and who set it."""
    limits = model.rules.limits
    return {
        "name": model.rules.name,
        "dated": model.rules.dated,
        "limits": [
            {
                "id": limits[name].id,
                "value": number(limits[name].value),
                "unit": limits[name].unit,
                "source": limits[name].source,
                "confidence": limits[name].confidence,
                "waivable": limits[name].waivable,
                "set_by": limits[name].set_by,
            }
            for name in natural(limits)
        ],
    }


def positions(model: Model, notes: Notes) -> list[Json]:
    """The named places of the site, in its own grid."""
    return [
        {
            "name": name,
            "x_m": number(model.positions[name].x_m),
            "y_m": number(model.positions[name].y_m),
            "z_m": number(model.positions[name].z_m),
            "notes": notes.about(name),
        }
        for name in natural(model.positions)
    ]


def devices(model: Model, notes: Notes) -> list[Json]:
    """Everything that burns, with the words that a sheet prints for it."""
    return [_device(model, model.devices[name], notes) for name in natural(model.devices)]


def _device(model: Model, device: Device, notes: Notes) -> Json:
    effect = model.effects.get(device.effect)
    return {
        "name": device.name,
        "effect": device.effect,
        "kind": effect.kind if effect else None,
        "text": _text(device, effect),
        "position": device.position,
        "tilt_deg": number(device.tilt_deg),
        "heading_deg": number(device.heading_deg),
        "tubes": list(device.tubes),
        "shells": effect.shells if effect else 1,
        "shell": effect.shell if effect else None,
        "bursts_s": [number(index * effect.delay_s) for index in range(effect.shells)] if effect else [],
        "count": device.count,
        "spacing_m": number(device.spacing_m),
        "fuse": device.fuse,
        "key": device.key,
        "matches": [_place(model, name) for name in natural(device.matches)],
        "notes": notes.about(device.name),
    }


def _text(device: Device, effect: Effect | None) -> str:
    """`shell-75 (shell, 75 mm)`, `2 × shell-75 (…)`, `silver-gerb (gerb), falls of 30`, `red5 (chain of 5 × shell-75)`."""
    facts = [effect.kind] if effect and effect.kind else []
    if effect and effect.shell is not None:
        facts = [f"chain of {effect.shells} × {effect.shell}, {effect.delay_s * 1000:.0f} ms apart"]
    if effect and effect.calibre_m is not None:
        facts.append(f"{effect.calibre_m * 1000:.0f} mm")
    told = f" ({', '.join(facts)})" if facts else ""
    if device.count == 1:
        return f"{device.effect}{told}"
    if device.spacing_m is not None:
        return f"{device.effect}{told}, falls of {device.count}"
    return f"{device.count} × {device.effect}{told}"


def _place(model: Model, name: str) -> Json:
    use = model.match_uses.get(name)
    return {
        "name": name,
        "igniter": use.igniter if use else None,
        "x_m": number(use.x_m if use else None),
        "y_m": number(use.y_m if use else None),
        "z_m": number(use.z_m if use else None),
    }


# --- parts that the show uses, with their sources -----------------------------------------------


def igniters(model: Model) -> list[Json]:
    """The match types in use."""
    used = {use.igniter for use in model.match_uses.values() if use.igniter in model.matches}
    return [_igniter(model, name) for name in natural(name for name in used if name)]


def _igniter(model: Model, name: str) -> Json:
    match = model.matches[name]
    return {
        "name": name,
        "bridge_ohm": given(match.bridge_ohm),
        "leg_length_m": number(match.leg_length_m),
        "leg_cable": match.leg_cable,
        "no_fire_a": number(match.no_fire_a),
        "alone_a": number(match.fires_alone_a),
        "series_a": number(match.fires_series_a),
        "parallel_a": number(match.fires_parallel_a),
        "impulse_a2s": given(match.impulse_a2s),
        "function_s": number(match.function_s),
        "generic": match.generic,
        "group": match.group,
        "source": match.origin.source,
        "confidence": match.origin.confidence,
    }


def cables(solved: Solved) -> list[Json]:
    """The cable types in use, in circuits, legs and feeds."""
    known = solved.model.cables
    used = {el.part for wiring in solved.wirings.values() for el in wiring.elements.values()}
    used |= {rail.feed.cable or "" for rail in solved.model.rails.values() if rail.feed}
    return [_cable(solved.model, name) for name in natural(name for name in used if name in known)]


def _cable(model: Model, name: str) -> Json:
    cable = model.cables[name]
    return {
        "name": name,
        "metal": cable.metal,
        "ohm_per_m": given(cable.ohm_per_m),
        "alpha_per_k": number(cable.alpha_per_k),
        "limit_a": number(cable.limit_a),
        "source": cable.origin.source,
        "confidence": cable.origin.confidence,
    }


def effects(model: Model) -> list[Json]:
    """The effect types in use."""
    used = {device.effect for device in model.devices.values()}
    return [_effect(model.effects[name]) for name in natural(used) if name in model.effects]


def _effect(effect: Effect) -> Json:
    return {
        "name": effect.name,
        "kind": effect.kind,
        "igniter": effect.match,
        "prefire_s": given(effect.prefire_s),
        "burn_s": number(effect.burn_s),
        "calibre_m": number(effect.calibre_m),
        "source": effect.origin.source,
        "confidence": effect.origin.confidence,
    }


# --- cues ---------------------------------------------------------------------------------------


def cues(solved: Solved, notes: Notes) -> list[Json]:
    """Every cue in firing order, those that count from a press last; cues of one moment by number."""
    steps = {cue.number: cue.chase_step_s for cue in solved.model.cues}
    ordered = sorted(
        solved.schedule.cues,
        key=lambda cue: (cue.press is not None, natural_key(cue.press or ""), cue.fired_s, natural_key(cue.number)),
    )
    return [_cue(solved, cue, steps.get(cue.number), notes) for cue in ordered]


def _cue(solved: Solved, cue: FiredCue, step_s: float | None, notes: Notes) -> Json:
    return {
        "number": cue.number,
        "text": cue.text,
        "by": cue.by,
        "press": cue.press,
        "seen_s": number(cue.seen_s),
        "prefire_s": given(cue.prefire_s),
        "wanted_fired_s": number(cue.wanted_fired_s),
        "fired_s": number(cue.fired_s),
        "rounding_s": number(cue.rounding_s),
        "chase_step_s": number(step_s),
        "timecode": timecodes(cue, solved.model.music.values()),
        "circuits": natural(cue.circuits),
        "devices": natural(_cue_devices(solved.model, cue.circuits)),
        "notes": notes.about(cue.number),
    }


def _cue_devices(model: Model, circuits: Sequence[str]) -> Iterator[str]:
    for name in circuits:
        if name in model.circuits:
            uses = match_names(model.circuits[name].wiring)
            yield from (model.match_uses[u].device for u in uses if u in model.match_uses)


# --- what was waived and what was found ---------------------------------------------------------


def waivers(model: Model) -> list[Json]:
    """Loosened limits and waived rules: what, for what, why and by whom."""

    def key(waiver: Waiver) -> tuple[object, ...]:
        return waiver.rule, natural_key(waiver.subject), waiver.because, waiver.by

    return [
        {"rule": w.rule, "subject": w.subject, "because": w.because, "by": w.by} for w in sorted(model.waivers, key=key)
    ]


def findings(found: Sequence[Finding], places: Callable[[Finding], Json | None]) -> list[Json]:
    """What was found, worst first, then by rule, subject and words; never by source order."""

    def key(finding: Finding) -> tuple[object, ...]:
        known = finding.severity in _SEVERITIES
        rank = _SEVERITIES.index(finding.severity) if known else len(_SEVERITIES)
        return rank, finding.rule, natural_key(finding.subject), finding.headline, finding.role

    return [_finding(finding, places(finding)) for finding in sorted(found, key=key)]


def _finding(finding: Finding, place: Json | None) -> Json:
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "subject": finding.subject,
        "headline": finding.headline,
        "working": finding.working,
        "detail": finding.detail,
        "hint": finding.hint,
        "values": plain(finding.values),
        "waived_by": finding.waived_by,
        "place": place,
    }
