"""Names, ranges and near misses."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from difflib import get_close_matches
from functools import lru_cache
from typing import NamedTuple

from grammar.findings import Span

MOST_IN_RANGE = 2_000
"""No range makes more names than this."""


class Name(NamedTuple):
    """A name as written, with its place. `text` is one name: ranges are opened before."""

    text: str
    span: Span


_NUMBERED = re.compile(r"^(.*?)(\d+)$")
_LETTERED = re.compile(r"^(.*?)([A-Za-z])$")


def open_range(text: str, step: int = 1) -> list[str] | None:
    """`Q1..Q9` to its nine names, `Q9..Q1` downwards, `A..D` to four; leading zeros kept.

    None if the two ends are no range: other stems, or more than `MOST_IN_RANGE` names.
    """
    first, _, last = text.partition("..")
    ends = _ends(first, last)
    if ends is None or step < 1:
        return None
    stem, low, high, width = ends
    if abs(high - low) // step >= MOST_IN_RANGE:
        return None
    way = step if high >= low else -step
    numbers = range(low, high + (1 if way > 0 else -1), way)
    if width < 0:
        return [stem + chr(number) for number in numbers]
    return [f"{stem}{number:0{width}d}" for number in numbers]


def too_long(text: str, step: int = 1) -> bool:
    """True for a range with good ends that holds more than `MOST_IN_RANGE` names."""
    first, _, last = text.partition("..")
    ends = _ends(first, last)
    return ends is not None and step >= 1 and abs(ends[2] - ends[1]) // step >= MOST_IN_RANGE


def _ends(first: str, last: str) -> tuple[str, int, int, int] | None:
    """Stem, first and last number and width (-1: letters) of a range's ends."""
    one = _NUMBERED.match(first)
    other = _NUMBERED.match(last)
    if one and other:
        if other[1] not in ("", one[1]) or max(len(one[2]), len(other[2])) > 9:
            return None
        padded = any(len(end) > 1 and end.startswith("0") for end in (one[2], other[2]))
        return one[1], int(one[2]), int(other[2]), len(one[2]) if padded else 0
    one, other = _LETTERED.match(first), _LETTERED.match(last)
    if one and other and other[1] in ("", one[1]) and one[2].isupper() == other[2].isupper():
        return one[1], ord(one[2]), ord(other[2]), -1
    return None


@lru_cache(maxsize=65536)
def natural(name: str) -> tuple[tuple[int, int, str], ...]:
    """Sort key in which `A.2` comes before `A.10`."""
    return tuple(_pieces(name))


def _pieces(name: str) -> Iterator[tuple[int, int, str]]:
    for piece in re.findall(r"\d+|\D+", name):
        if piece.isdecimal():
            digits = piece.lstrip("0")
            yield (0, len(digits), digits)
        else:
            yield (1, 0, piece)


_ALIKE = str.maketrans(
    "Il|1OoQ0АВЕКМНОРСТХасеорхуіІΑΒΕΗΙΚΜΝΟΡΤΧΥΖο",
    "111100Q0ABEKMH0PCTXace0pxy11ABEH1KMN0PTXYZ0",
)


def skeleton(name: str) -> str:
    """What a name looks like by headlamp: look-alike letters and scripts folded, zeros dropped."""
    folded = unicodedata.normalize("NFKC", name).translate(_ALIKE).casefold().translate(_ALIKE)
    return re.sub(r"(?<!\d)0+(?=\d)", "", folded.replace("_", "-"))


def closest(word: str, known: Iterable[str], most: int = 1) -> list[str]:
    """Known words near a word, best first; a difference of case alone is the nearest of all."""
    pool = list(dict.fromkeys(known))
    same = [other for other in pool if other.casefold() == word.casefold()]
    near = get_close_matches(word, pool, n=most, cutoff=0.6) if len(pool) < 5000 else []
    return list(dict.fromkeys(same + near))[:most]


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A sentence that offers the nearest known word, or an empty string.

    A word with other digits is another thing (another calibre, another channel): it is never offered as
    what was meant, only named beside others, unless letters stand for digits in it.
    """
    pool = list(dict.fromkeys(known))
    look = skeleton(word)
    alike = [other for other in pool if skeleton(other) == look]
    if alike:
        return f"Did you mean `{alike[0]}`?"
    near = closest(word, pool, 3)
    same = [other for other in near if _digits(other) == _digits(word)]
    if same:
        return f"Did you mean `{same[0]}`?"
    return f"Near it are {', '.join(f'`{other}`' for other in near)}: check the number." if near else ""


def _digits(word: str) -> list[str]:
    return re.findall(r"\d+", word)


def an(what: str) -> str:
    """A noun with its article: `an effect`, `a rail`."""
    return f"{'an' if what[:1] in 'aeio' else 'a'} {what}"


def several(count: int, what: str) -> str:
    """A count with its noun: `1 rail`, `3 supplies`."""
    if count == 1:
        return f"1 {what}"
    return f"{count} {what[:-1]}ies" if what.endswith("y") else f"{count} {what}s"
