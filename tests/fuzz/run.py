"""`python -m tests.fuzz.run --inputs 200000 --workers 2`: many short inputs, each held to what `probe` holds.

Inputs are soups of tokens, shows with tokens deleted, doubled, swapped, replaced or cut off, and raw
bytes, drawn from seeds, so that any failure can be run again. The lines of the language's rooms that
the first inputs reach are counted and printed beside the number of inputs.
"""

from __future__ import annotations

import argparse
import json
import random
import subprocess
import sys
import tempfile
import traceback
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from contextlib import suppress
from pathlib import Path

from compiler.vocabulary.kinds import KINDS, LINE_KIND

from .probe import WORST, probe

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ("grammar", "compiler/expand", "compiler/vocabulary", "compiler/model", "compiler/limits", "compiler/address")
COVERED = 3_000
_NOISE = (
    "{", "}", "(", ")", ";", "\n", ",", '"', "#", "..", "±", "+-", "%", "°C", ":", "=", "“", "\u00a0", "\x00", "-0:10", "+0:02.5", "0:06.0",
    "01:00:00;02", "2027-06-19", "1e999", "-5", "0", "3", "2,5", "m", "ohm", "awg", "ms", "V", "A", "per", "Q1..Q9", "Q9..Q1", "A.1", "Curtain.odd",
    "twice", "in", "series", "parallel", "at", "lit", "on", "own", "channels", "with", "every", "and", "back", "because", "by", "hand", "after",
)  # fmt: skip


def corpus() -> list[str]:
    """Texts to spoil: samples of the rules, examples of the kinds, the first show."""
    samples = sorted((ROOT / "tests" / "rules" / "samples").glob("*.show"))
    texts = [path.read_bytes().decode("utf-8", "replace") for path in samples if path.is_file()]
    texts.append((ROOT / "shows" / "first-show" / "first-show.show").read_text("utf-8"))
    texts.append("\n".join(kind.example for kind in KINDS.values()))
    texts.append("script S from 0:10 numbered 1 {\n" + LINE_KIND.example + "\n}")
    return [text for text in texts if len(text) < 4_000]


def _tokens(text: str) -> list[str]:
    words: list[str] = []
    for line in text.splitlines():
        words.extend(line.split(" "))
        words.append("\n")
    return words


def soup(rng: random.Random, texts: list[str]) -> bytes:
    """Words of the vocabulary and signs in any order."""
    words = [*_NOISE, *KINDS, *rng.choice(texts).split()[:40]]
    return " ".join(rng.choices(words, k=rng.randrange(1, 60))).encode()


def spoiled(rng: random.Random, texts: list[str]) -> bytes:
    """A sound text with a few of its words deleted, doubled, swapped, replaced, or the rest cut off."""
    words = _tokens(rng.choice(texts))
    for _ in range(rng.randrange(1, 6)):
        if not words:
            break
        at = rng.randrange(len(words))
        act = rng.randrange(6)
        if act == 0:
            del words[at]
        elif act == 1:
            words.insert(at, words[at])
        elif act == 2:
            other = rng.randrange(len(words))
            words[at], words[other] = words[other], words[at]
        elif act == 3:
            words[at] = rng.choice(_NOISE)
        elif act == 4:
            word = words[at]
            cut = rng.randrange(len(word) + 1)
            words[at] = word[:cut] + rng.choice(_NOISE) + word[cut:]
        elif rng.random() < 0.2:
            del words[at:]
    return " ".join(words).encode("utf-8", "surrogatepass")


def raw(rng: random.Random, texts: list[str]) -> bytes:
    """Bytes, some of them from a sound text."""
    data = bytearray(rng.choice(texts).encode()[: rng.randrange(400)])
    for _ in range(rng.randrange(1, 20)):
        data.insert(rng.randrange(len(data) + 1), rng.randrange(256))
    return bytes(data)


MAKERS: tuple[Callable[[random.Random, list[str]], bytes], ...] = (soup, spoiled, spoiled, spoiled, raw)


def run(first: int, count: int) -> tuple[int, list[str], str]:
    """Probe `count` inputs from seed `first` on. Gives how many, what failed, and the worst run."""
    texts = corpus()
    with suppress(AssertionError):  # loads everything once, which takes its time
        probe(b"cue 1 at 0:06 comet-gold at Q1 lead 5 furlong of zip-18")
    WORST.share = 0.0
    failed: list[str] = []
    for seed in range(first, first + count):
        rng = random.Random(seed)
        data = rng.choice(MAKERS)(rng, texts)
        try:
            probe(data)
        except BaseException:  # noqa: BLE001  # whatever it is, it is what this looks for
            failed.append(f"seed {seed}: {data!r}\n{traceback.format_exc(limit=-4)}")
    return count, failed, str(WORST)


def reached(count: int) -> str:
    """Lines of the language's rooms that the first inputs reach, counted in a process of its own."""
    with tempfile.TemporaryDirectory() as name:
        data, report = Path(name) / "data", Path(name) / "report.json"
        cover = [sys.executable, "-m", "coverage"]
        sources = ",".join(ROOMS)
        subprocess.run([*cover, "run", f"--data-file={data}", f"--source={sources}", "-m", "tests.fuzz.run", "--bare", str(count)],
                       cwd=ROOT, check=True, stdout=subprocess.DEVNULL)  # fmt: skip
        subprocess.run([*cover, "json", f"--data-file={data}", "-q", "-o", str(report)], cwd=ROOT, check=True)
        totals = json.loads(report.read_text("utf-8"))["totals"]
    hit, lines = totals["covered_lines"], totals["num_statements"]
    return f"{hit} of {lines} lines of {', '.join(ROOMS)} reached by the first {count} inputs ({hit / lines:.1%})"


def bare(count: int) -> None:
    """Compile inputs and judge nothing: for counting lines, which takes its time."""
    texts = corpus()
    for seed in range(count):
        rng = random.Random(seed)
        with suppress(Exception):
            probe(rng.choice(MAKERS)(rng, texts))


def main() -> int:
    """Run and print; 1 if anything failed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--inputs", type=int, default=200_000)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--first", type=int, default=0, help="seed of the first input")
    parser.add_argument("--bare", type=int, help=argparse.SUPPRESS)
    said = parser.parse_args()
    if said.bare is not None:
        bare(said.bare)
        return 0
    share = -(-said.inputs // (said.workers * 20))
    starts = range(said.first, said.first + said.inputs, share)
    failed: list[str] = []
    done = 0
    with ProcessPoolExecutor(said.workers) as pool:
        jobs = [pool.submit(run, start, min(share, said.first + said.inputs - start)) for start in starts]
        for job in jobs:
            count, wrong, worst = job.result()
            done += count
            failed += wrong
            print(f"{done} inputs, {len(failed)} failed; {worst}", flush=True)
    for text in failed[:20]:
        print(text)
    print(reached(min(COVERED, said.inputs)))
    return 1 if failed else 0


if __name__ == "__main__":
    raise SystemExit(main())
