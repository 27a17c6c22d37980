"""Timecode, counted through the whole language."""
