"""The electrical engine: wiring trees, exact corners, supplies shared at one instant, readings.

`build_wiring` turns a circuit whose lengths are known into elements and a series-parallel tree;
`solve_show` computes what every match, channel, rail, feed and supply gets.
"""

from __future__ import annotations

from compiler.circuit.show import Solution, solve_show
from compiler.circuit.wiring import build_wiring

__all__ = ["Solution", "build_wiring", "solve_show"]
