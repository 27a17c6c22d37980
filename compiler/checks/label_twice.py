"""No two circuits have one label.

Protects from
    Two leads with the same tag in the wet grass: the one goes where the other should.

How it is computed
    The labels of all circuits that have a channel, filled in as they are printed, and compared as they
    look: case, `I l 1`, `O 0`, letters of other scripts and leading zeros are folded. Told once for
    the show, with the first two. Two circuits on one channel are `channel-used-twice`.

Limit and source
    Common practice. The built-in label carries rail and channel, which no two circuits share.

Breaks it
    defaults { label "{place} {effect}" }
    cue 1 at 0:10.0 comet-gold at Q1
    cue 2 at 0:20.0 comet-gold at Q1

Keeps it
    defaults { label "{rail}.{channel} {effect}" }
    cue 1 at 0:10.0 comet-gold at Q1
    cue 2 at 0:20.0 comet-gold at Q1
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import in_order, names
from compiler.model.solved import Solved
from compiler.vocabulary.names import skeleton
from grammar.findings import Finding, Related


def _alike(solved: Solved) -> list[list[str]]:
    """Circuits whose labels look alike, in natural order; of those on one channel the first alone."""
    found: dict[str, list[str]] = {}
    taken: set[tuple[str, int]] = set()
    for name in in_order(solved.model.circuits.keys() & solved.addresses.keys()):
        label, address = solved.model.circuits[name].label, solved.addresses[name]
        key = (address.rail, address.channel)
        if label and key not in taken:
            taken.add(key)
            found.setdefault(skeleton(label), []).append(name)
    return [group for group in found.values() if len(group) > 1]


def _check(solved: Solved) -> Iterable[Finding]:
    groups = _alike(solved)
    if not groups:
        return
    first, second = groups[0][:2]
    labels = [solved.model.circuits[name].label for name in (first, second)]
    same = labels[0] == labels[1]
    said = f"one label, `{labels[0]}`" if same else f"labels that look alike, `{labels[0]}` and `{labels[1]}`"
    concerned = sum(map(len, groups))
    more = f"; it concerns {concerned} circuits" if concerned > 2 else ""
    yield Finding(
        "label-twice",
        f"{first} and {second} have {said}{more}",
        at="defaults:" if same else f"circuit:{second}",
        role="label" if same else "",
        subject=f"circuit {second}",
        values={"labels": labels, "circuits": [name for group in groups for name in group]},
        detail=f"Alike: {'; '.join(names(group) for group in groups[:3])}.",
        hint='Let the label carry rail and channel, as in `label "{rail}.{channel} {place}"`.'
        if same
        else "Rename one of the things that the labels name.",
        related=(Related(f"circuit:{first}", "the one"), Related(f"circuit:{second}", "the other")),
    )


RULE = rule("label-twice", "warning", __doc__, _check)
