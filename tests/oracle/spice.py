"""Writes networks as one SPICE deck and lets `ngspice -b` solve them.

Every network has its own ground of the same name 0 and a prefix of its own. Currents are
measured by sources of no volt in series, so they are unknowns of the solver and not differences.
A program that fails raises: it never reads as agreement.
"""

from __future__ import annotations

import subprocess
from pathlib import Path

from oracle.nodal import Network, live

from tests.tools import need

Case = tuple[Network, dict[str, float], frozenset[str], tuple[str, ...]]
"""Network, values by key, absent edges, and the keys whose currents are wanted."""


def solve_all(cases: list[Case], folder: Path) -> list[dict[str, float]]:
    """The wanted currents of every case, from `a` to `b` of the first edge of each key."""
    need("ngspice", "ngspice")
    deck, raw = folder / "deck.cir", folder / "deck.raw"
    lines = ["* networks", *(line for k, case in enumerate(cases) for line in _lines(k, case))]
    meters = [f"i({_meter(k, j)})" for k, case in enumerate(cases) for j in range(len(case[3]))]
    lines += [f".save {' '.join(meters[start : start + 50])}" for start in range(0, len(meters), 50)]
    lines += [".control", "set filetype=ascii", "op", f"write {raw.name}", ".endc", ".end", ""]
    deck.write_text("\n".join(lines), encoding="ascii")
    done = subprocess.run(["ngspice", "-b", deck.name], cwd=folder, capture_output=True, text=True, check=False)
    if not raw.exists():
        raise RuntimeError(f"ngspice gave no answer: {done.stdout[-500:]} {done.stderr[-500:]}")
    found = _read(raw)
    return [{key: found[f"i({_meter(k, j)})"] for j, key in enumerate(case[3])} for k, case in enumerate(cases)]


def _meter(case: int, wanted: int) -> str:
    """The name of the source that measures one wanted current."""
    return f"vm{case}x{wanted}"


def _lines(k: int, case: Case) -> list[str]:
    """The cards of one network."""
    network, values, absent, wanted = case
    edges, volts = live(network, values, absent)
    left = {key: j for j, key in enumerate(wanted)}
    lines = []

    def name(node: int) -> str:
        return f"n{k}x{node}" if node else "0"

    for number, v in enumerate(volts):
        lines.append(f"vs{k}x{number} {name(v.a)} {name(v.b)} dc {values[v.key]!r}")
    for number, e in enumerate(edges):
        far = name(e.b)
        j = left.pop(e.key, None)
        if j is not None:
            lines.append(f"{_meter(k, j)} m{k}x{j} {far} dc 0")
            far = f"m{k}x{j}"
        lines.append(f"r{k}x{number} {name(e.a)} {far} {values[e.key] * e.share!r}")
    if left:
        raise ValueError(f"nothing to measure in {sorted(left)}")
    return lines


def _read(raw: Path) -> dict[str, float]:
    """Vectors by name from an ASCII raw file."""
    text = raw.read_text(encoding="ascii", errors="replace").splitlines()
    start, values = text.index("Variables:"), text.index("Values:")
    names = [line.split()[1].lower() for line in text[start + 1 : values]]
    numbers = [line.split()[-1] for line in text[values + 1 :] if line.strip()]
    return dict(zip(names, map(float, numbers), strict=True))
