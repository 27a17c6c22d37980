"""No feed carries more than its cable may at any instant.

Protects from
    A trunk or a daisy-chained feed that overheats, opens at a connector, or melts into a short: it
    takes everything behind it away.

How it is computed
    At every instant: the feed's greatest current with each alive circuit behind it shorted at its
    match end, and the others possibly absent. Reported once per feed, at its worst instant.

Limit and source
    `limit` of the feed's cable. Equal to the limit passes.

Breaks it
    rail A of dc-16 at Q1 { feed Pack-1 through 3 m of bell-24 }

Keeps it
    rail A of dc-16 at Q1 { feed Pack-1 through 3 m of trunk-2.5 }
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compiler.checks.loads import Load, Worst, alive_here, alive_words, more_words, when, worst
from compiler.checks.lookups import feed_path, part_words, rail_of
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, against, many, quantity
from compiler.model.solved import Instant, Solved
from compiler.model.types import Feed
from grammar.findings import Finding


def _feeds(solved: Solved) -> dict[str, Feed]:
    rails = solved.model.rails.values()
    return {rail.feed.name: rail.feed for rail in rails if rail.feed is not None}


def _limit(solved: Solved, feed: Feed | None) -> float | None:
    cable = solved.model.cables.get(feed.cable or "") if feed is not None else None
    return None if cable is None else cable.limit_a


def _loads(solved: Solved, feeds: dict[str, Feed]) -> Iterator[Load]:
    for instant in solved.instants:
        for name, amps in instant.feeds.items():
            limit_a = _limit(solved, feeds.get(name))
            if limit_a is not None:
                yield name, amps.greatest, limit_a, instant


def _behind(solved: Solved, instant: Instant, feed: Feed) -> tuple[str, ...]:
    """The circuits of an instant whose current comes through the feed."""
    return tuple(
        name
        for name in instant.circuits
        if (rail := rail_of(solved, name)) is not None and feed in feed_path(solved, rail.name)[0]
    )


def _finding(solved: Solved, found: Worst, feed: Feed) -> Finding:
    shown, limit = against(found.amps, found.limit_a, "A")
    alive = _behind(solved, found.instant, feed)
    cable = solved.model.cables[feed.cable or ""]
    length = quantity(feed.length_m, "m")
    return Finding(
        "feed-overload",
        f"the feed from {feed.source} to rail {feed.rail} carries up to {shown} "
        f"{when(found.instant)}, its cable {cable.name} stands {limit}",
        at=f"rail:{feed.rail}",
        role="feed",
        subject=f"feed {feed.name}",
        values={
            "current_a": found.amps,
            "limit_a": found.limit_a,
            "at_s": found.instant.from_us / 1e6,
            "circuits": list(alive),
            "other_instants": found.more,
        },
        working=f"{many(len(alive), 'circuit')} alive behind it: {shown}, limit {limit}",
        detail=f"{alive_words(solved, alive)}{more_words(found)} " + part_words("cable", cable.name, cable.origin),
        hint=f"Write a heavier cable in `feed {feed.source} through {length} of {cable.name}`, or "
        f"fire fewer circuits together. {FIELD}",
        related=alive_here(alive),
    )


def _check(solved: Solved) -> Iterable[Finding]:
    feeds = _feeds(solved)
    for found in worst(_loads(solved, feeds)):
        yield _finding(solved, found, feeds[found.name])


RULE = rule("feed-overload", "error", __doc__, _check, waivable=True)
