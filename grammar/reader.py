"""The recovering reader: text to syntax tree and findings, whatever the text is.

One pattern made of the grammar's terminals cuts the text into tokens; `grammar.mend` repairs the stream (open strings, stray
characters, unbalanced brackets) and reports each repair once; lark's LALR parser then builds
the tree from a stream that it cannot refuse. Nothing recurses: depth is bounded by a number.
"""

from __future__ import annotations

import gc
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from lark import Lark, Token, Transformer
from lark.common import LexerConf
from lark.lexer import Lexer

from grammar.findings import Finding, Span
from grammar.mend import mend
from grammar.source import Source
from grammar.tree import Group, Statement, Tree


class _Block(list[Any]):
    """The statements of one block, on their way into a `Statement`."""


class _Build(Transformer[Any, Any]):
    """Makes our tree while lark reduces; no tree of lark's is ever built."""

    file = ""

    def start(self, children: list[Any]) -> tuple[Statement, ...]:
        """The whole file."""
        return tuple(children)

    def statement(self, children: list[Any]) -> Statement:
        """Items, and the block if the last child is one."""
        if type(children[-1]) is _Block:
            return Statement(tuple(children[:-1]), tuple(children.pop()), self.file)
        return Statement(tuple(children), None, self.file)

    def block(self, children: list[Any]) -> _Block:
        """Statements in braces."""
        return _Block(children)

    def group(self, children: list[Any]) -> Group:
        """Items in parentheses; the span is that of the parentheses."""
        return Group(tuple(children[1:-1]), children[0].start_pos, children[-1].end_pos)


class _Lexer(Lexer):
    """All terminals of the grammar in one pattern, tried in lark's order; about twice as fast as lark's own.

    Every character is some terminal's, so nothing is skipped unseen.
    """

    def __init__(self, conf: LexerConf) -> None:
        terminals = sorted(
            conf.terminals, key=lambda t: (-t.priority, -t.pattern.max_width, -len(t.pattern.value), t.name)
        )
        self._ignored = frozenset(conf.ignore)
        self._pattern = re.compile("|".join(f"(?P<{t.name}>{t.pattern.to_regexp()})" for t in terminals))

    def tokens(self, text: str) -> list[Token]:
        """The tokens of a text with their offsets; lines are counted by nobody here."""
        ignored = self._ignored
        return [
            Token(kind, found.group(), found.start(), end_pos=found.end())
            for found in self._pattern.finditer(text)
            if (kind := found.lastgroup or "") not in ignored
        ]

    def lex(self, lexer_state: Any, parser_state: Any = None) -> Iterator[Token]:
        """Asked by lark: the text's tokens, mended."""
        del parser_state  # only lark's contextual lexer asks it
        reading: _Reading = lexer_state  # what lark was given to parse
        tokens, findings = mend(reading.source, self.tokens(reading.source.text))
        reading.findings.extend(findings)
        return iter(tokens)


@dataclass(slots=True)
class _Reading:
    """One file on its way through lark, and what the mender reports."""

    source: Source
    findings: list[Finding]


class _Reader:
    """One lark parser; our lexer and mender stand before it."""

    def __init__(self) -> None:
        grammar = (Path(__file__).parent / "show.lark").read_text(encoding="utf-8")
        self._build = _Build()
        made: list[_Lexer] = []

        class Kept(_Lexer):
            """Our lexer, kept for pieces of text that are no whole file."""

            def __init__(self, conf: LexerConf) -> None:
                super().__init__(conf)
                made.append(self)

        self._lark = Lark(grammar, parser="lalr", lexer=Kept, transformer=self._build)
        self.lexer = made[0]

    def read(self, source: Source) -> tuple[Tree, tuple[Finding, ...]]:
        """Parse one file. Never raises for what the text holds."""
        self._build.file = source.name
        reading = _Reading(source, [])
        statements: Any = self._lark.parse(reading)
        return Tree(source.name, statements), tuple(reading.findings)


@cache
def _reader() -> _Reader:
    return _Reader()


def tokens_of(text: str, file: str, shift: int = 0) -> tuple[list[Token], tuple[Finding, ...]]:
    """The mended tokens of a piece of a file, as of a table's cell; `shift` is where it starts."""
    tokens, findings = mend(Source(file, text), _reader().lexer.tokens(text))
    for token in tokens:
        token.start_pos, token.end_pos = (token.start_pos or 0) + shift, (token.end_pos or 0) + shift
    moved = (
        replace(f, at=f.at._replace(start=f.at.start + shift, end=f.at.end + shift), edit=None, related=())
        for f in findings
        if isinstance(f.at, Span)
    )
    return tokens, tuple(moved)


def lexed(source: Source) -> tuple[list[Token], tuple[Finding, ...]]:
    """The tokens of a file as they stand, nothing mended, and what the mender has to say about them."""
    tokens = _reader().lexer.tokens(source.text)
    return tokens, tuple(mend(source, tokens)[1])


def read(source: Source) -> tuple[Tree, tuple[Finding, ...]]:
    """Text to syntax tree and findings. Any text gives a tree; nothing raises.

    The garbage collector is paused: on large files it is up to half of the time.
    """
    paused = gc.isenabled()
    gc.disable()
    try:
        return _reader().read(source)
    finally:
        if paused:
            gc.enable()
