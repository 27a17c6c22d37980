"""The language reference, made from the vocabulary: `python -m compiler.vocabulary.reference`.

`grammar/REFERENCE.md` is its output; a test fails when the file is stale.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

from compiler.vocabulary.forms import Clause, Form
from compiler.vocabulary.kinds import KINDS, LINE_KIND, Kind
from compiler.vocabulary.limits import LIMITS
from compiler.vocabulary.units import SPOKEN, units_of

_INTRO = """# The show language

This page is made from the vocabulary and the rules; change those, then make it anew.

A show is a text file of statements. A statement is a head word, then what it says in any order, then perhaps a block in
braces. A newline or `;` ends it, except after a comma and inside parentheses. `#` starts a comment. No word is reserved.

- **Clauses.** A clause is a word and a value: `at Q1`, `spare 2`. A clause stands on the statement's line or, as a
  statement of its own, in its block. The order does not matter, within a statement or among statements.
- **Names** are letters, digits and hyphens, starting with a letter: `zip-14`, `Pylon-W`. `Q1..Q9` is nine names, `Q9..Q1`
  the same downwards, `A..D` four; leading zeros are kept. `Curtain.3` is a match of the falls `Curtain`; `Curtain.odd`,
  `Curtain.even`, `Curtain.1..10 by 3` are some of them. `A.1` is channel 1 of rail `A`.
- **Quantities** carry a unit: `48 m`, `150 ms`, `0.75 mm2`, `18 awg`, `6.4 ohm per 1000 ft`. A tolerance follows as
  `1.6 ohm ± 0.2` or `+- 10 %`; an interval is `5 .. 30 degC`, with its nominal value after it if that is not the middle:
  `21 .. 29.4 V nominal 25.2 V`.
- **Lists** of names are separated by commas. Lists of one statement go in step:
  `rail N1..N3 of dc-8 at Q1..Q3 { feed Bat1..Bat3 through 2 m of trunk-2.5 }`.
- **Times** are `0:06.0`, `3:05.0`, `1:02:03.5`, negative before zero (`-0:10`), and in scripts `+0:02.5` from the
  script's start. Minutes after hours, and seconds, have two digits.
- **Coordinates** are lengths with commas: east, north and perhaps up, as in `-18 m, 12 m, 14 m`.
- **Texts** stand in straight double quotes, on one line.
- A cue line that names effects makes a device and a circuit at each place. Such a circuit is called PLACE-EFFECT-N, where
  N counts by firing time, unless the line says `as NAME`.
- `at` a time is when the audience sees it; the effect's prefire is subtracted. `lit at` is the firing time itself.
- A chase (`every`) makes the parts `102.1`, `102.2`, … of one cue; so do effects of different prefire in one line.
- In a parallel line the matches sit across the pair; in a series line one conductor is cut at each match, the far end is
  joined and the current returns on the other, so both lengths count. `spaced` puts cable between neighbours; members of
  a falls are spaced as they hang; everything else is joined at one point.
"""


_MACROS = """## Saying a lot briefly

These make other statements. What they make keeps its origin: a finding also says where it was made from.

- `let NAME VALUE` gives a name to one or more items: `let gap 150 ms`. The name stands for them everywhere.
- `pattern NAME(KIND NAME, …) { … }` holds lines of a script with parameters in them; kinds are `effect`, `device`, `circuit`,
  `position`, `time`, `length`, `angle`, `count`, `text` and `name`. A line may start with `after 3 s`, or `after` a parameter,
  instead of an offset. Patterns do not play themselves.
- `+0:05.0 play NAME(VALUE, …)` in a script plays a pattern from that offset; `play NAME(…) from 0:30 as NAME numbered 200` outside
  scripts makes a script of it.
- `table "opening.csv"` reads lines of a script, or cues at the top level, from a CSV file (RFC 4180, UTF-8). The first row names
  the columns: `offset` or `time`, `lit`, `cue`, `effect`, `at`, `text`, and any other clause of a cue by its word.
  `table "reels.csv" of cable` reads parts: a column `name`, and one for each clause; `yes` says a flag.

```show
let gap 150 ms
pattern Pair(effect E, position P, time S) {
    +0:00.0 E at P
    after S E at P
}
script Opening from 0:10 numbered 100 {
    +0:02.0 play Pair(mine-red, Q1, 3 s)
    +0:06.0 comet-gold at Q1..Q9 every gap and back
}
```
"""


def reference_text() -> str:
    """The whole page as Markdown, with a newline at its end."""
    parts = [_INTRO, "## Statements\n"]
    for kind in KINDS.values():
        if kind.word not in ("limits", "ruleset"):
            parts.append("\n".join(_kind(kind)))
        if kind.word == "script":
            parts.append("\n".join(_kind(LINE_KIND)))
    parts.append(_MACROS)
    parts.append("\n".join(_limits()))
    parts.append("\n".join(_units()))
    parts.append("\n".join(_rules()))
    return "\n".join(parts).rstrip() + "\n"


def _kind(kind: Kind) -> Iterator[str]:
    title = "a line of a script" if kind.word == "line" else f"`{kind.word}`"
    yield f"### {title}\n"
    yield f"{_sentence(kind.help)}\n"
    yield f"```show\n{kind.example}\n```\n"
    slots = [slot for slot in kind.form.slots if slot.key != "none"]
    for slot in slots:
        need = "" if slot.required else ", if wanted"
        yield f"- {_slot_name(slot.key)}{need}: {slot.shape.expects()}."
    if slots:
        yield ""
    if kind.form.clauses or kind.form.words:
        yield "| clause | takes | default | what it is |"
        yield "|---|---|---|---|"
        for clause in _clauses(kind.form):
            yield _row(clause)
        yield ""


def _clauses(form: Form) -> Iterator[Clause]:
    for group in form.words.values():
        yield from group


def _row(clause: Clause) -> str:
    word = f"`{clause.word} {clause.after}`" if clause.after else f"`{clause.word}`"
    default = clause.default or ("needed" if clause.required else "")
    if default and not clause.required and not clause.default.startswith("by"):
        default = f"`{default}`"
    inner = ""
    if isinstance(clause.shape, Form):
        words = [w for w in clause.shape.words if not w.startswith(("series", "parallel"))]
        inner = f"; then {', '.join(f'`{w}`' for w in words)}" if words else ""
    return f"| {word} | {_cell(clause.shape.expects())}{inner} | {_cell(default)} | {_cell(clause.help)} |"


def _slot_name(key: str) -> str:
    return {"what": "What fires", "names": "Names", "name": "Name", "text": "Text", "offset": "Offset"}.get(
        key, key.capitalize()
    )


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:] + ("" if text.endswith(".") else ".")


def _limits() -> Iterator[str]:
    yield "### `limits` and `ruleset`\n"
    yield "`limits` changes the rule set of the show: tighter freely, looser only with `because` and `by`, which prints as a"
    yield "waiver; limits that are never loosened refuse it. `ruleset` declares a named, dated set with its sources, `like`"
    yield "another one.\n"
    yield f"```show\n{KINDS['limits'].example}\n{KINDS['ruleset'].example}\n```\n"
    yield "| limit | takes | tighter is | may be loosened | what it is |"
    yield "|---|---|---|---|---|"
    for name, kind in LIMITS.items():
        spoken, example = SPOKEN[kind.dimension]
        loosened = "with a reason" if kind.waivable else "never"
        yield f"| `{name}` | {spoken}, as in `{example}` | {kind.tighter} | {loosened} | {kind.help} |"
    yield ""


def _units() -> Iterator[str]:
    yield "## Units\n"
    yield "| what | units |"
    yield "|---|---|"
    for dimension, (spoken, _) in SPOKEN.items():
        units = units_of(dimension)
        if units:
            yield f"| {spoken} | {', '.join(f'`{unit}`' for unit in units)} |"
    yield ""


def _rules() -> Iterator[str]:
    from compiler import checks

    yield "## Rules\n"
    yield "`linstock explain RULE` teaches each: what it protects from, how it is computed, its limit and source, an example"
    yield "that breaks it and one that keeps it.\n"
    yield "| rule | severity | what it says |"
    yield "|---|---|---|"
    for rule in checks.RULES:
        yield f"| `{rule.slug}` | {rule.severity} | {_cell(rule.title)} |"
    yield ""


if __name__ == "__main__":
    sys.stdout.write(reference_text())
