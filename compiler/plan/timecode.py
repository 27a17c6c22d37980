"""Timecode labels from seconds, the other way round than `compiler.vocabulary.timecode` counts them.

Counted as SMPTE ST 12-1 counts: 29.97 is 30000/1001 frames a second; drop-frame leaves out the labels
00 and 01 at the start of every minute but each tenth.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from fractions import Fraction

from compiler.model.solved import FiredCue
from compiler.plan.order import natural_key
from compiler.vocabulary.music import Music
from compiler.vocabulary.timecode import count

_EXACT = {"24": Fraction(24), "25": Fraction(25), "30": Fraction(30), "29.97": Fraction(30000, 1001)}
_NOMINAL = {"24": 24, "25": 25, "30": 30, "29.97": 30}
_NEARLY = Fraction(1, 1000)  # of a frame: a time that was rounded to a microsecond is still in its frame


def timecodes(cue: FiredCue, pieces: Iterable[Music]) -> dict[str, object] | None:
    """What the timecode reads when a cue is fired and seen: `{music, fired, seen}`; None without music.

    The music is the one that started last by the time the cue is seen, counted from the same press.
    `seen` is the timecode heard then, `delay_s` behind the one that runs.
    """
    at_s = cue.fired_s if cue.seen_s is None else max(cue.seen_s, cue.fired_s)
    playing = [piece for piece in pieces if piece.press == cue.press and piece.at_s <= at_s]
    if not playing:
        return None
    music = max(playing, key=lambda piece: (piece.at_s, natural_key(piece.name)))
    seen = None if cue.seen_s is None else label_at(music, cue.seen_s - music.at_s - music.delay_s)
    return {"music": music.name, "fired": label_at(music, cue.fired_s - music.at_s), "seen": seen}


def label_at(music: Music, since_s: float) -> str | None:
    """The label of the frame that runs `since_s` seconds after the start of a music; None before it."""
    start = count(music.starts, music.rate, drop=music.drop).frames
    frames = math.floor(Fraction(since_s) * _EXACT[music.rate] + _NEARLY)
    return label(start + frames, music.rate, drop=music.drop) if frames >= 0 else None


def label(frames: int, rate: str, *, drop: bool) -> str:
    """The label of a frame counted from 00:00:00:00; after 24 hours it begins again."""
    nominal = _NOMINAL[rate]
    if drop:
        frames = _with_dropped(frames % (24 * 6 * _TEN_MINUTES))
    seconds, frame = divmod(frames % (24 * 3600 * nominal), nominal)
    minutes, second = divmod(seconds, 60)
    hour, minute = divmod(minutes, 60)
    return f"{hour:02d}:{minute:02d}:{second:02d}{';' if drop else ':'}{frame:02d}"


_TEN_MINUTES = 10 * 60 * 30 - 9 * 2  # frames between two labels whose minute is a tenth
_MINUTE = 60 * 30 - 2


def _with_dropped(frames: int) -> int:
    """The place of a frame in labels at 30 a second, those left out counted too."""
    tens, rest = divmod(frames, _TEN_MINUTES)
    left_out = 18 * tens
    if rest >= 2:
        left_out += 2 * ((rest - 2) // _MINUTE)
    return frames + left_out
