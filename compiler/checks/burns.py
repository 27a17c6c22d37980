"""How long what a cue fires is in the air or alight, shared by the rules of holds."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from compiler.checks.lookups import devices_of
from compiler.checks.words import clock, quantity
from compiler.model.solved import FiredCue, Solved
from compiler.model.types import Device, Effect


class Burn(NamedTuple):
    """One device of a cue, from its firing to the end of what is stated, in seconds of show time."""

    cue: FiredCue
    device: Device
    effect: Effect
    to_s: float

    @property
    def from_s(self) -> float:
        """The firing time: from then on it is in the air."""
        return self.cue.fired_s

    def words(self) -> str:
        """``lit 0:10.0 + prefire 2.7 s + burn 1.5 s = 0:14.2``."""
        return (
            f"lit {clock(self.from_s)} + prefire {quantity(self.effect.prefire_s.high, 's')} "
            f"+ burn {quantity(seen_for_s(self.effect), 's')} = {clock(self.to_s)}"
        )


def seen_for_s(effect: Effect) -> float:
    """From the first that is seen of it to the last: a chain lasts to its last burst and that one's burn.

    A stated burn of a chain that is shorter than its bursts take is taken for the burn of the last one.
    What states no burn counts with what is known: `burn-unknown` tells it.
    """
    bursts_s = (effect.shells - 1) * effect.delay_s
    burn_s = effect.burn_s or 0.0
    return burn_s if burn_s >= bursts_s else bursts_s + burn_s


def burns(solved: Solved) -> Iterator[Burn]:
    """Every device that a cue of show time fires, in firing order."""
    for cue in solved.schedule.cues:
        if cue.press is not None:
            continue
        for device in devices_of(solved, cue):
            effect = solved.model.effects.get(device.effect)
            if effect is not None:
                yield Burn(cue, device, effect, cue.fired_s + effect.prefire_s.high + seen_for_s(effect))
