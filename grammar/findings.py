"""Places and findings: the one shape in which every room says what it found.

A *finding* is a value, never an exception: what a user got wrong is reported,
collected and rendered; only a bug raises.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple


class Span(NamedTuple):
    """A half-open stretch of one source file, in code points of its decoded text.

    Line and column exist only in the renderers (see `grammar.source`).
    """

    file: str
    start: int
    end: int


class Related(NamedTuple):
    """A second place that belongs to a finding, with the word that says why.

    `at` is either a `Span` or an entity key such as ``rail:A``; keys are turned
    into spans last (see `compiler.places`).
    """

    at: Span | str
    word: str


class Edit(NamedTuple):
    """A mend as text: replace `span` by `text`."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong, or that could not be computed.

    `rule`      stable slug, one manual page each (`compiler.checks`).
    `headline`  a short clause, lower case, no full stop, with names and numbers.
    `at`        where: a `Span`, or an entity key ``kind:name`` that is looked up last.
    `role`      which part of the entity: a property name such as ``lead``, or ``""``.
    `subject`   what it is about, as a person would say it: ``circuit Curtain-A``.
    `values`    what entered the rule: ``{"current_a": 12.1, "limit_a": 10.0}`` in SI,
                plain JSON values only.
    `working`   the sum as a person would write it:
                ``2.1 ohm + 12 × 1.6 ohm = 21.3 ohm, limit 20 ohm``; may be empty.
    `detail`    one or two sentences: why it matters; may be empty.
    `hint`      the remedy, a sentence; text that can be pasted where possible.
    `severity`  ``error``, ``warning`` or ``note``; empty until the registry sets it.
    """

    rule: str
    headline: str
    at: Span | str | None = None
    role: str = ""
    subject: str = ""
    values: dict[str, object] = field(default_factory=dict)
    working: str = ""
    detail: str = ""
    hint: str = ""
    related: tuple[Related, ...] = ()
    edit: Edit | None = None
    severity: str = ""
    waived_by: str | None = None
