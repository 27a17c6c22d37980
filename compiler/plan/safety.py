"""The plan's sections about people: who stands where, what is armed when, what is out."""

from __future__ import annotations

import datetime as dt

from compiler.model.solved import Solved
from compiler.model.types import Model, Place
from compiler.plan.notes import Notes
from compiler.plan.numbers import number
from compiler.plan.order import natural
from compiler.plan.outs import cues_out, outs

Json = dict[str, object]


def safety(solved: Solved, notes: Notes) -> Json:
    """Structures, firing points, crowd lines, racks, zones, holds, weather, music, roles, and what is out."""
    model = solved.model
    return {
        "structures": [_place(model.structures[name]) for name in natural(model.structures)],
        "firing_points": [_place(model.firing_points[name]) for name in natural(model.firing_points)],
        "crowds": [
            {"name": name, "points_m": [[number(x) for x in point] for point in model.crowds[name].points_m]}
            for name in natural(model.crowds)
        ],
        "racks": _racks(model),
        "zones": [_zone(model, name, notes) for name in natural(model.zones)],
        "holds": [
            {"name": hold.name, "from_s": number(hold.from_s), "to_s": number(hold.to_s), "because": hold.because}
            for hold in sorted(model.holds, key=lambda h: (h.from_s, h.name))
        ],
        "weather": [
            {"wind_m_s": number(wind.speed_m_s), "from_calibre_m": number(wind.from_calibre_m)} for wind in model.winds
        ],
        "music": [_music(model, name) for name in natural(model.music)],
        "roles": [{"name": role, "notes": notes.about(role)} for role in model.roles],
        "outs": outs(model),
        "cues_out": cues_out(model),
    }


def _place(place: Place) -> Json:
    return {
        "name": place.name, "x_m": number(place.x_m), "y_m": number(place.y_m), "z_m": number(place.z_m),
        "height_m": number(place.height_m),
    }  # fmt: skip


def _racks(model: Model) -> list[Json]:
    filled = {tube: device.name for device in model.devices.values() for tube in device.tubes}
    return [
        {
            "name": name, "position": model.racks[name].position, "calibre_m": number(model.racks[name].calibre_m),
            "tilt_deg": _tilt(model.racks[name].tilt_deg), "heading_deg": number(model.racks[name].heading_deg),
            "tubes": [
                {"tube": f"{name}.{tube}", "device": filled.get(f"{name}.{tube}")}
                for tube in range(1, model.racks[name].tubes + 1)
            ],
        }
        for name in natural(model.racks)
    ]  # fmt: skip


def _tilt(tilt: tuple[float, float] | None) -> Json | None:
    """The tilt of the first tube and of the last."""
    return None if tilt is None else {"first": number(tilt[0]), "last": number(tilt[1])}


def _zone(model: Model, name: str, notes: Notes) -> Json:
    zone = model.zones[name]
    return {
        "name": name, "rails": natural(zone.rails), "role": zone.role, "armed_s": number(zone.armed_s),
        "armed_clock": _clock(model.show.zero, zone.armed_s), "notes": notes.about(name),
    }  # fmt: skip


def _clock(zero: str, at_s: float | None) -> str | None:
    """The time of day at a show time, `20:15:00`; None where the show does not say when it is zero."""
    if at_s is None or " " not in zero:
        return None
    return (dt.datetime.fromisoformat(zero) + dt.timedelta(seconds=at_s)).time().isoformat("seconds")


def _music(model: Model, name: str) -> Json:
    music = model.music[name]
    return {
        "name": name, "rate": music.rate, "drop": music.drop, "starts": music.starts, "at_s": number(music.at_s),
        "delay_s": number(music.delay_s), "press": music.press,
    }  # fmt: skip
