"""Every match gets its firing current in the worst case.

Protects from
    A match that stays dark, and is then live, unfired and hard to find: at low battery, hot copper,
    high tolerances, with everything else of the same moment drawing from the same supply.

How it is computed
    First statement: least current of the match over all instants its circuit is alive (lowest
    supply voltage, greatest resistances in series, least in the branches beside it, every match
    still whole) ≥ firing current for its use × margin.
    Second statement: the same with the quickest other match shorted after it fired ≥ firing current
    for its use. Reported once per circuit, at its weakest match.

Limit and source
    `alone`, `series` or `parallel` of the match, times the limit `margin` of the rule set (1.5
    under "strict"; common practice). Equal passes. The second statement carries no margin: it is
    the state after one match has fired already.

Breaks it
    circuit Long on A.1 { lead 400 m of bell-24; series D1 }

Keeps it
    circuit Long on A.1 { lead 400 m of zip-14; series D1 }
"""

from __future__ import annotations

from collections.abc import Iterable

from compiler.checks.lookups import limit, limit_words, top_lead
from compiler.checks.rule import rule
from compiler.checks.words import FIELD, against, figure, match_in, moment, others, quantity
from compiler.model.solved import CircuitResult, MatchResult, Solved
from compiler.model.types import Limit
from grammar.findings import Finding, Related

_USES = {
    "alone": "alone on its channel",
    "series": "in series",
    "parallel": "in parallel",
    "mixed": "in a mixed circuit",
}


def _weakest(result: CircuitResult, least: dict[str, float]) -> tuple[MatchResult, int]:
    """The match that reaches the least share of what it needs, and how many others fail."""
    name = min(least, key=lambda match: least[match] / (result.matches[match].required_a or 1.0))
    return result.matches[name], len(least) - 1


def _failing(result: CircuitResult, margin: float) -> dict[str, float]:
    """Least currents below required × margin, by match, amperes."""
    return {
        name: match.current_a.least
        for name, match in result.matches.items()
        if match.current_a is not None
        and match.required_a is not None
        and match.current_a.least < match.required_a * margin
    }


def _shorted(result: CircuitResult) -> dict[str, float]:
    """Least currents below required once the quickest sibling has shorted, by match, amperes."""
    return {
        name: match.least_sibling_shorted_a
        for name, match in result.matches.items()
        if match.least_sibling_shorted_a is not None
        and match.required_a is not None
        and match.least_sibling_shorted_a < match.required_a
    }


def _when(solved: Solved, circuit: str, match: MatchResult) -> str:
    """The cue that fires it, and what else is alive at that moment."""
    if match.least_instant is None or match.least_instant >= len(solved.instants):
        return ""
    instant = solved.instants[match.least_instant]
    company = len(instant.circuits) - 1
    beside = "" if not company else f" with {company} more alive on supply {instant.supply}"
    for alive in solved.schedule.alive:
        if (
            alive.circuit == circuit
            and alive.from_us <= instant.from_us <= alive.to_us
            and alive.press == instant.press
        ):
            return f"Least when cue {alive.cue} is fired, {moment(alive.fired_us / 1e6, alive.press)}{beside}."
    return f"Least {moment(instant.from_us / 1e6, instant.press)}{beside}."


def _cause(solved: Solved, name: str) -> str:
    """What takes most of the voltage, as far as the circuit shows it."""
    circuit = solved.model.circuits.get(name)
    lead = top_lead(solved, circuit) if circuit is not None else None
    if lead is None:
        return ""
    share = lead.ohm.high / solved.circuits[name].resistance_ohm.high
    length = "" if lead.length_m is None else f"{quantity(lead.length_m, 'm')} of "
    return (
        f" The lead ({length}{lead.part}, up to {quantity(lead.ohm.high, 'ohm')}) is "
        f"{figure(100 * share, 2)} % of the circuit's resistance."
    )


_FEWER = {
    "parallel": "Feed the line in its middle, or put fewer in parallel",
    "series": "Put fewer matches in the string",
    "mixed": "Give each string a channel of its own, or put fewer matches in a string",
}


def _mend(solved: Solved, name: str, use: str, missing: float) -> str:
    """What helps most first. `missing`: the share of the wanted current that is not there."""
    circuit = solved.model.circuits.get(name)
    lead = top_lead(solved, circuit) if circuit is not None else None
    share = 0.0 if lead is None else lead.ohm.high / solved.circuits[name].resistance_ohm.high
    if use not in _FEWER:
        return "Write a heavier or shorter lead, or use a nearer rail"
    if share >= missing:
        return f"Write a heavier or shorter lead. Or: {_FEWER[use][0].lower()}{_FEWER[use][1:]}"
    return f"{_FEWER[use]}; a heavier or shorter lead alone does not mend it"


def _finding(solved: Solved, name: str, match: MatchResult, more: int, need: Limit, share: float) -> Finding:
    """The first statement; `share` is the required current with its margin, amperes."""
    assert match.current_a is not None
    assert match.required_a is not None
    shown, wanted = against(match.current_a.least, share, "A")
    use = _USES.get(match.use, match.use)
    return Finding(
        "firing-current",
        f"{match_in(match.name, name)} may get only {shown}, {use} it needs {wanted}",
        at=f"circuit:{name}",
        subject=f"circuit {name}",
        values={
            "match": match.name,
            "least_a": match.current_a.least,
            "required_a": match.required_a,
            "margin": need.value,
            "other_matches": more,
        },
        working=f"{quantity(match.required_a, 'A')} × {figure(need.value)} = {wanted}, "
        f"least {shown} ({match.least_corner or 'worst corner'})",
        detail=f"{_when(solved, name, match)}{_cause(solved, name)} Required: "
        f"{match.required_from or use}. {limit_words(need)}{others(more, 'match')}".strip(),
        hint=f"{_mend(solved, name, match.use, 1 - match.current_a.least / share)}. {FIELD}",
        related=_related(solved, match),
    )


def _second(solved: Solved, name: str, match: MatchResult, more: int) -> Finding:
    """The second statement: once the quickest sibling has fired and shorted."""
    assert match.least_sibling_shorted_a is not None
    assert match.required_a is not None
    shown, wanted = against(match.least_sibling_shorted_a, match.required_a, "A")
    return Finding(
        "firing-current",
        f"{match_in(match.name, name)} may get only {shown} once the quickest other match has fired "
        f"and shorted, {_USES.get(match.use, match.use)} it needs {wanted}",
        at=f"circuit:{name}",
        subject=f"circuit {name}",
        values={
            "match": match.name,
            "least_sibling_shorted_a": match.least_sibling_shorted_a,
            "required_a": match.required_a,
            "other_matches": more,
        },
        working=f"required {wanted}, least {shown} beside a short",
        detail="A fired match may leave its wires shorted and rob those beside it. Required: "
        f"{match.required_from or 'by the match'}.{others(more, 'match')}",
        hint="Put the matches in series, split them over two channels, or give each branch a "
        f"longer pair of its own. {FIELD}",
        related=_related(solved, match),
    )


def _related(solved: Solved, match: MatchResult) -> tuple[Related, ...]:
    use = solved.model.match_uses.get(match.name)
    return () if use is None else (Related(f"device:{use.device}", "the weakest match"),)


def _check(solved: Solved) -> Iterable[Finding]:
    margin = limit(solved, "margin")
    if margin is None:
        return
    for name, result in solved.circuits.items():
        least = _failing(result, margin.value)
        shorted = _shorted(result)
        if least:
            match, more = _weakest(result, least)
            share = (match.required_a or 0.0) * margin.value
            yield _finding(solved, name, match, more, margin, share)
        elif shorted:
            yield _second(solved, name, *_weakest(result, shorted))


RULE = rule("firing-current", "error", __doc__, _check)
