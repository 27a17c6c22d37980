"""The error catalogue: what the check says, word for word."""
