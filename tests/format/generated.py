"""Generated show text: the vocabulary's own statements, laid out at random, with comments everywhere."""

from __future__ import annotations

from hypothesis import strategies as st

from compiler.vocabulary.kinds import KINDS, LINE_KIND
from grammar.reader import lexed
from grammar.source import Source

EXAMPLES = tuple(kind.example for kind in (*KINDS.values(), LINE_KIND) if kind.example)
COMMENTS = ("# plain", "#", "#tight", '# "quoted" { ; , (', "#  150ms, kept   as it is", "# ü — 宽")
SPACES = (" ", "  ", "\t", " \t ", "\f ", " " * 30)
TIGHT = (*SPACES, "", "", "")
ENDS = ("\n", "\n", "\r\n", "\n\n\n\n", ";", " ; ", ";\n", "\r", " ;; \n  ")

comment = st.sampled_from(COMMENTS)
line_end = st.one_of(
    st.sampled_from(ENDS),
    comment.map(lambda text: f"  {text}\n"),
    comment.map(lambda text: f"\n\n{text}  \r\n\t"),
    st.tuples(comment, comment).map(lambda two: f" {two[0]}\n{' ' * 12}{two[1]}\n"),
)
_in_block = st.one_of(st.sampled_from((*TIGHT, "\n", "\n\n")), comment.map(lambda text: f"{text}\n"))
_after_comma = st.one_of(st.sampled_from((*TIGHT, "\n", "\n\n  ")), comment.map(lambda text: f" {text}\n"))
_in_parens = st.one_of(st.sampled_from((*TIGHT, "\n")), comment.map(lambda text: f" {text}\n "))


@st.composite
def laid_out(draw: st.DrawFn, text: str) -> str:
    """A text's tokens with other spaces, line ends and comments between them, meaning the same."""
    tokens, findings = lexed(Source("", text))
    assert not findings
    parts: list[str] = []
    parens = 0
    for token in tokens:
        before = parts[-1] if parts else ""
        if token.type == "_END":
            parts.append(draw(line_end))
        elif token.type == "COMMA":
            parts.extend((draw(st.sampled_from(TIGHT)), ",", draw(_after_comma)))
        elif token.type in ("_LBRACE", "_RBRACE"):
            parts.extend((draw(_in_block if token.type == "_RBRACE" else st.sampled_from(TIGHT)), str(token)))
            parts.append(draw(_in_block) if token.type == "_LBRACE" else "")
        elif token.type in ("_LPAR", "_RPAR"):
            parens += 1 if token.type == "_LPAR" else -1
            parts.extend((draw(st.sampled_from(TIGHT)), str(token), draw(_in_parens) if parens else " "))
        else:
            space = "" if not before or before[-1] in " \t\n{(," else draw(st.sampled_from(SPACES))
            parts.extend((space, str(token)))
    return "".join(parts)


@st.composite
def shows(draw: st.DrawFn) -> str:
    """A show text of some statements, some of them in blocks of their own, that the reader has nothing to say on."""
    parts = [draw(st.sampled_from(("", "\ufeff", "\n\n", "# first\n", "  # first\r\n\r\n")))]
    for example in draw(st.lists(st.sampled_from(EXAMPLES), max_size=8)):
        text = draw(laid_out(example))
        if draw(st.booleans()):
            text = f"pattern P(effect E) {{{draw(_in_block)}{text}{draw(line_end)}}}"
        parts.extend((text, draw(line_end)))
    return "".join(parts)


FRAGMENTS = (
    "a", "at", "b-7", "of c", " every", " ", "\n", "\r\n", "\r", ";", ",", ", ", "\t", "12", "-3.50", "..", "±", "1:02", '"t"', '"#x"',
    "5 m", "2,5", "# c\n", "#d", "  # e\n", "\n\n\n", "( a, 2 m )", "(\n", ")", "{", "}", "{ ", " }\n", "{ a; b through c }\n", ",;",
    "宽", "x" * 50, "2027-06-19",
)  # fmt: skip
scraps = st.lists(st.sampled_from(FRAGMENTS), max_size=40).map("".join)
"""Anything: about half of it is broken."""
