"""The recovering reader: text to syntax tree and findings, whatever the text is.

Lark's lexer cuts the text into tokens; `grammar.mend` repairs the stream (open strings, stray
characters, unbalanced brackets) and reports each repair once; lark's LALR parser then builds
the tree from a stream that it cannot refuse. Nothing recurses: depth is bounded by a number.
"""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

from lark import Lark, Token, Transformer

from grammar.findings import Finding
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
        """Items in parentheses; the span is that of the items."""
        if not children:
            return Group(())
        return Group(tuple(children), children[0].start_pos, children[-1].end_pos)


class _Reader:
    """One lark parser with the mender between its lexer and its parser."""

    def __init__(self) -> None:
        grammar = (Path(__file__).parent / "show.lark").read_text(encoding="utf-8")
        self._build = _Build()
        self._source = Source("", "")
        self._findings: list[Finding] = []
        self._lark = Lark(
            grammar, parser="lalr", lexer="basic", postlex=self, transformer=self._build
        )

    always_accept: Iterable[str] = ()  # asked for by lark's contextual lexer only

    def process(self, stream: Iterator[Token]) -> Iterator[Token]:
        """Called by lark with its lexer's tokens; returns the mended ones."""
        tokens, findings = mend(self._source, list(stream))
        self._findings.extend(findings)
        return iter(tokens)

    def read(self, source: Source) -> tuple[Tree, tuple[Finding, ...]]:
        """Parse one file. Never raises for what the text holds."""
        self._source, self._findings, self._build.file = source, [], source.name
        statements: Any = self._lark.parse(source.text)
        return Tree(source.name, statements), tuple(self._findings)


@cache
def _reader() -> _Reader:
    return _Reader()


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
