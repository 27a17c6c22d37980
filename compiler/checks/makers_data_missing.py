"""Every match in use rests on its maker's data sheet.

Protects from
    A class of matches taken for the ones in the box.

How it is computed
    Match types marked `generic` that circuits use. Reported once per type, and printed on the sheets
    of those circuits.

Limit and source
    A note: generic types are the least favourable of a confirmed class, so a pass with one is on the
    safe side as far as the class goes.

Breaks it
    cue 1 at 0:10.0 comet-gold at Q1        # the catalogue's comet has the generic match

Keeps it
    match ours { bridge 1.6 ohm ± 0.2; legs 3 m of leg-24; no-fire 0.2 A; alone 0.5 A; series 1 A; parallel 1 A; impulse 1 .. 3 A2ms }
    effect comet-x { kind comet; match ours }
    cue 1 at 0:10.0 comet-x at Q1
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import used_matches
from compiler.checks.rule import rule
from compiler.checks.words import many
from compiler.model.solved import Solved
from grammar.findings import Finding, Related


def _check(solved: Solved) -> Iterable[Finding]:
    for kind, circuits in used_matches(solved).items():
        match = solved.model.matches[kind]
        if not match.generic:
            continue
        source = "; ".join(part for part in (match.origin.source, match.origin.confidence) if part)
        yield Finding(
            "makers-data-missing",
            f"{many(len(circuits), 'circuit')} {'rests' if len(circuits) == 1 else 'rest'} on "
            f"{kind}, a class and no maker's data",
            at=f"circuit:{circuits[0]}",
            subject=f"match {kind}",
            values={"match": kind, "circuits": len(circuits)},
            detail=f"Source of {kind}: {source or 'none stated'}.",
            hint="Write a `match` of your own from the maker's data sheet, and name it in the effects.",
            related=(Related(f"match:{kind}", "the match"),),
        )


RULE = rule("makers-data-missing", "note", __doc__, _check)
