"""Where control lines are stated, every rail states one.

Protects from
    A rail that stands in the field without its control cable because no sheet lists it.

How it is computed
    Rails without `control` in a show in which another rail states one. Told once.

Limit and source
    A note: some rails are controlled without a cable.

Breaks it
    firing-point Hut at -60 m, -60 m
    rail A of dc-16 at Q1 { feed Pack-1; control Hut through 80 m of zip-18 }
    rail B of dc-16 at Q2 { feed Pack-1 }

Keeps it
    firing-point Hut at -60 m, -60 m
    rail A of dc-16 at Q1 { feed Pack-1; control Hut through 80 m of zip-18 }
    rail B of dc-16 at Q2 { feed Pack-1; control A through 15 m of zip-18 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.rule import rule
from compiler.checks.words import in_order, names
from compiler.model.solved import Solved
from grammar.findings import Finding


def _check(solved: Solved) -> Iterable[Finding]:
    rails = solved.model.rails
    missing = in_order(name for name, rail in rails.items() if rail.control is None)
    stated = in_order(rails.keys() - set(missing))
    if not missing or not stated:
        return
    what = f"rail {missing[0]} states" if len(missing) == 1 else f"rails {names(missing)} state"
    yield Finding(
        "control-missing",
        f"{what} no control line, and {names(stated)} {'does' if len(stated) == 1 else 'do'}",
        at=f"rail:{missing[0]}",
        subject=f"rail {missing[0]}",
        values={"rails": missing, "stated": stated},
        detail="What no sheet lists is not laid out.",
        hint=f"Add it, as in `control {stated[-1]} through 15 m of zip-18`, or take no notice where there is no cable.",
    )


RULE = rule("control-missing", "note", __doc__, _check)
