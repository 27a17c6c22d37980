"""The built-in catalogue, in the show language."""
