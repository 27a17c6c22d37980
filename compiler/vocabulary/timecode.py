"""Timecode labels to seconds, counted as SMPTE ST 12-1 counts.

29.97 is exactly 30000/1001 frames a second. Drop-frame skips the labels 00 and 01 at the start of
every minute but each tenth, so that labels keep step with the clock; non-drop does not, and falls
3.6 s an hour behind.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

_EXACT = {"24": Fraction(24), "25": Fraction(25), "30": Fraction(30), "29.97": Fraction(30000, 1001)}
_NOMINAL = {"24": 24, "25": 25, "30": 30, "29.97": 30}


class Counted(NamedTuple):
    """Frames since 00:00:00:00 and the exact seconds, or why there are none."""

    frames: int
    seconds: Fraction
    wrong: str = ""


def count(label: str, rate: str, *, drop: bool) -> Counted:
    """Frames and seconds of a label at a rate. `wrong` says why a label does not exist."""
    hours, minutes, seconds, frames = (int(part) for part in label.replace(";", ":").split(":"))
    nominal = _NOMINAL[rate]
    wrong = _wrong(label, (hours, minutes, seconds, frames), nominal, drop=drop)
    if wrong:
        return Counted(0, Fraction(0), wrong)
    total = ((hours * 60 + minutes) * 60 + seconds) * nominal + frames
    if drop:
        whole = hours * 60 + minutes
        total -= 2 * (whole - whole // 10)
    return Counted(total, Fraction(total) / _EXACT[rate])


def _wrong(label: str, fields: tuple[int, int, int, int], nominal: int, *, drop: bool) -> str:
    hours, minutes, seconds, frames = fields
    if hours > 23:
        return "hours run from 00 to 23"
    if minutes > 59 or seconds > 59:
        return "minutes and seconds run from 00 to 59"
    if frames >= nominal:
        return f"frames run from 00 to {nominal - 1}"
    if ";" in label and not drop:
        return "a semicolon marks drop-frame, and this rate drops no labels"
    if drop and frames < 2 and seconds == 0 and minutes % 10:
        return "drop-frame skips this label"
    return ""
