"""The plan's sections about what is taken out: circuits that keep their channel, and cues that are not fired."""

from __future__ import annotations

import re
from collections.abc import Iterator

from compiler.model.labels import filled
from compiler.model.types import Cue, Model, Out, OutOrder, Rail
from compiler.plan.numbers import number
from compiler.plan.order import natural, natural_key

Json = dict[str, object]
_KNOWN = frozenset({"rail", "channel", "place", "circuit"})  # of a label's fields, what is known once a thing is out


def outs(model: Model) -> list[Json]:
    """Circuits taken out, each with the channel that it keeps; by natural name."""
    return [_out(model, model.outs[name]) for name in natural(model.outs)]


def _out(model: Model, out: Out) -> Json:
    return {
        "circuit": out.circuit,
        "rail": out.rail,
        "channel": out.channel,
        "label": _label(model, out),
        "position": out.place,
        "what": out.what,
        "because": out.because,
        "by": out.by,
    }


def _label(model: Model, out: Out) -> str:
    """What stands on the lead's tag, as far as it is still known: else address and place."""
    template = model.show.label
    at = f"{out.rail}.{out.channel} " if out.rail else ""
    if not out.rail or not set(re.findall(r"\{([^{}]*)\}", template)) <= _KNOWN:
        return f"{at}{out.place}".strip()
    values = {"rail": out.rail, "channel": str(out.channel), "place": out.place, "circuit": out.circuit}
    return filled(template, values)


def rail_orders(model: Model, rail: Rail) -> list[Json]:
    """What takes a whole rail out: an order for it or for the place where it stands."""
    found = [
        order
        for order in model.out_orders
        if (order.kind, order.name) in (("rail", rail.name), ("position", rail.position))
    ]
    return [_reason(order) for order in found]


def _reason(order: OutOrder) -> Json:
    return {"what": _thing(order.kind, order.name), "because": order.because, "by": order.by}


def _thing(kind: str, name: str) -> str:
    return f"{'place' if kind == 'position' else kind} {name}"


# --- cues ---------------------------------------------------------------------------------------


def cues_out(model: Model) -> list[Json]:
    """Cues that are not fired, in the order in which they would have been."""
    return [_cue(model, cue) for cue in sorted(model.cues_out, key=_when)]


def _when(cue: Cue) -> tuple[object, ...]:
    return cue.press is not None, natural_key(cue.press or ""), _fired_s(cue), natural_key(cue.number)


def _fired_s(cue: Cue) -> float:
    return cue.lit_s if cue.lit_s is not None else (cue.seen_s or 0.0) - cue.prefire_s.nominal


def _cue(model: Model, cue: Cue) -> Json:
    fired_s = _fired_s(cue)
    reasons = list(dict.fromkeys(_reasons(model, cue)))
    return {
        "number": cue.number,
        "text": cue.text,
        "press": cue.press,
        "seen_s": number(cue.seen_s if cue.seen_s is not None else fired_s + cue.prefire_s.nominal),
        "wanted_fired_s": number(fired_s),
        "circuits": natural(cue.circuits),
        **{
            key: "; ".join(dict.fromkeys(each[at] for each in reasons))
            for at, key in enumerate(("what", "because", "by"))
        },
    }


def _reasons(model: Model, cue: Cue) -> Iterator[tuple[str, str, str]]:
    """What takes a cue out: an order for its number, or else what takes out all that it fires."""
    own = [
        (_thing(order.kind, order.name), order.because, order.by)
        for order in model.out_orders
        if order.kind == "cue" and (cue.number == order.name or cue.number.startswith(f"{order.name}."))
    ]
    if own:
        yield from own
        return
    for name in natural(cue.circuits):
        if name in model.outs:
            out = model.outs[name]
            yield out.what, out.because, out.by
