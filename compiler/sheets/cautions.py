"""The cautions that stand on every page of a kind of sheet: few, and large."""

from __future__ import annotations

CLEAR = "Test or reading: nobody near connected fireworks. Clear the area, say so, hear it back."
LIVE = "Every line is live: nobody over a loaded piece."
SHUNTED = "Leads shunted until connected; to the rail last."
ARMED = "Arming counts as firing: nobody goes forward."
RADIO = "Radios off, phones in flight mode within the site's distance, readings too."
STORM = "Lightning or static: stop, get everybody clear."
EARTH = "No bare joint on steel or earthed metal; near fire tie with wire."

WIRING = (CLEAR, LIVE, SHUNTED, ARMED, RADIO, EARTH, STORM)
WHOLE = "Computed from what the show states, for whole lines as drawn. It shows no fault that a crew can make."
LOAD = (WHOLE, CLEAR)
CUES = (
    ARMED,
    "Anybody forward, or anything unclear: do not fire. Disarm, take the key out, then ask.",
    "A cue that did not light stays live: leave it, note it, and wait the full time after the show.",
)

STANDING = (
    "Local rules, the standard in force, maker's data and the licensed operator come first.",
    "Not computed: induction, static, radio.",
)


def cautions() -> dict[str, list[str]]:
    """Cautions by kind of sheet (`wiring`, `load`, `cues`), and `standing` for every foot."""
    return {
        "wiring": list(WIRING),
        "load": list(LOAD),
        "cues": list(CUES),
        "standing": list(STANDING),
    }
