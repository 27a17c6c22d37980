"""Seen to fired: prefire off, rounded to the tick; and the closed intervals circuits are alive in.

fired = seen − prefire, rounded to the tick of the cue's rails, half away from zero.
alive = [fired − jitter, fired + longest pulse + jitter], in whole microseconds, so that touching
intervals are seen to touch.
"""

from __future__ import annotations

import math

from compiler.model.solved import Address, Alive, FiredCue, Schedule
from compiler.model.types import Cue, Model, Module
from compiler.vocabulary.names import natural

_MICRO = 1_000_000
_NO_PULSE_S = 0.0


def schedule(model: Model, addresses: dict[str, Address]) -> Schedule:
    """Fired times of all cues and alive intervals of all their circuits.

    A circuit without an address, or on a module without a pulse length, is in no interval.
    """
    fired = [_fire(model, cue, addresses) for cue in model.cues]
    fired.sort(key=lambda cue: (cue.press is not None, natural(cue.press or ""), cue.fired_s, natural(cue.number)))
    alive: list[Alive] = []
    for cue in fired:
        for name in cue.circuits:
            module = _module(model, addresses, name)
            if module is not None:
                alive.append(_alive(cue, name, module))
    alive.sort(key=lambda a: (a.press is not None, natural(a.press or ""), a.from_us, natural(a.circuit)))
    return Schedule(tuple(fired), tuple(alive))


def _module(model: Model, addresses: dict[str, Address], circuit: str) -> Module | None:
    address = addresses.get(circuit)
    return None if address is None else model.modules[model.rails[address.rail].module]


def _fire(model: Model, cue: Cue, addresses: dict[str, Address]) -> FiredCue:
    wanted = cue.lit_s if cue.lit_s is not None else (cue.seen_s or 0.0) - cue.prefire_s.nominal
    ticks = [module.tick_s for name in cue.circuits if (module := _module(model, addresses, name)) is not None]
    fired = to_tick(wanted, max(ticks)) if ticks else round(wanted, 9)
    seen = cue.seen_s if cue.seen_s is not None else fired + cue.prefire_s.nominal
    return FiredCue(
        cue.number,
        cue.text,
        cue.by,
        seen,
        cue.prefire_s,
        wanted,
        fired,
        round(fired - wanted, 9),
        cue.circuits,
        cue.press,
    )


def to_tick(time_s: float, tick_s: float) -> float:
    """The nearest multiple of the tick; half ticks away from zero."""
    ticks = math.floor(abs(time_s) / tick_s + 0.5 + 1e-9)
    return round(math.copysign(ticks * tick_s, time_s) + 0.0, 9) if ticks else 0.0


def _alive(cue: FiredCue, circuit: str, module: Module) -> Alive:
    pulse = module.pulse_s.high if module.pulse_s is not None else _NO_PULSE_S
    fired = round(cue.fired_s * _MICRO)
    jitter = round(module.jitter_s * _MICRO)
    return Alive(circuit, cue.number, fired, fired - jitter, fired + round(pulse * _MICRO) + jitter, cue.press)
