"""Drawings as SVG text, shared by the page and the printed sheets.

Black on white, no colour, no font of their own. They draw what the plan says and compute
nothing about the show.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from math import ceil

WIDE, HIGH = 120, 40  # a pictogram's units
_TOP, _LOW, _MID = 8, 32, 20
_PAIR = 2
_MOST = 3  # matches drawn one by one; more are drawn as three, with a gap before the last


def pictogram(topology: str | None, matches: int) -> str:
    """The kind of a circuit: the channel's two terminals at the left, matches as filled drops.

    Series: one after the other along one conductor. Parallel: across the pair. Mixed: two
    strings across the pair. Not known: a question mark of lines would be read as a fault,
    so only the open pair is drawn.
    """
    draw = _KINDS.get(topology or "", _unknown)
    name = f"{topology or 'unknown'} circuit, matches: {matches}"
    return _svg(WIDE, HIGH, name, [*_terminals(), *draw(matches)])


def _svg(width: float, height: float, name: str, parts: Iterable[str]) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}"'
        f' height="{height}" role="img" aria-label="{escape(name)}">'
        f'<g fill="none" stroke="#000" stroke-width="2" stroke-linecap="round"'
        f' stroke-linejoin="round">{"".join(parts)}</g></svg>'
    )


def _line(*points: tuple[float, float]) -> str:
    path = " ".join(f"{x:g},{y:g}" for x, y in points)
    return f'<polyline points="{path}"/>'


def _terminals() -> Iterator[str]:
    for y in (_TOP, _LOW):
        yield f'<rect x="2" y="{y - 4}" width="8" height="8" fill="#fff"/>'


def _match(x: float, y: float, *, upright: bool) -> str:
    """A match: a filled bead between two short stalks, lying or upright."""
    across, along = (5, 7) if upright else (7, 5)
    return f'<ellipse cx="{x:g}" cy="{y:g}" rx="{across}" ry="{along}" fill="#000"/>'


def _gap(x: float, y: float) -> str:
    """Three dots on white: more of the same."""
    dots = "".join(f'<circle cx="{x + step:g}" cy="{y:g}" r="1.6" fill="#000" stroke="none"/>' for step in (-5, 0, 5))
    return f'<rect x="{x - 9:g}" y="{y - 4:g}" width="18" height="8" fill="#fff" stroke="none"/>{dots}'


def _single(_: int) -> Iterator[str]:
    yield _line((10, _TOP), (96, _TOP), (96, _LOW), (10, _LOW))
    yield _match(96, _MID, upright=True)


def _series(matches: int) -> Iterator[str]:
    yield _line((10, _TOP), (112, _TOP), (112, _LOW), (10, _LOW))
    places = [36, 60] if matches <= _PAIR else [32, 52, 96]
    for x in places:
        yield _match(x, _TOP, upright=False)
    if matches > _MOST:
        yield _gap(74, _TOP)


def _parallel(matches: int) -> Iterator[str]:
    places = [56, 96] if matches <= _PAIR else [40, 62, 106]
    last = places[-1]
    yield _line((10, _TOP), (last, _TOP))
    yield _line((10, _LOW), (last, _LOW))
    for x in places:
        yield _line((x, _TOP), (x, _LOW))
        yield _match(x, _MID, upright=True)
    if matches > _MOST:
        yield _gap(84, _TOP)
        yield _gap(84, _LOW)


def _mixed(_: int) -> Iterator[str]:
    for x in (52, 100):
        yield _line((x, 4), (x, 36))
        for y in (12, 28):
            yield f'<ellipse cx="{x}" cy="{y}" rx="4" ry="5" fill="#000"/>'
    yield _line((10, _TOP), (22, _TOP), (26, 4), (100, 4))
    yield _line((10, _LOW), (22, _LOW), (26, 36), (100, 36))


def _network(_: int) -> Iterator[str]:
    yield from _mixed(0)
    yield _line((52, _MID), (100, _MID))


def _unknown(_: int) -> Iterator[str]:
    yield _line((10, _TOP), (60, _TOP))
    yield _line((10, _LOW), (60, _LOW))


_KINDS = {
    "single": _single,
    "series": _series,
    "parallel": _parallel,
    "mixed": _mixed,
    "network": _network,
}


# --- load against time --------------------------------------------------------------------------

_LEFT, _PLOT, _TALL, _FOOT = 52, 640, 56, 22


def timeline(
    name: str,
    spans: Sequence[tuple[float, float, float]],
    limit_a: float | None,
    show_s: tuple[float, float],
) -> str:
    """One supply's greatest load against show time, with its limit as a dashed line.

    `spans` are (from_s, to_s, amps); `show_s` is the stretch of time drawn. A load shorter
    than the line is wide is drawn as wide as the line: it must not vanish.
    """
    top = max([amps for *_, amps in spans] + [limit_a or 0.0, 1.0]) * 1.12
    start, end = show_s
    scale = _PLOT / max(end - start, 1e-9)
    base = _TALL + 6
    parts = [_line((_LEFT, 6), (_LEFT, base), (_LEFT + _PLOT, base))]
    for column, (width, amps) in sorted(_columns(spans, start, scale).items()):
        tall = amps / top * _TALL
        parts.append(
            f'<rect x="{_LEFT + column}" y="{base - tall:.2f}" width="{width}"'
            f' height="{tall:.2f}" fill="#000" stroke="none"/>'
        )
    parts += _scale(top, limit_a, base)
    parts += _times(start, end, base)
    return _svg(_LEFT + _PLOT + 30, base + _FOOT, f"load of {name} against time", parts)


def _columns(spans: Sequence[tuple[float, float, float]], start: float, scale: float) -> dict[int, tuple[int, float]]:
    """The greatest load in each column of the drawing; a column is one unit wide, drawn as two."""
    columns: dict[int, tuple[int, float]] = {}
    for from_s, to_s, amps in spans:
        first, last = int((from_s - start) * scale), int((to_s - start) * scale)
        for column in range(max(first, 0), min(last, _PLOT - 1) + 1):
            if amps > columns.get(column, (2, 0.0))[1]:
                columns[column] = (2, amps)
    return columns


def _scale(top: float, limit_a: float | None, base: float) -> Iterator[str]:
    yield _text(_LEFT - 6, base + 4, "0 A", "end")
    if limit_a is None:
        yield _text(_LEFT + 8, 14, "limit not stated", "start")
        return
    y = base - limit_a / top * _TALL
    yield (
        f'<line x1="{_LEFT}" x2="{_LEFT + _PLOT}" y1="{y:.2f}" y2="{y:.2f}" stroke-width="1.5" stroke-dasharray="7 5"/>'
    )
    yield _text(_LEFT - 6, y + 4, f"{limit_a:.4g} A", "end")


def _times(start: float, end: float, base: float) -> Iterator[str]:
    step = next((s for s in _STEPS if (end - start) / s <= _TICKS), (end - start) / _TICKS)
    at = ceil(start / step) * step
    while at <= end:
        x = _LEFT + (at - start) / max(end - start, 1e-9) * _PLOT
        yield _line((x, base), (x, base + 4))
        minutes, seconds = divmod(abs(round(at)), 60)
        sign = "\N{MINUS SIGN}" if at < 0 else ""
        yield _text(x, base + 18, f"{sign}{minutes}:{seconds:02d}", "middle")
        at += step


_STEPS = (1.0, 2.0, 5.0, 10.0, 30.0, 60.0, 120.0, 300.0, 600.0, 1800.0, 3600.0)
_TICKS = 10


def _text(x: float, y: float, words: str, anchor: str) -> str:
    return (
        f'<text x="{x:g}" y="{y:.2f}" font-size="13" font-family="sans-serif" fill="#000"'
        f' stroke="none" text-anchor="{anchor}">{escape(words)}</text>'
    )
