"""Tests of the command, run as a user runs it."""
