"""Saying a lot briefly: `let`, `pattern` and `play`, and tables. Statements in, plain statements out.

Everything made keeps its chain of origins, so that a finding in a pattern also says where it was
played. Expansion is bounded, and patterns do not recurse.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from lark import Token

from compiler.expand.tables import PART_WORDS, part_statements, table_statements
from compiler.model.values import replace
from compiler.vocabulary.kinds import KINDS
from compiler.vocabulary.names import an, did_you_mean, several
from compiler.vocabulary.times import offset_seconds, offset_text
from compiler.vocabulary.units import UNITS
from grammar.findings import Finding, Related, Span
from grammar.source import Source
from grammar.tree import Group, Item, Statement, describe, span_of

MOST_STATEMENTS = 100_000
"""Expansion stops here and says so."""

ARGUMENTS = ("effect", "device", "circuit", "position", "time", "length", "angle", "count", "text", "name")
_NAMED = frozenset(("effect", "device", "circuit", "position", "name"))
_DIMENSIONS = {"time": "time", "length": "length", "angle": "angle"}


@dataclass(slots=True)
class _Pattern:
    name: str
    parameters: list[tuple[str, str]]  # kind, name
    statement: Statement
    span: Span


@dataclass(slots=True)
class Macros:
    """The lets and patterns of a show, and the statements that they make."""

    findings: list[Finding]
    tables: Mapping[tuple[str, str], Source]  # (file that says so, path as written) to the table
    lets: dict[str, tuple[Item, ...]] = field(default_factory=dict)
    patterns: dict[str, _Pattern] = field(default_factory=dict)
    made: int = 0
    stopped: bool = False

    def expand(self, statements: Iterable[Statement]) -> list[Statement]:
        """All statements with lets replaced, patterns played and tables read."""
        plain: list[Statement] = []
        for statement in statements:
            word = _head(statement)
            if word == "let":
                self._let(statement)
            elif word == "pattern":
                self._pattern(statement)
            else:
                plain.append(statement)
        if not (self.lets or self.patterns or any(_needs(s) for s in plain)):
            return plain
        self._settle_lets()
        for pattern in self.patterns.values():
            pattern.statement = self._replaced(pattern.statement, self.lets)
        return [one for statement in plain for one in self._top(self._replaced(statement, self.lets))]

    # --- let ---

    def _let(self, statement: Statement) -> None:
        items = statement.items
        if len(items) < 3 or items[1].type != "NAME" or statement.block is not None:
            self._say("missing-value", "a `let` gives a name to a value", statement.span, "Write `let gap 150 ms`.")
            return
        name = str(items[1])
        if name in self.lets:
            self._say(
                "duplicate-name",
                f"the `let` `{name}` exists already",
                span_of(statement.file, items[1]),
                "Give this one another name.",
            )
            return
        self.lets[name] = items[2:]

    def _settle_lets(self) -> None:
        """Lets may use lets; one that uses itself is a finding and is dropped."""
        settled: dict[str, tuple[Item, ...]] = {}
        waiting = dict(self.lets)
        while waiting:
            ready = {n: v for n, v in waiting.items() if not _mentions(v, set(waiting))}
            if not ready:
                name = min(waiting)
                self._say(
                    "use-cycle", f"the `let` `{name}` is made of itself", Span("", 0, 0), "Give it a plain value."
                )
                break
            for name, value in ready.items():
                settled[name] = tuple(self._items(value, settled))
                del waiting[name]
        self.lets = settled

    # --- patterns ---

    def _pattern(self, statement: Statement) -> None:
        items = statement.items
        if len(items) < 2 or items[1].type != "NAME" or statement.block is None:
            self._say(
                "missing-value",
                "a pattern has a name, its parameters and a block",
                statement.span,
                "Write `pattern Pair(effect E, time S) { … }`.",
            )
            return
        name = str(items[1])
        if name in self.patterns:
            self._say(
                "duplicate-name",
                f"the pattern `{name}` exists already",
                span_of(statement.file, items[1]),
                "Give this one another name.",
            )
            return
        parameters = self._parameters(statement, items[2:])
        self.patterns[name] = _Pattern(name, parameters, statement, span_of(statement.file, items[1]))

    def _parameters(self, statement: Statement, items: tuple[Item, ...]) -> list[tuple[str, str]]:
        found: list[tuple[str, str]] = []
        if not items:
            return found
        group = items[0]
        if not isinstance(group, Group) or len(items) > 1:
            self._say(
                "unexpected-value",
                "the parameters of a pattern stand in parentheses",
                statement.span,
                "Write `pattern Pair(effect E, time S) { … }`.",
            )
            return found
        for part in _split(group.items):
            words = [str(item) for item in part if item.type == "NAME"]
            if len(words) != 2 or len(part) != 2 or words[0] not in ARGUMENTS:
                span = span_of(statement.file, part[0]) if part else statement.span
                kind = words[0] if words else ""
                self._say(
                    "unexpected-value",
                    "a parameter is a kind and a name",
                    span,
                    did_you_mean(kind, ARGUMENTS) or f"Kinds: {', '.join(ARGUMENTS)}.",
                )
                continue
            found.append((words[0], words[1]))
        return found

    # --- playing ---

    def _top(self, statement: Statement) -> Iterator[Statement]:
        word = _head(statement)
        if word == "play":
            yield from self._play_at_top(statement)
        elif word == "table":
            yield from self._table(statement, self.lets, script=False)
        elif word == "script" and statement.block is not None:
            rows = [one for row in statement.block for one in self._line(row, (), self.lets)]
            yield replace(statement, block=tuple(rows))
        else:
            yield statement

    def _line(
        self, row: Statement, playing: tuple[str, ...], values: Mapping[str, tuple[Item, ...]]
    ) -> Iterator[Statement]:
        """One line of a script: itself, or what it plays or reads."""
        if _head(row) == "table":
            for one in self._table(row, values, script=True):
                yield from self._line(one, playing, values)
            return
        row = _after(row)
        if len(row.items) > 1 and row.items[0].type == "TIME" and str(row.items[1]) == "play":
            yield from self._play(row, row.items[2:], offset_seconds(str(row.items[0])), playing)
            return
        self.made += 1
        if self.made > MOST_STATEMENTS:
            if not self.stopped:
                self.stopped = True
                self._say(
                    "too-many",
                    f"the patterns make more than {MOST_STATEMENTS} lines",
                    row.span,
                    "Play less, or fewer times.",
                    row.origin,
                )
            return
        yield row

    def _play(
        self, row: Statement, items: tuple[Item, ...], start: float | None, playing: tuple[str, ...]
    ) -> Iterator[Statement]:
        pattern = self._known(row, items, playing)
        if pattern is None or start is None:
            return
        values = self._arguments(pattern, row, items[1:])
        if values is None:
            return
        origin = (Related(row.span, f"`{pattern.name}` is played here"), *row.origin)
        for inner in pattern.statement.block or ():
            if self.stopped:
                return
            made = self._replaced(inner, values)
            made = _after(replace(made, origin=origin))
            for line in self._line(made, (*playing, pattern.name), {**self.lets, **values}):
                yield _moved(line, start)

    def _known(self, row: Statement, items: tuple[Item, ...], playing: tuple[str, ...]) -> _Pattern | None:
        if not items or items[0].type != "NAME":
            self._say(
                "missing-value",
                "which pattern is played is not said",
                row.span,
                "Write `play Pair(mine-red, 3 s)`.",
                row.origin,
            )
            return None
        name, span = str(items[0]), span_of(row.file, items[0])
        pattern = self.patterns.get(name)
        if pattern is None:
            self._say(
                "unknown-name",
                f"there is no pattern called `{name}`",
                span,
                did_you_mean(name, self.patterns) or "Declare it: `pattern Pair(effect E) { +0:00.0 E at Q1 }`.",
                row.origin,
            )
            return None
        if name in playing:
            self._say(
                "use-cycle",
                f"the pattern `{name}` plays itself",
                span,
                "Patterns do not recurse: write it out.",
                row.origin,
            )
            return None
        return pattern

    def _play_at_top(self, statement: Statement) -> Iterator[Statement]:
        """`play Pair(mine-red, 3 s) from 0:30 numbered 200` is a script of its own."""
        items = statement.items[1:]
        pattern = self._known(statement, items, ())
        if pattern is None:
            return
        rest = 2 if len(items) > 1 and isinstance(items[1], Group) else 1
        head = statement.items[0]
        name, tail = items[0], list(items[rest:])
        for index, item in enumerate(tail):
            if str(item) == "as" and index + 1 < len(tail):
                name = tail[index + 1]
                del tail[index : index + 2]
                break
        rows = tuple(self._play(statement, items[:rest], 0.0, ()))
        yield Statement((_like(head, "NAME", "script"), name, *tail), rows, statement.file, statement.origin)

    def _arguments(
        self, pattern: _Pattern, row: Statement, items: tuple[Item, ...]
    ) -> dict[str, tuple[Item, ...]] | None:
        given = _split(items[0].items) if items and isinstance(items[0], Group) else []
        if len(items) > 1 or (items and not isinstance(items[0], Group)):
            self._say(
                "unexpected-value",
                f"{describe(items[-1])} is not expected after `play`",
                span_of(row.file, items[-1]),
                f"Write `play {pattern.name}({', '.join(kind for kind, _ in pattern.parameters)})`.",
                row.origin,
            )
            return None
        if len(given) != len(pattern.parameters):
            self._say(
                "list-mismatch",
                f"`{pattern.name}` takes {several(len(pattern.parameters), 'value')}, and {len(given)} {'is' if len(given) == 1 else 'are'} given",
                row.span,
                f"It takes {', '.join(f'{kind} {name}' for kind, name in pattern.parameters) or 'none'}.",
                (Related(pattern.span, "declared here"), *row.origin),
            )
            return None
        values: dict[str, tuple[Item, ...]] = {}
        for (kind, name), value in zip(pattern.parameters, given, strict=True):
            if not _fits(kind, value):
                span = span_of(row.file, value[0]) if value else row.span
                self._say(
                    "wrong-dimension",
                    f"`{name}` of `{pattern.name}` is {an(kind)}, and this is none",
                    span,
                    f"Give {an(kind)}.",
                    (Related(pattern.span, "declared here"), *row.origin),
                )
                return None
            values[name] = value[0].items if len(value) == 1 and isinstance(value[0], Group) else value
        return values

    # --- tables ---

    def _table(self, statement: Statement, values: Mapping[str, tuple[Item, ...]], *, script: bool) -> list[Statement]:
        """The rows of a table; lets, and the parameters of the pattern it stands in, are replaced in its cells."""
        items = statement.items
        paths = [item for item in items[1:] if item.type == "TEXT"]
        of = str(items[3]) if len(items) == 4 and str(items[2]) == "of" else ""
        if (
            len(paths) != 1
            or len(items) not in (2, 4)
            or (len(items) == 4 and not self._parts_in(statement, of, script=script))
        ):
            if len(items) != 4 or not of:
                self._say(
                    "missing-value",
                    "a table names one file",
                    statement.span,
                    'Write `table "opening.csv"` for cues, or `table "reels.csv" of cable` for parts.',
                )
            return []
        source = self.tables.get((statement.file, str(paths[0])[1:-1]))
        if source is None:
            return []  # it could not be read, and that is said
        origin = (Related(statement.span, "the table is read here"), *statement.origin)
        if of:
            rows = part_statements(source, KINDS[of], self.findings)
        else:
            rows = table_statements(source, script=script, findings=self.findings)
        return [self._replaced(replace(row, origin=origin), values) for row in rows]

    def _parts_in(self, statement: Statement, of: str, *, script: bool) -> bool:
        """True if a table may hold parts of this kind here."""
        if of in PART_WORDS and not script:
            return True
        if of:
            hint = did_you_mean(of, PART_WORDS) or f"Parts: {', '.join(PART_WORDS)}; outside scripts."
            self._say(
                "unexpected-value",
                f"a table cannot hold `{of}` here",
                span_of(statement.file, statement.items[3]),
                hint,
            )
        return False

    # --- replacing names ---

    def _replaced(self, statement: Statement, values: Mapping[str, tuple[Item, ...]]) -> Statement:
        if not values:
            return statement
        block = statement.block
        return Statement(
            tuple(self._items(statement.items, values)),
            None if block is None else tuple(self._replaced(one, values) for one in block),
            statement.file, statement.origin,
        )  # fmt: skip

    def _items(self, items: Iterable[Item], values: Mapping[str, tuple[Item, ...]]) -> Iterator[Item]:
        for item in items:
            if isinstance(item, Group):
                yield Group(tuple(self._items(item.items, values)), item.start_pos, item.end_pos)
            elif item.type == "NAME" and item in values:
                yield from (_at(value, item) for value in values[str(item)])
            else:
                yield item

    def _say(self, rule: str, headline: str, span: Span, hint: str, related: tuple[Related, ...] = ()) -> None:
        self.findings.append(Finding(rule, headline, span, hint=hint, related=related))


def _head(statement: Statement) -> str:
    head = statement.items[0] if statement.items else None
    return str(head) if head is not None and head.type == "NAME" else ""


def _needs(statement: Statement) -> bool:
    """True if a statement plays a pattern or reads a table."""
    word = _head(statement)
    if word in ("play", "table"):
        return True
    return word == "script" and any(
        _head(row) in ("table", "after") or (len(row.items) > 1 and str(row.items[1]) == "play")
        for row in statement.block or ()
    )


def _after(row: Statement) -> Statement:
    """`after 3 s …` at the head of a line is the offset `+0:03`."""
    items = row.items
    if _head(row) != "after" or len(items) < 3 or items[1].type != "NUMBER":
        return row
    unit = UNITS.get(str(items[2]))
    if unit is None or unit.dimension != "time":
        return row
    token = _like(items[0], "TIME", offset_text(float(str(items[1])) * unit.factor))
    return replace(row, items=(token, *items[3:]))


def _moved(line: Statement, by_s: float) -> Statement:
    head = line.items[0] if line.items else None
    own = offset_seconds(str(head)) if head is not None and head.type == "TIME" else None
    if head is None or own is None:
        return line
    return replace(line, items=(_like(head, "TIME", offset_text(own + by_s)), *line.items[1:]))


def _mentions(items: Iterable[Item], names: set[str]) -> bool:
    for item in items:
        if isinstance(item, Group):
            if _mentions(item.items, names):
                return True
        elif item.type == "NAME" and item in names:
            return True
    return False


def _split(items: tuple[Item, ...]) -> list[tuple[Item, ...]]:
    """Items between commas."""
    parts: list[list[Item]] = [[]]
    for item in items:
        if item.type == "COMMA":
            parts.append([])
        else:
            parts[-1].append(item)
    return [tuple(part) for part in parts] if items else []


def _fits(kind: str, value: tuple[Item, ...]) -> bool:
    if not value:
        return False
    if kind in _NAMED:
        return all(item.type in ("NAME", "GROUP") for item in value) and len(value) == 1
    if kind == "text":
        return len(value) == 1 and value[0].type == "TEXT"
    if kind == "count":
        return len(value) == 1 and value[0].type == "NUMBER"
    unit = UNITS.get(str(value[-1]))
    return value[0].type == "NUMBER" and unit is not None and unit.dimension == _DIMENSIONS[kind]


def _like(item: Item, kind: str, text: str) -> Token:
    return Token(kind, text, item.start_pos, end_pos=item.end_pos)


def _at(value: Item, place: Item) -> Item:
    """A value put where a name stood: findings point at the name."""
    if isinstance(value, Group):
        return Group(tuple(_at(one, place) for one in value.items), place.start_pos or 0, place.end_pos or 0)
    return _like(place, value.type, str(value))
