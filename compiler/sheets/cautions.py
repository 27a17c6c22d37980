"""The cautions that stand on every page of a kind of sheet: few, and large."""

from __future__ import annotations

CLEAR = "Before any test or reading: nobody within the area of connected fireworks. Clear it, say so, hear it back."
LIVE = "Every line is live. No hand, head or body over a loaded piece."
SHUNTED = "Each lead stays shunted until it is connected, and goes to the rail last."
ARMED = "Arming counts as firing: nobody goes forward."
RADIO = (
    "Radios off and phones in flight mode near matches, within the distance set for this "
    "site; also while readings are written down."
)
STORM = "Lightning or static about: stop, go away from the pieces, keep everybody clear."
EARTH = "No bare joint on steel or on any earthed metal. Near fire tie with wire, not plastic."

WIRING = (CLEAR, LIVE, SHUNTED, ARMED, RADIO, STORM, EARTH)
WHOLE = "Computed from what the show states, for whole lines as drawn. It shows no fault that a crew can make."
LOAD = (WHOLE, CLEAR)
CUES = (
    ARMED,
    "Anybody forward, or anything unclear: do not fire. Disarm, take the key out, then ask.",
    "A cue that did not light stays live: leave it, note it, and wait the full time after the show.",
)

STANDING = (
    "Local rules, the standard in force, the maker's data and the licensed operator come first.",
    "Induction, static and radio pick-up are not computed here.",
)


def cautions() -> dict[str, list[str]]:
    """Cautions by kind of sheet (`wiring`, `load`, `cues`), and `standing` for every foot."""
    return {
        "wiring": list(WIRING),
        "load": list(LOAD),
        "cues": list(CUES),
        "standing": list(STANDING),
    }
