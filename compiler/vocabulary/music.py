"""A piece of music with timecode, as a value."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Music:
    """A piece of music with timecode. `at_s`: show time of its start, or after `press`."""

    name: str
    rate: str  # "25", "29.97"
    drop: bool
    starts: str  # label
    at_s: float
    delay_s: float
    press: str | None
