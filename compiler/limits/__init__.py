"""Limits: the rule set in force, tightened or loosened by the show."""

from compiler.limits.sets import rule_set

__all__ = ["rule_set"]
