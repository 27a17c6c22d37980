"""Linstock: compiles a display show written as plain text into a checked firing plan and sheets."""
