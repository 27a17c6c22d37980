"""A rule's manual page, taken apart and set: for a terminal, and as Markdown."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import dedent, indent, wrap

from compiler.checks.rule import HEADINGS, Rule
from compiler.reports.told import Style, plain

WIDTH = 100
_EXAMPLES = HEADINGS[-2:]


def sections(manual: str) -> Iterator[tuple[str, str]]:
    """Heading and body, one after another; the title comes first with an empty body. Bodies are not indented."""
    heading, body = "", list[str]()
    for line in manual.strip().splitlines():
        if not heading or line in HEADINGS:
            if heading:
                yield heading, _body(body)
            heading, body = line, []
        else:
            body.append(line)
    yield heading, _body(body)


def _body(lines: list[str]) -> str:
    return dedent("\n".join(lines)).strip("\n")


def markdown(rule: Rule) -> str:
    """Headings, paragraphs, examples as code."""
    (title, lead), *rest = sections(rule.manual)
    parts = [f"# {title}", lead]
    for heading, body in rest:
        parts += [f"## {heading}", f"```show\n{body}\n```" if heading in _EXAMPLES else body]
    return "\n\n".join(part for part in parts if part) + "\n"


def page(rule: Rule, style: Style = plain) -> str:
    """The page for a terminal: paragraphs wrapped to `WIDTH` columns, examples as they stand."""
    (title, lead), *rest = sections(rule.manual)
    waivable = "a named person may waive it" if rule.waivable else "never waived"
    parts = [f"{style(rule.slug, 'heading')} ({style(rule.severity, rule.severity)}; {waivable})", _wrapped(title, "")]
    if lead:
        parts.append(_wrapped(lead, ""))
    for heading, body in rest:
        set_body = indent(body, "    ") if heading in _EXAMPLES else _wrapped(body, "    ")
        parts.append(f"{style(heading, 'heading')}\n{set_body}")
    return "\n\n".join(parts) + "\n"


def _wrapped(text: str, margin: str) -> str:
    """Paragraphs filled anew; a list item or a line indented further starts a line of its own."""
    paragraphs: list[str] = []
    for line in text.splitlines():
        fresh = not paragraphs or not paragraphs[-1] or not line.strip() or line.startswith((" ", "- ", "* "))
        if fresh:
            paragraphs.append(line.rstrip())
        else:
            paragraphs[-1] += f" {line.strip()}"
    return "\n".join(_filled(paragraph, margin) for paragraph in paragraphs)


def _filled(paragraph: str, margin: str) -> str:
    stripped = paragraph.lstrip()
    own = margin + paragraph[: len(paragraph) - len(stripped)]
    hang = own + ("  " if stripped.startswith(("- ", "* ")) else "")
    lines = wrap(
        stripped, WIDTH, initial_indent=own, subsequent_indent=hang, break_long_words=False, break_on_hyphens=False
    )
    return "\n".join(lines)
