"""Gathers, per circuit, the worst over all moments in which it is alive."""

from __future__ import annotations

from typing import TYPE_CHECKING

from compiler.circuit.bus import LEAST_OHM

if TYPE_CHECKING:
    from compiler.circuit.moment import Drive
    from compiler.circuit.table import Table


class Gathered:
    """Least currents of one circuit so far; lists are in the order of its matches.

    `least_a`, `nominal_a`, `instant`  at the moment where the match gets least;
    `sibling_a`  the least of the second statement, over all moments;
    `channel_a`, `channel_nominal_a`  the same for the circuit as a whole;
    `broken`     a moment could not be computed, so nothing here may be used.
    """

    __slots__ = (
        "broken",
        "channel_a",
        "channel_nominal_a",
        "instant",
        "least_a",
        "nominal_a",
        "shared",
        "sibling_a",
        "table",
    )

    def __init__(self, table: Table) -> None:
        count = len(table.least)
        infinite = float("inf")
        self.table = table
        self.least_a = [infinite] * count
        self.nominal_a = [infinite] * count
        self.instant: list[int | None] = [None] * count
        self.shared = [False] * count
        self.sibling_a = [infinite] * count
        self.channel_a = infinite
        self.channel_nominal_a = infinite
        self.broken = False

    def take(self, drive: Drive, instant: int | None) -> bool:
        """Count one moment in which the circuit is alive; False where no voltage is left for it."""
        table = self.table
        e, r = drive.least
        e_nominal, r_nominal = drive.nominal
        if e <= 0.0 or e_nominal <= 0.0:
            self.broken = True
            return False
        now = e / ((r + table.high_ohm) or LEAST_OHM)
        if now < self.channel_a:
            self.channel_a = now
            self.channel_nominal_a = e_nominal / ((r_nominal + table.nominal_ohm) or LEAST_OHM)
        for m, (a, b) in enumerate(table.least):
            now = e / ((a + b * r) or LEAST_OHM)
            if now < self.least_a[m]:
                a_nominal, b_nominal = table.nominal[m]
                self.least_a[m] = now
                self.nominal_a[m] = e_nominal / ((a_nominal + b_nominal * r_nominal) or LEAST_OHM)
                self.instant[m] = instant
                self.shared[m] = drive.shorted is not None
            sibling = self._sibling_a(m, drive)
            self.sibling_a[m] = min(self.sibling_a[m], now if sibling is None else sibling)
        return True

    def _sibling_a(self, match: int, drive: Drive) -> float | None:
        """The worse of the quickest other match of the circuit and of the moment shorted."""
        e, r = drive.least
        found = [e / ((a + b * r) or LEAST_OHM) for a, b in self.table.sibling[match]]
        if drive.shorted is not None:
            e_short, r_short = drive.shorted
            a, b = self.table.least[match]
            found.append(max(e_short, 0.0) / ((a + b * r_short) or LEAST_OHM))
        return min(found) if found else None
