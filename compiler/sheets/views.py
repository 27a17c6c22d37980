"""What the documents print, made from the plan alone; HTML, PDF and CSV share it.

Everything is text ready to print, unless it says otherwise. `views(plan)` gives::

    head       {title, revision, zero, ambient, meter, rules, fingerprint, fingerprint_full,
                tool_version, notes[], unfit}  fingerprint: short, `3f9a 07c1`
                unfit: a sentence for every sheet while errors stand, else ``""``
    cautions   {wiring[], load[], cues[], standing[]}
    counts     [{what, number}]                things of the show, findings by severity
    findings   [{severity, rule, subject, headline, working, detail, hint, where, waived_by}]
    waivers    [{rule, subject, because, by, text}]
    limits     [{id, value, unit, source, confidence, waivable, set_by}]
    parts      [{kind, name, facts, source, confidence}]   generic parts say so in `facts`
    wiring     [one sheet per rail, see `compiler.sheets.wiring`]
    load       {rows[], outs[], rails[], feeds[], supplies[], waivers[], fingerprint}, see `compiler.sheets.load`
    cues       {rows[], …, fingerprint}, see `compiler.sheets.cues`
    timelines  [{supply, svg, words, drawn[]}] svg: greatest load against show time, with the limit; drawn: the same as text
    outs       [{circuit, rail, channel, what, because, by, text, …}]   what is taken out
    unplaced   [{circuit, place, matches}]     circuits without a channel on a rail of the plan

Each sheet's `fingerprint` is short and changes only with what is printed on that sheet.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from compiler.plan.fingerprint import sheet_fingerprint, short
from compiler.plan.order import natural
from compiler.sheets import cues, load, wiring
from compiler.sheets.cautions import cautions
from compiler.sheets.people import DASH, NOT_STATED, at_least, at_most, cleaned, counted, exact
from compiler.sheets.timelines import timelines
from compiler.sheets.touching import waiver_text
from compiler.sheets.wiring import out_why

Json = dict[str, Any]


def views(plan: Mapping[str, Any]) -> Json:
    """The documents' data; the shape is told at the head of this file."""
    clean: Any = cleaned(dict(plan))
    told = [waiver_text(waiver) for waiver in clean["waivers"]]
    made: Json = {
        "head": _head(clean),
        "cautions": cautions(),
        "counts": _counts(clean),
        "findings": [_finding(finding) for finding in clean["findings"]],
        "waivers": [{**w, "text": text} for w, text in zip(clean["waivers"], told, strict=True)],
        "limits": [_limit(limit) for limit in clean["rules"]["limits"]],
        "parts": _parts(clean),
        "wiring": wiring.sheets(clean),
        "load": load.table(clean),
        "cues": cues.sheet(clean),
        "timelines": timelines(clean),
        "unplaced": _unplaced(clean),
        "outs": [{**out, "text": _out_text(out)} for out in clean["outs"]],
    }
    made["load"]["fingerprint"] = short(sheet_fingerprint(_on_the_load_table(made)))
    return made


def _out_text(out: Json) -> str:
    address = f"{out['rail']}.{out['channel']}" if out["rail"] else "no channel"
    return f"{address} {out['circuit']}, {out_why(out)}"


def _on_the_load_table(made: Json) -> list[Any]:
    """All that the load table prints: a drawing stands for the loads that it draws."""
    lines = [{key: item for key, item in line.items() if key != "svg"} for line in made["timelines"]]
    head = made["head"]["title"], made["head"]["rules"]
    return [*head, made["load"], lines, made["unplaced"], made["limits"], made["parts"]]


def _head(plan: Json) -> Json:
    show = plan["show"]
    ambient, meter = show["ambient_degC"], show["meter"]
    ratio = None if meter["ratio"] is None else meter["ratio"] * 100
    return {
        "title": show["title"],
        "revision": str(show["revision"]),
        "zero": (show["zero"] or NOT_STATED).replace("T", " "),
        "ambient": f"{exact(ambient['low'])} {DASH} {exact(ambient['high'])} °C",
        "meter": f"{exact(meter['ohm'])} ohm plus {exact(_tidy(ratio))} %",
        "rules": " ".join(part for part in (plan["rules"]["name"], plan["rules"]["dated"]) if part),
        "fingerprint": short(plan["fingerprint"]),
        "fingerprint_full": plan["fingerprint"],
        "tool_version": plan.get("tool_version", ""),
        "notes": show["notes"],
        "unfit": _unfit(plan["findings"]),
    }


def _unfit(findings: list[Json]) -> str:
    """What every sheet says while an error stands: such a plan is for the desk only."""
    standing = [f for f in findings if f["severity"] == "error" and not f["waived_by"]]
    if not standing:
        return ""
    return f"{counted(len(standing), 'error')} found in this plan: do not wire or fire from it."


def _tidy(value: float | None) -> float | None:
    return None if value is None else float(f"{value:.12g}")


def _counts(plan: Json) -> list[Json]:
    things = ("supplies", "rails", "circuits", "cues", "waivers")
    found = [finding["severity"] for finding in plan["findings"]]
    rows = [{"what": what, "number": str(len(plan[what]))} for what in things]
    return rows + [
        {"what": f"{severity}s found", "number": str(found.count(severity))}
        for severity in ("error", "warning", "note")
    ]


def _unplaced(plan: Json) -> list[Json]:
    rails = {rail["name"] for rail in plan["rails"]}
    return [
        {
            "circuit": circuit["name"],
            "place": circuit["position"],
            "matches": str(len(circuit["matches"])),
        }
        for circuit in plan["circuits"]
        if circuit["rail"] not in rails or circuit["channel"] is None
    ]


def _finding(finding: Json) -> Json:
    place = finding["place"]
    where = f"{place['file']}:{place['line']}:{place['column']}" if place else ""
    words = ("severity", "rule", "subject", "headline", "working", "detail", "hint")
    return {
        **{word: finding[word] for word in words},
        "where": where,
        "waived_by": finding["waived_by"] or "",
    }


def _limit(limit: Json) -> Json:
    return {
        "id": limit["id"],
        "value": exact(limit["value"]),
        "unit": "" if limit["unit"] == "1" else limit["unit"],
        "source": limit["source"] or NOT_STATED,
        "confidence": limit["confidence"] or NOT_STATED,
        "waivable": "yes" if limit["waivable"] else "no",
        "set_by": limit["set_by"],
    }


# --- parts and where their figures come from ----------------------------------------------------


def _parts(plan: Json) -> list[Json]:
    rows = [_part("match", igniter, _match_facts(igniter)) for igniter in plan["igniters"]]
    rows += [_part("cable", cable, _cable_facts(cable)) for cable in plan["cables"]]
    rows += [_part("effect", effect, _effect_facts(effect)) for effect in plan["effects"]]
    for kind, things, facts in (
        ("module", plan["rails"], _module_facts),
        ("battery", plan["supplies"], _battery_facts),
    ):
        types = {thing["type"]: thing for thing in reversed(things)}
        rows += [_part(kind, {**types[n], "name": n}, facts(types[n])) for n in natural(types)]
    return rows


def _part(kind: str, part: Json, facts: str) -> Json:
    return {
        "kind": kind,
        "name": part["name"],
        "facts": facts,
        "source": part["source"] or NOT_STATED,
        "confidence": part["confidence"] or NOT_STATED,
    }


def _match_facts(igniter: Json) -> str:
    bridge = igniter["bridge_ohm"]
    facts = [
        "maker's data missing: generic figures" if igniter["generic"] else "",
        f"bridge {exact(bridge['low'])} {DASH} {exact(bridge['high'])} ohm" if bridge else "",
        f"no-fire {exact(igniter['no_fire_a'], 'A')}",
        f"fires alone {exact(igniter['alone_a'], 'A')}",
        f"in series {exact(igniter['series_a'], 'A')}",
        f"in parallel {exact(igniter['parallel_a'], 'A')}",
    ]
    return "; ".join(fact for fact in facts if fact)


def _cable_facts(cable: Json) -> str:
    ohm = cable["ohm_per_m"]
    if ohm is None or ohm["low"] is None or ohm["high"] is None:
        return f"{cable['metal']}, resistance {NOT_STATED}"
    low, high = at_least(ohm["low"] * 1000, 1), at_most(ohm["high"] * 1000, 1)
    return f"{cable['metal']}, {low} {DASH} {high} ohm per km of one conductor at 20 °C"


def _effect_facts(effect: Json) -> str:
    prefire = effect["prefire_s"]
    told = f"prefire {exact(prefire['nominal'], 's')}" if prefire else f"prefire {NOT_STATED}"
    return f"{effect['kind']}, {told}"


def _module_facts(rail: Json) -> str:
    ohm = rail["circuit_ohm_range"]
    facts = [
        counted(rail["channels"], "channel"),
        f"channel limit {exact(rail['channel_limit_a'], 'A')}",
        f"rail limit {exact(rail['rail_limit_a'], 'A')}",
        f"circuits of {exact(ohm[0])} {DASH} {exact(ohm[1])} ohm" if ohm else "",
    ]
    return "; ".join(fact for fact in facts if fact)


def _battery_facts(supply: Json) -> str:
    volts = supply["emf_v"]
    told = f"{exact(volts['low'])} {DASH} {exact(volts['high'])} V" if volts else "voltage not stated"
    return f"{told}; limit {exact(supply['limit_a'], 'A')}; fuse {exact(supply['fuse_a'], 'A')}"
