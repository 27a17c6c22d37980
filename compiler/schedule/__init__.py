"""Time: when each cue is fired, and when each circuit is alive."""

from compiler.schedule.times import schedule

__all__ = ["schedule"]
