"""Any bytes at all give findings, never a traceback, each in a place of its file, in bounded time.

`LINSTOCK_FUZZ_INPUTS=200000` runs that many inputs, drawn anew each time; otherwise some thousand,
the same in every run.
"""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from . import inputs
from .probe import WORST, probe

ASKED = os.environ.get("LINSTOCK_FUZZ_INPUTS", "")
INPUTS = int(ASKED or 3_000)


def _share(share: float) -> settings:
    return settings(
        max_examples=max(1, round(INPUTS * share)), deadline=None, database=None, derandomize=not ASKED,
        phases=(Phase.explicit, Phase.generate),  # an input that fails is small, and making it smaller takes minutes
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip


@pytest.fixture(scope="module", autouse=True)
def _worst_is_printed() -> Iterator[None]:
    probe(b"cue 1 at 0:06 comet-gold at Q1 lead 5 furlong of zip-18")  # loads the catalogue, the rules and pint: once a process
    WORST.share = 0.0
    yield
    print(f"\n{WORST}\n{WORST.data[:300]!r}")


@_share(0.3)
@given(inputs.soups)
def test_a_soup_of_words_gives_findings_and_no_traceback(text: str) -> None:
    probe(inputs.encoded(text))


@_share(0.25)
@given(inputs.shaped())
def test_right_words_with_wrong_values_give_findings_and_no_traceback(text: str) -> None:
    probe(inputs.encoded(text))


@_share(0.25)
@given(inputs.spoiled())
def test_a_spoiled_show_gives_findings_and_no_traceback(text: str) -> None:
    probe(inputs.encoded(text))


@_share(0.2)
@given(inputs.raw)
def test_raw_bytes_give_findings_and_no_traceback(data: bytes) -> None:
    probe(data)


FRAME = "\n".join(inputs.FRAME)
HARD = {
    "braces without end": b"{" * 100_000,
    "parentheses without end": b"(" * 100_000,
    "closing braces alone": b"}" * 20_000,
    "blocks within blocks": b"circuit C on A.1 { " + b"parallel { series { " * 3_000,
    "groups within groups in one line": (FRAME + "\ncircuit C on A.1 { " + "parallel series " * 3_000 + "D1 }").encode(),
    "deep wiring that closes": (FRAME + "\ncircuit C on A.1 { lead 5 m; " + "series { parallel { " * 19 + "D1, D2" + " } }" * 19 + " }").encode(),
    "one word without end": b"a" * 200_000,
    "a name of dots": b"position " + b"a." * 50_000,
    "one number without end": b"cue " + b"9" * 200_000 + b" at 0:06 comet-gold at Q1",
    "a time without end": b"cue 1 at " + b"1:" * 50_000 + b"1",
    "quotes without end": b'"' * 50_001,
    "a text without end": b'show "' + b"x" * 200_000,
    "lines without end": b"\n" * 200_000,
    "commas without end": b"position Q1, " + b"," * 50_000,
    "a comma at each line's end": b"cue 1 at 0:06 comet-gold at Q1" + b",\n" * 30_000,
    "a name of many units": b"match m { bridge 1 " + b"ohm per " * 20_000 + b" }",
    "nothing but NUL": b"\x00" * 50_000,
    "nothing but marks": "\ufeff".encode() * 20_000,
    "combining marks": "e\u0301\u0301".encode() * 20_000,
    "every stray character": "".join(map(chr, range(1, 0x3000))).encode(),
    "a range as long as allowed": b"position Q1..Q2000 from 0 m, 0 m every 1 mm",
    "a range far too long": b"position Q1..Q99999999 from 0 m, 0 m every 1 mm",
    "a range of a hundred digits": b"position Q1..Q" + b"9" * 100 + b" from 0 m, 0 m every 1 mm",
    "many long ranges": b"\n".join(b"position P%d-1..P%d-1999 from %d m, 0 m every 1 mm" % (n, n, n) for n in range(60)),
    "one range named again and again": b'position Q1..Q1999 from 0 m, 0 m every 1 mm\nnote "x" for ' + b", ".join([b"Q1..Q1999"] * 200),
    "a product of ranges": b"position Q1..Q1900 from 0 m, 0 m every 1 mm, 1 mm\n"
    + b"\n".join(b"cue %d at 0:06 comet-gold, comet-red, mine-gold at Q1..Q1900 count 200 in series" % n for n in range(20)),
    "a chase of chases": b"position Q1..Q1900 from 0 m, 0 m every 1 mm, 1 mm\ncue 1 at 0:06 comet-gold at Q1..Q1900 every 1 ms and back",
    "falls without end": b"\n".join(b"falls F%d of silver-gerb at Q1 { count 2000 every 1 m; matches 1000 }" % n for n in range(300)) + b"\nposition Q1 at 0 m, 0 m",
    "a thousand unknown names": b"\n".join(b"cue %d at 0:06 comet-gild-%d at Q%d" % (n, n, n) for n in range(1_000)),
    "a thousand unknown words": b"\n".join(b"rial R%d of dc-16" % n for n in range(1_000)),
    "a thousand names alike": b"\n".join(b"position %s at %d m, 0 m" % (bytes(b"Il1"[n >> k & 1 :: 3][:1][0] for k in range(10)), n) for n in range(1_000)),
    "a chain of rails": (FRAME + "\n" + "\n".join(f"rail X{n} of dc-16 at Q1 {{ feed X{n + 1} through 1 m of trunk-4 }}" for n in range(2_000))).encode(),
    "a ring of rails": "\n".join(f"rail X{n} of dc-16 at Q1 {{ feed X{(n + 1) % 2_000} through 1 m of trunk-4 }}" for n in range(2_000)).encode() + b"\nposition Q1 at 0 m, 0 m",
    "rule sets like each other": "\n".join(f'ruleset "r{n}" like "r{(n + 1) % 2_000}" {{ margin 2 }}' for n in range(2_000)).encode() + b'\nshow "x" { rules "r0" }',
    "everything in one instant": (
        "position Q1..Q9 from 0 m, 0 m every 1 m\ndefaults { lead zip-18 }\nsupply S of lead-acid-24 at Q1\n"
        + "\n".join(f"rail R{n} of dc-32 at Q1 {{ feed S through 1 m of trunk-6 }}" for n in range(40))
        + "\n" + "\n".join(f"cue {n} lit at 0:06.{n % 10}{n // 10 % 10} comet-gold at Q{n % 9 + 1}" for n in range(1_000))
    ).encode(),
    "numbers beyond all measure": (
        'show "x" { ambient -1e999 .. 5 degC; meter 1e999 ohm plus 1e999 % }\ndefaults { lead zip-18; slack 1e300 m plus 1e999 %; joint 1 ohm +- 1e999 }\n'
        + FRAME + "\ncue 1 at 9999:59:59.9 comet-gold at Q1 tilt -1e999 .. 1e999 deg\ndevice X of comet-gold at Q1 { tilt 1e999 deg }\n"
        "limits { margin 1e999; copper-high 1e999; sun-heating 1e300 K; spare-share 1e999 }\nmatch m { bridge 1e-320 ohm; impulse 1e308 A2s; alone 1e-320 A }"
    ).encode(),
    "numbers so small that they vanish": (
        FRAME + "\nmatch m { bridge 0 ohm; legs none; no-fire 0 A; alone 0 A; series 0 A; parallel 0 A; impulse 0 A2s; function 0 s }\n"
        "cable c { resistance 0 ohm per km; limit 0 A }\nmodule o { channels 1; driver 0 ohm; channel-limit 0 A; rail-limit 0 A; pulse 0 s; recovery 0 s; tick 0.1 ms; circuit 0 ohm; test-resistor 0 ohm; reach 0 m }\n"
        "battery z { voltage 0 V; inner 0 ohm; limit 0 A; fuse 0 A }\nsupply Z of z at Q1\nrail O of o at Q1 { feed Z; serves Q1 }\neffect e { match m }\n"
        "device X of e at Q1\ncircuit C on O.1 { lead 0 m of c; series X }\ncue 1 at 0:00 C\ndefaults { joint 0 ohm }"
    ).encode(),
}  # fmt: skip


@pytest.mark.parametrize("name", HARD)
def test_what_is_made_to_break_a_reader_gives_findings_in_time(name: str) -> None:
    probe(HARD[name])


@pytest.mark.parametrize("data", [b"", b"\n", b"# only a remark", b"\xef\xbb\xbf", b"\xef\xbb\xbf# a remark\r\n", b" \t\r\n;;;\n"])
def test_a_file_that_says_nothing_is_clean(data: bytes) -> None:
    assert [finding.rule for finding in probe(data).findings] == []


def test_files_that_use_each_other_are_read_once_and_the_ring_is_told() -> None:
    files = {f"f{n}.show": f'use "f{(n + 1) % 60}.show"'.encode() for n in range(60)}
    assert {finding.rule for finding in probe(b'use "f0.show"', files).findings} == {"use-cycle"}


def test_a_long_chain_of_files_gives_no_traceback() -> None:
    files = {f"f{n}.show": f'use "f{n + 1}.show"'.encode() for n in range(3_000)}
    assert probe(b'use "f0.show"', files).findings
