"""The rules: one file each, and the one place that runs them.

A rule looks at solved values and nothing else, and names the entity it is about; places are looked
up last. Rules without a check are raised by earlier rooms; their files are their manual pages.
A new rule is its file, its two samples, and its two lines here.
"""

from __future__ import annotations

from dataclasses import replace

from compiler.checks import (
    bad_file,
    bad_number,
    bad_time,
    channel_overload,
    channel_unknown,
    channel_used_twice,
    chase_step,
    circuit_fired_twice,
    circuit_resistance,
    cue_unwired,
    driver_short,
    duplicate_name,
    duplicate_property,
    empty_range,
    feed_cycle,
    feed_overload,
    fired_before_zero,
    firing_current,
    firing_impulse,
    fuse_missing,
    fuse_overload,
    glyph_missing,
    key_effect_one_feed,
    lead_out_of_reach,
    limit_loosened,
    list_mismatch,
    look_alike_name,
    makers_data_missing,
    match_unwired,
    match_wired_twice,
    missing_cable_data,
    missing_firing_data,
    missing_module_data,
    missing_no_fire,
    missing_property,
    missing_unit,
    missing_value,
    mixed_matches,
    nested_too_deep,
    never_fired,
    no_free_channel,
    not_computed,
    not_utf8,
    out_of_range,
    pasted_twice,
    rail_overload,
    rail_recovery,
    rail_unfed,
    stray_character,
    supply_missing_data,
    supply_overload,
    test_current,
    test_current_unknown,
    test_fault,
    text_after_brace,
    too_many,
    too_many_at_once,
    unclosed_bracket,
    unclosed_text,
    unexpected_value,
    unknown_limit,
    unknown_name,
    unknown_property,
    unknown_rules,
    unknown_statement,
    unknown_unit,
    unmatched_bracket,
    use_cycle,
    use_missing,
    use_outside,
    wrong_dimension,
)
from compiler.checks.rule import HEADINGS, Rule
from compiler.model.solved import Solved
from grammar.findings import Finding

__all__ = ["HEADINGS", "RULES", "Rule", "manual", "run_checks", "severity_of"]

RULES: tuple[Rule, ...] = (
    bad_file.RULE,
    not_utf8.RULE,
    stray_character.RULE,
    unclosed_text.RULE,
    unclosed_bracket.RULE,
    unmatched_bracket.RULE,
    text_after_brace.RULE,
    nested_too_deep.RULE,
    unknown_statement.RULE,
    unknown_property.RULE,
    unknown_name.RULE,
    duplicate_name.RULE,
    duplicate_property.RULE,
    look_alike_name.RULE,
    empty_range.RULE,
    wrong_dimension.RULE,
    missing_unit.RULE,
    unknown_unit.RULE,
    bad_number.RULE,
    bad_time.RULE,
    missing_value.RULE,
    unexpected_value.RULE,
    missing_property.RULE,
    list_mismatch.RULE,
    out_of_range.RULE,
    too_many.RULE,
    glyph_missing.RULE,
    use_missing.RULE,
    use_cycle.RULE,
    use_outside.RULE,
    limit_loosened.RULE,
    unknown_limit.RULE,
    unknown_rules.RULE,
    no_free_channel.RULE,
    not_computed.RULE,
    missing_firing_data.RULE,
    missing_no_fire.RULE,
    missing_module_data.RULE,
    missing_cable_data.RULE,
    supply_missing_data.RULE,
    fuse_missing.RULE,
    test_current_unknown.RULE,
    makers_data_missing.RULE,
    rail_unfed.RULE,
    feed_cycle.RULE,
    match_wired_twice.RULE,
    match_unwired.RULE,
    mixed_matches.RULE,
    channel_unknown.RULE,
    channel_used_twice.RULE,
    lead_out_of_reach.RULE,
    key_effect_one_feed.RULE,
    cue_unwired.RULE,
    never_fired.RULE,
    circuit_fired_twice.RULE,
    pasted_twice.RULE,
    chase_step.RULE,
    fired_before_zero.RULE,
    rail_recovery.RULE,
    too_many_at_once.RULE,
    test_current.RULE,
    test_fault.RULE,
    channel_overload.RULE,
    driver_short.RULE,
    rail_overload.RULE,
    feed_overload.RULE,
    supply_overload.RULE,
    fuse_overload.RULE,
    firing_current.RULE,
    firing_impulse.RULE,
    circuit_resistance.RULE,
)
"""In the order of the work: reading, words, values, files, data, wiring, time, loads, firing."""

_BY_SLUG = {rule.slug: rule for rule in RULES}


def severity_of(slug: str) -> str:
    """``error``, ``warning`` or ``note``. Raises `KeyError` for a slug that is no rule: a bug."""
    return _BY_SLUG[slug].severity


def manual(slug: str) -> str | None:
    """The manual page of a rule; None for a slug that is no rule."""
    found = _BY_SLUG.get(slug)
    return None if found is None else found.manual


def run_checks(solved: Solved, earlier: tuple[Finding, ...] = ()) -> tuple[Finding, ...]:
    """All findings of the rules with a check, severities set, in the order of `RULES`.

    `earlier`: what the rooms before found. A thing they reported already is not reported again as
    not computed.
    """
    told = {finding.at for finding in earlier if isinstance(finding.at, str)}
    return tuple(
        replace(finding, severity=rule.severity)
        for rule in RULES
        if rule.check is not None
        for finding in rule.check(solved)
        if rule.slug != "not-computed" or finding.at not in told
    )
