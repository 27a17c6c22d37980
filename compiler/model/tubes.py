"""Shells to tubes: racks fill in the order of firing; a shell without a tube of its calibre is told.

Only a show that declares racks is asked for tubes.
"""

from __future__ import annotations

from compiler.expand.book import Book
from compiler.model.types import Device, Model
from compiler.model.values import replace
from compiler.model.wiring import members_of
from compiler.vocabulary.names import natural
from grammar.findings import Finding

_SHELLS = ("shell", "chain")
_SAME_M = 0.0015  # 75 mm and 3 in (76.2 mm) fit the same tube


def fill_tubes(model: Model, book: Book) -> Model:
    """The model with every shell in a tube."""
    if not model.racks:
        return model
    free = {name: [f"{name}.{number}" for number in range(rack.tubes, 0, -1)] for name, rack in model.racks.items()}
    racks = sorted(model.racks.values(), key=lambda rack: natural(rack.name))
    devices = dict(model.devices)
    for device in _by_firing(model):
        effect = model.effects[device.effect]
        if effect.kind not in _SHELLS or effect.calibre_m is None:
            continue
        needed = effect.shells if effect.kind == "chain" else device.count
        tubes: list[str] = []
        for rack in racks:
            fits = rack.position == device.position and abs(rack.calibre_m - effect.calibre_m) <= _SAME_M
            while fits and free[rack.name] and len(tubes) < needed:
                tubes.append(free[rack.name].pop())
        if len(tubes) < needed:
            book.findings.append(_without(device, effect.calibre_m, needed, len(tubes)))
        devices[device.name] = replace(device, tubes=tuple(tubes))
    return replace(model, devices=devices)


def _by_firing(model: Model) -> list[Device]:
    """Devices in the order of firing; those that nothing fires last."""
    fired: dict[str, tuple[object, ...]] = {}
    for cue in model.cues:
        at = cue.lit_s if cue.lit_s is not None else (cue.seen_s or 0.0) - cue.prefire_s.nominal
        for name in cue.circuits:
            for use in members_of(model.circuits[name].wiring) if name in model.circuits else ():
                key = (cue.press is not None, natural(cue.press or ""), at)
                fired.setdefault(model.match_uses[use].device, key)
    last = (True, natural("~"), 0.0)
    return sorted(model.devices.values(), key=lambda d: (fired.get(d.name, last), natural(d.name)))


def _without(device: Device, calibre_m: float, needed: int, free: int) -> Finding:
    missing = needed - free
    size = f"{calibre_m * 1000:.3g} mm"
    tubes = f"{needed} tubes" if needed > 1 else "a tube"
    have = "none is" if free == 0 else f"{free} {'is' if free == 1 else 'are'}"
    return Finding(
        "tube-missing", f"`{device.name}` needs {tubes} of {size} at `{device.position}`, and {have} free",
        f"device:{device.name}", subject=f"device {device.name}",
        values={"calibre_m": calibre_m, "needed": needed, "free": free},
        hint=f"Add a rack: `rack R1 of {max(missing, 5)} tubes {size} at {device.position}`.",
    )  # fmt: skip
