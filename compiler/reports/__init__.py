"""Renderers of findings."""
