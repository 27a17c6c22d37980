"""Repairs of the token stream, each reported once, so that the parser cannot fail.

What a slip of the hand does to text: a quote or a bracket is missing or one too many, a stray
character stands in the way. Each is a finding with its place and the mend.
"""

from __future__ import annotations

import re

from lark import Token

from grammar.findings import Edit, Finding, Related, Span
from grammar.source import Source

DEEPEST = 40
"""Blocks nested deeper than this are reported and left out."""

_DASH = "A range is written with two dots: `Q1..Q9`; a minus is a plain `-` before its number."
_HINTS = {
    "–": _DASH,
    "—": _DASH,
    "…": "A range is written with two plain dots: `Q1..Q9`.",
    ".": "A range is written with two dots: `Q1..Q9`.",
    "/": "A comment starts with `#`.",
    "&": "Names in a list are separated by commas: `Q1, Q2`.",
    ":": "A time is written as `0:06.0`; a property and its value need no sign between them.",
    "=": "A property and its value need no sign between them: `count 30`.",
    "'": "Write texts in double quotes, and feet and minutes as `ft` and `min`.",
}
_MINUS_SIGNS = frozenset("−‒–—―")
_DIGITS = re.compile(r"\d+(?:\.\d+)?")
_RANGE_SIGNS = frozenset("–—…")
_GAP = re.compile(r"(?:[ \t]|#[^\n]*|\r?\n)*")
_CURLY = "“”„«»"
_SPECIAL = frozenset(("OTHER", "OPEN_TEXT", "INCHES", "CURLY_TEXT", "LPAR", "RPAR", "_LBRACE", "_RBRACE", "_END"))
_REPLACEMENT = "\ufffd"


def mend(source: Source, tokens: list[Token]) -> tuple[list[Token], list[Finding]]:
    """The tokens with every repair made, and a finding for each repair."""
    work = _Mender(source)
    work.closed_parens(tokens)
    work.balance = max(0, sum((t.type == "_LBRACE") - (t.type == "_RBRACE") for t in tokens))
    work.missing = work.balance + _extra(tokens)
    for index, token in enumerate(tokens):
        if work.watching or token.type in _SPECIAL:
            work.special(index, token)
        else:
            work.out.append(token)
    work.finish()
    return work.out, work.findings


def _extra(tokens: list[Token]) -> int:
    """Closing braces that stand behind a block of their own line: each may hide one that is missing."""
    depth, opened, extra = 0, False, 0
    for token in tokens:
        kind = token.type
        if kind == "_LBRACE":
            depth, opened = depth + 1, True
        elif kind == "_RBRACE":
            extra += opened and depth == 0
            depth = max(0, depth - 1)
        elif kind == "_END" and "\n" in token:
            depth, opened = 0, False
    return extra


class _Mender:
    def __init__(self, source: Source) -> None:
        self.source = source
        self.out: list[Token] = []
        self.findings: list[Finding] = []
        self.braces: list[tuple[Token, bool]] = []  # opener, kept
        self.parens = 0
        self.good_parens: set[int] = set()
        self.after_brace = False
        self.new_line = False
        self.balance = 0  # closing braces that the file lacks
        self.missing = 0  # the same, and as many as others too many may hide
        self.told_line = -1

    @property
    def watching(self) -> bool:
        """True where even a plain token needs a look."""
        return self.after_brace or self.new_line or len(self.braces) > DEEPEST

    # --- reporting ---

    def report(
        self,
        rule: str,
        headline: str,
        token: Token,
        hint: str,
        *,
        edit: Edit | None = None,
        related: tuple[Related, ...] = (),
        detail: str = "",
    ) -> None:
        self.findings.append(
            Finding(rule, headline, self.span(token), hint=hint, edit=edit, related=related, detail=detail)
        )

    def span(self, token: Token) -> Span:
        return Span(self.source.name, token.start_pos or 0, token.end_pos or 0)

    # --- parentheses ---

    def closed_parens(self, tokens: list[Token]) -> None:
        """Which parentheses have their partner inside the same block."""
        stack: list[int] = []
        for index, token in enumerate(tokens):
            kind = token.type
            if kind == "LPAR":
                stack.append(index)
            elif kind == "RPAR" and stack:
                if len(stack) <= DEEPEST:
                    self.good_parens.update((stack[-1], index))
                stack.pop()
            elif kind in ("_LBRACE", "_RBRACE"):
                stack.clear()

    def paren(self, index: int, token: Token) -> None:
        if index in self.good_parens:
            self.parens += 1 if token.type == "LPAR" else -1
            self.emit(token)
        elif self.told_on_line(token):
            pass
        elif token.type == "LPAR":
            self.report(
                "unclosed-bracket",
                "this parenthesis is never closed",
                token,
                "Close it with `)` on the same line.",
            )
        else:
            self.report(
                "unmatched-bracket",
                "this `)` closes nothing",
                token,
                "Take it out, or open one before it.",
                edit=Edit(self.span(token), ""),
            )

    # --- braces ---

    def open_brace(self, token: Token) -> None:
        kept = len(self.braces) < DEEPEST
        if len(self.braces) == DEEPEST:
            self.report(
                "nested-too-deep",
                f"blocks are nested more than {DEEPEST} deep",
                token,
                "Give the inner parts names of their own and refer to them.",
            )
        self.braces.append((token, kept))
        if kept:
            self.emit(token)

    def close_brace(self, token: Token) -> None:
        if not self.braces:
            if not self.told_on_line(token):
                self.report(
                    "unmatched-bracket",
                    "this `}` closes nothing",
                    token,
                    "Take it out, or open a block before it with `{`.",
                    edit=Edit(self.span(token), ""),
                )
            return
        self._close(token)

    def _close(self, token: Token) -> None:
        _, kept = self.braces.pop()
        if kept:
            self.emit(token)
            self.after_brace = True

    def dedent(self, token: Token) -> None:
        """In a file that lacks braces, the indentation says which block was meant to end before a line.

        A line no deeper than the line of the opener (a `}` shallower than it) ends the block; as many
        blocks are ended so as braces are missing, no more.
        """
        self.new_line = False
        own = self._indent(token)
        while self.missing and self.braces:
            opener, kept = self.braces[-1]
            deeper = own > self._indent(opener) if token.type != "_RBRACE" else own >= self._indent(opener)
            if deeper or not (self.balance or self._laid_out(opener)):
                return
            self.missing -= 1
            self.balance = max(0, self.balance - 1)
            self._unclosed(opener, token)
            self.braces.pop()
            if kept:
                self.out.append(_like(token, "_RBRACE", "}"))
                self.out.append(_like(token, "_END", "\n"))

    def _laid_out(self, opener: Token) -> bool:
        """True if a block's content stands on the line of its brace or deeper: its indentation can be trusted."""
        text, start = self.source.text, opener.end_pos or 0
        found = _GAP.match(text, start)
        first = found.end() if found else start
        line = self.source.line_column(first)[0]
        if line == self.source.line_column(start)[0]:
            return True
        content = self.source.line(line)
        return len(content) - len(content.lstrip(" \t")) > self._indent(opener)

    def _indent(self, token: Token) -> int:
        line = self.source.line(self.source.line_column(token.start_pos or 0)[0])
        return len(line) - len(line.lstrip(" \t"))

    def _unclosed(self, opener: Token, seen_at: Token | None) -> None:
        related = () if seen_at is None else (Related(self.span(seen_at), "missed before this"),)
        self.report(
            "unclosed-bracket",
            "this block is never closed",
            opener,
            "Write `}` on a line of its own where the block ends.",
            related=related,
        )

    def emit(self, token: Token) -> None:
        """Pass a token on; after a closing brace only the end of the statement may come.

        What stands inside a block that is nested too deep is left out.
        """
        if self.braces and not self.braces[-1][1]:
            return
        if self.after_brace and token.type not in ("_END", "_RBRACE"):
            self._text_after_brace(token)
        self.after_brace = False
        self.out.append(token)

    def _text_after_brace(self, token: Token) -> None:
        self.report(
            "text-after-brace",
            "text follows a closing brace on the same line",
            token,
            "Start a new line after `}`, or put what belongs to the head before `{`.",
            edit=Edit(Span(self.source.name, token.start_pos or 0, token.start_pos or 0), "\n"),
        )
        self.out.append(_like(token, "_END", "\n"))

    # --- strings and strays ---

    def open_text(self, token: Token) -> None:
        text = token.rstrip()
        end = (token.start_pos or 0) + len(text)
        self.report(
            "unclosed-text",
            "this text has no closing quote",
            token,
            'Close it with `"` on the same line.',
            edit=Edit(Span(self.source.name, end, end), '"'),
        )
        self.emit(_like(token, "TEXT", text + '"'))

    def inches(self, token: Token) -> None:
        """A double quote after a number is told, and read as inches."""
        number = str(token)[:-1]
        self.report(
            "unknown-unit",
            '`"` is not a unit that is known here',
            token,
            f"Write `{number} in`.",
            edit=Edit(self.span(token), f"{number} in"),
        )
        self.emit(_like(token, "NUMBER", number))
        self.emit(_like(token, "NAME", "in"))

    def curly_text(self, token: Token) -> None:
        """A text in curly quotes is told, and read as the text it means."""
        text = '"' + token.strip(_CURLY).rstrip() + '"'
        self.report(
            "stray-character",
            f"the character `{token[0]}` has no meaning here",
            token,
            f"Write texts in straight quotes: `{text}`.",
            edit=Edit(self.span(token), text),
        )
        self.emit(_like(token, "TEXT", text))

    def _in_word(self, token: Token) -> bool:
        """True if a sign stands right behind a letter or a digit: it means a range there."""
        before = self.source.text[max(0, (token.start_pos or 0) - 1) : token.start_pos or 0]
        return before.isalnum()

    def _minus(self, token: Token, number: str) -> None:
        """A dash before a number is no minus to the reader; without it the number would be another."""
        end = (token.end_pos or 0) + len(number)
        self.report(
            "stray-character",
            f"the character `{token}` is no minus sign here",
            token,
            f"A minus is a plain `-` before its number: `-{number}`.",
            edit=Edit(Span(self.source.name, token.start_pos or 0, end), f"-{number}"),
        )
        self.told_line = self.source.line_column(token.start_pos or 0)[0]

    def told_on_line(self, token: Token) -> bool:
        """True if a bracket or stray character of this line was told already."""
        line = self.source.line_column(token.start_pos or 0)[0]
        told = line == self.told_line
        self.told_line = line
        return told

    def stray(self, token: Token) -> None:
        """One report a line: a line of noise is one slip."""
        if token == _REPLACEMENT:
            return  # reported once for the file, as `not-utf8`
        if (
            token in _MINUS_SIGNS
            and (number := _DIGITS.match(self.source.text, token.end_pos or 0))
            and not self._in_word(token)
        ):
            self._minus(token, number[0])
            return
        if token in _RANGE_SIGNS:
            self.emit(_like(token, "DOTS", ".."))  # read as what it means, so that the rest is no second slip
        if self.told_on_line(token):
            return
        hint = "Take it out."
        if token in _CURLY:
            hint = 'Write texts in straight quotes: `"Maroon"`.'
        elif token.isspace():
            hint = "It looks like a space but is none: type a plain space."
        elif str(token) in _HINTS:
            hint = _HINTS[str(token)]
        name = f"`{token}`" if token.isprintable() and not token.isspace() else f"U+{ord(token):04X}"
        self.report(
            "stray-character",
            f"the character {name} has no meaning here",
            token,
            hint,
        )

    # --- the rest ---

    def special(self, index: int, token: Token) -> None:
        """A token that needs a look, or any token where `watching`."""
        kind = token.type
        if self.new_line and kind != "_END":
            self.dedent(token)
        if kind in ("LPAR", "RPAR"):
            self.paren(index, token)
        else:
            _MENDS.get(kind, _Mender.emit)(self, token)

    def end(self, token: Token) -> None:
        """The end of a statement; none inside parentheses."""
        if self.parens == 0:
            self.emit(token)
        self.new_line = self.missing > 0 and self.parens == 0 and "\n" in token

    def finish(self) -> None:
        while self.braces:
            opener, kept = self.braces.pop()
            if kept:
                self._unclosed(opener, None)
                self.emit(_like(opener, "_RBRACE", "}"))


_MENDS = {
    "_END": _Mender.end,
    "_LBRACE": _Mender.open_brace,
    "_RBRACE": _Mender.close_brace,
    "OPEN_TEXT": _Mender.open_text,
    "INCHES": _Mender.inches,
    "CURLY_TEXT": _Mender.curly_text,
    "OTHER": _Mender.stray,
}


def _like(token: Token, kind: str, text: str) -> Token:
    """A token made up at another's place."""
    return Token.new_borrow_pos(kind, text, token)
