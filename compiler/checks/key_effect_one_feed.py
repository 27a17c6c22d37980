"""Every key effect has two lines that share neither rail nor feed nor supply.

Protects from
    One blown fuse, one dead module or one pulled plug that takes the picture the show is built on.

How it is computed
    Circuits that hold matches of a device marked `key`, each with its rail, its feeds and its supply.
    Whatever is common to all of them is reported, nearest to the matches first, once per effect.
    One line alone is an error as well.

Limit and source
    A key effect must survive any single electrical fault. What still lights after each fault is
    another question than this one.

Breaks it
    falls Curtain of silver-gerb from Q1 to Q2 { count 12 every 1 m; matches 4; fuse quickmatch; key }
    circuit Curtain-A on A.1 { lead 5 m of zip-14; parallel Curtain.odd }
    circuit Curtain-B on A.2 { lead 5 m of zip-14; series Curtain.even }

Keeps it
    circuit Curtain-A on A.1 { lead 5 m of zip-14; parallel Curtain.odd }
    circuit Curtain-B on B.1 { lead 5 m of zip-14; series Curtain.even }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import feed_path, members, rail_of
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, names
from compiler.model.solved import Solved
from compiler.model.types import Device
from grammar.findings import Finding, Related

Part = tuple[str, str]  # kind and name: ("rail", "A"), ("feed", "Pack-1>A"), ("supply", "Pack-1")


def _way(solved: Solved, circuit: str) -> tuple[Part, ...]:
    """What a circuit hangs on, nearest first; empty where it has no address."""
    rail = rail_of(solved, circuit)
    if rail is None:
        return ()
    feeds, supply = feed_path(solved, rail.name)
    found: list[Part] = [("rail", rail.name)]
    for feed in feeds:
        found.append(("feed", feed.name))
        if feed.source in solved.model.rails:
            found.append(("rail", feed.source))
    if supply is not None:
        found.append(("supply", supply))
    return tuple(found)


def _lines(solved: Solved, device: Device) -> list[str]:
    """Circuits that hold matches of a device."""
    wanted = set(device.matches)
    return [
        circuit.name for circuit in solved.model.circuits.values() if not wanted.isdisjoint(members(circuit.wiring))
    ]


def _shared(solved: Solved, lines: list[str]) -> Part | None:
    """The nearest thing all lines hang on; None where there is none or one has no address."""
    ways = [_way(solved, line) for line in lines]
    return next((part for part in ways[0] if all(part in way for way in ways[1:])), None)


def _finding(device: Device, lines: list[str], part: Part | None) -> Finding:
    if part is None:
        headline = f"key effect {device.name} has one line only, {names(lines)}"
    else:
        headline = f"the lines {names(lines)} of key effect {device.name} share {part[0]} {part[1]}"
    kind = "" if part is None else part[0]
    pointed = kind in {"rail", "supply"} and part is not None
    return Finding(
        "key-effect-one-feed",
        headline,
        at=f"device:{device.name}",
        role="key",
        subject=f"device {device.name}",
        values={"lines": lines, "shared": None if part is None else list(part)},
        detail="One fault there takes the whole effect.",
        hint="Put one of the lines on another rail that is fed from another supply, as in "
        f"`circuit {lines[-1]} on B.1 {{ … }}`. {FIELD}",
        related=(
            *(Related(f"circuit:{line}", "a line of it") for line in lines),
            *((Related(f"{kind}:{part[1]}", "shared"),) if pointed and part else ()),
        ),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    for device in solved.model.devices.values():
        if not device.key:
            continue
        lines = _lines(solved, device)
        if len(lines) == 1:
            yield _finding(device, lines, None)
        elif len(lines) > 1:
            part = _shared(solved, lines)
            if part is not None:
                yield _finding(device, lines, part)


RULE = rule("key-effect-one-feed", "error", __doc__, _check, waivable=True)
