"""Tests of the reports: each format against its published shape."""
