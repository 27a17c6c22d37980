"""Inputs: token soups, statements of the right shape with wrong insides, spoiled shows, raw bytes."""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import strategies as st

from compiler.vocabulary.kinds import KINDS
from compiler.vocabulary.units import UNITS

ROOT = Path(__file__).resolve().parents[2]

# --- words ------------------------------------------------------------------------------------------

CLAUSE_WORDS = sorted({clause.word for kind in KINDS.values() for clause in kind.form.clauses})
NAMES = (
    "Q1", "Q2", "Q1..Q9", "Q9..Q1", "Q1..Q0", "A", "B", "A.1", "A.2", "A.99999", "D1", "D2", "D1..D3", "Row", "Row.1", "Row.odd",
    "Row.even", "Row.1..3", "Pack-1", "generic-match", "comet-gold", "shell-75", "silver-gerb", "dc-16", "lead-acid-24", "trunk-4",
    "zip-18", "bell-24", "own", "none", "nominal", "back", "copper", "shell", "straight", "é", "Ω", "名", "ﬁ", "A1..Z9", "a..Z",
)  # fmt: skip
NUMBERS = (
    "0", "1", "2", "3", "-1", "007", "1.5", ".5", "5.", "1e3", "1e-9", "1e999", "-1e999", "1e-999", "99999999999999999999", "٣", "²",
    "0.1", "250", "10000", "-0",
)  # fmt: skip
TIMES = ("0:06.0", "1:02:03.5", "-0:10", "+0:02.5", "0:75.0", "99:99:99", "9999:59", "+0:00.0", "00:00:00:00", "0:0", "2027-06-19", "2027-99-99", "22:15:00")
TEXTS = ('"A text"', '""', '"', '"strict"', '"a.show"', '"../x"', '"\u202e"', '"\x00"', "“x”", "'")
SIGNS = ("{", "}", "(", ")", ",", "..", ";", "\n", "\n    ", "+-", "±", "%", "°C", "#", "# note\n", "=", "$", "\\", "/", ".", "-", "\t", "\r\n", "\ufeff")
STRANGE = ("\x00", "\x1b[2J", "\u200b", "\u202e", "\u2028", "\u0085", "\U0001f386", "e\u0301", "\ufffd", "\ud7ff", "\uffff", "１２", "Ⅻ", "\x0c", "\x0b")

UNIT_WORDS = tuple(unit for unit in UNITS if unit != "%")
WORDS = (*KINDS, *KINDS, *CLAUSE_WORDS, *NAMES, *NUMBERS, *TIMES, *TEXTS, *SIGNS, *SIGNS, *UNIT_WORDS, *STRANGE, "per", "by")
soups = st.lists(st.sampled_from(WORDS), max_size=120).map(" ".join)

# --- statements of the right shape ------------------------------------------------------------------

quantities = st.builds("{} {}".format, st.sampled_from(NUMBERS), st.sampled_from(UNIT_WORDS))
spreads = st.one_of(
    quantities,
    st.builds("{} +- {} %".format, quantities, st.sampled_from(NUMBERS)),
    st.builds("{} .. {}".format, st.sampled_from(NUMBERS), quantities),
    st.builds("{} .. {} nominal {}".format, quantities, quantities, quantities),
    st.builds("{} of {}".format, quantities, st.sampled_from(NAMES)),
    st.builds("{}, {}, {}".format, quantities, quantities, quantities),
    st.builds("{} plus {} %".format, quantities, st.sampled_from(NUMBERS)),
)
items = st.one_of(spreads, st.sampled_from((*NAMES, *NUMBERS, *TIMES, *TEXTS)), st.builds("{}, {}".format, st.sampled_from(NAMES), st.sampled_from(NAMES)))


@st.composite
def shaped(draw: st.DrawFn) -> str:
    """Statements whose words are the right ones and whose values are anything."""
    rows = []
    for _ in range(draw(st.integers(1, 8))):
        kind = draw(st.sampled_from(sorted(KINDS)))
        words = [clause.word for clause in KINDS[kind].form.clauses] or ["at"]
        clauses = draw(st.lists(st.tuples(st.sampled_from(words), items), max_size=5))
        head = f"{kind} {draw(items)}"
        body = [f"{word} {value}" for word, value in clauses]
        rows.append(f"{head} {{ {'; '.join(body)} }}" if draw(st.booleans()) else " ".join((head, *body)))
    return "\n".join((*draw(st.sampled_from((FRAME, ()))), *rows))


FRAME = (
    "position Q1..Q9 from 0 m, 0 m every 10 m", "supply Pack-1 of lead-acid-24 at Q1",
    "rail A of dc-16 at Q1 { feed Pack-1 through 3 m of trunk-4 }", "device D1..D3 of silver-gerb at Q2",
    "falls Row of silver-gerb at Q3 { count 6 every 1 m; matches 3 }", "defaults { lead zip-18 }",
)  # fmt: skip
"""Enough of a show for odd statements to reach the circuits."""

# --- spoiled shows ----------------------------------------------------------------------------------

_TOKENS = re.compile(r'"[^"\n]*"|[\w.:-]+|\s+|.', re.DOTALL)


def _windows() -> tuple[str, ...]:
    """Whole small shows, stretches of the large one, and every example of the vocabulary."""
    shows = sorted((ROOT / "shows").rglob("*.show"))
    texts = [path.read_text(encoding="utf-8") for path in shows]
    small = [text for text in texts if len(text) < 4_000]
    examples = "\n".join(kind.example for kind in KINDS.values() if kind.word not in ("use", "match"))
    return (*small, examples, *(f"{chr(10).join(FRAME)}\n{kind.example}" for kind in KINDS.values()))


BASES = _windows()


@st.composite
def spoiled(draw: st.DrawFn) -> str:
    """A show with tokens deleted, doubled, swapped or replaced, cut off somewhere, or wrapped in braces."""
    tokens = _TOKENS.findall(draw(st.sampled_from(BASES)))
    for _ in range(draw(st.integers(1, 8))):
        if not tokens:
            break
        at = draw(st.integers(0, len(tokens) - 1))
        match draw(st.sampled_from(("delete", "double", "swap", "replace", "insert", "cut", "wrap", "move"))):
            case "delete":
                del tokens[at : at + draw(st.integers(1, 4))]
            case "double":
                tokens[at:at] = tokens[at : at + draw(st.integers(1, 40))]
            case "swap":
                other = draw(st.integers(0, len(tokens) - 1))
                tokens[at], tokens[other] = tokens[other], tokens[at]
            case "replace":
                tokens[at] = draw(st.sampled_from(WORDS))
            case "insert":
                tokens.insert(at, draw(st.one_of(st.sampled_from((*STRANGE, *SIGNS, *NUMBERS)), st.text(max_size=3))))
            case "cut":
                tokens = tokens[:at] if draw(st.booleans()) else tokens[at:]
            case "wrap":
                deep = draw(st.sampled_from((1, 3, 30, 500)))
                tokens[at : at + 1] = ["{ " * deep, tokens[at], " }" * deep]
            case _:
                tokens.append(tokens.pop(at))
    return "".join(tokens)


# --- bytes ------------------------------------------------------------------------------------------

raw = st.one_of(
    st.binary(max_size=2_000),
    st.builds(lambda head, tail: head.encode() + tail, soups, st.binary(max_size=50)),
    st.builds(lambda text, at, byte: text.encode()[:at] + byte + text.encode()[at:], st.sampled_from(BASES), st.integers(0, 3_000), st.binary(min_size=1, max_size=4)),
    st.text(max_size=400).map(lambda text: text.encode("utf-16")),
)


def encoded(text: str) -> bytes:
    """UTF-8, whatever the text holds."""
    return text.encode("utf-8", "surrogatepass")
