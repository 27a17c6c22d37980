"""The guide's examples, run."""
