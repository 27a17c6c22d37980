"""A test bench in the show language: one supply, one bare module, one circuit, everything exact."""

from __future__ import annotations

import tomllib
from pathlib import Path

DATA = Path(__file__).parent / "data"
EXAMPLES = {
    row["id"]: row for row in tomllib.loads((DATA / "blasting_circuits.toml").read_text("utf-8"))["example"]
}

BENCH = """
show "Bench" {{ ambient {ambient}; rules "{rules}" }}
defaults {{ lead line; joint 0 ohm }}
position Hut at 0 m, 0 m
position Field at 10 m, 0 m
cable line {{ {line} }}
cable tail {{ {tail} }}
match cap {{ bridge {cap} ohm; no-fire {no_fire} A; alone {fire} A; series {fire} A; parallel {fire} A; impulse 0.8 .. 3.0 A2ms; group "bench" }}
module bare {{ channels 4; driver 0 ohm; channel-limit 1000 A; rail-limit 1000 A; at-once 4; pulse {pulse} ms; recovery 0 s; circuit 0 .. 100000 ohm; {test}; test-fault 1 mA }}
battery source {{ voltage {volts} V; inner {inner} ohm; limit 10000 A; fuse 10000 A }}
effect spark {{ kind other; match cap }}
supply S of source at Hut
rail A of bare at Hut {{ feed S; spare 0 }}
limits {{ margin 1.5 }}
{wiring}
cue 1 lit at 1:00.0 C
"""


def bench(wiring: str, **values: object) -> str:
    """The bench's text. `wiring` declares devices and the circuit `C` on A.1."""
    given = {
        "ambient": "20 .. 20 degC", "rules": "strict", "line": "resistance 0 ohm per km", "tail": "resistance 0 ohm per km",
        "cap": 1.6, "no_fire": 0.2, "fire": 0.5, "pulse": 10, "test": "test-current 1 mA", "volts": 24, "inner": 0,
    }  # fmt: skip
    return BENCH.format(wiring=wiring, **{**given, **values})


def devices(count: int) -> str:
    """Devices D1 … Dn at the field."""
    return f"device D1..D{count} of spark at Field\n" if count > 1 else "device D1 of spark at Field\n"
