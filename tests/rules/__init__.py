"""Tests of the rules: each on hand-built solved values and on two sample shows."""
