"""Channels: as the show binds them, and the nearest free one for the rest."""

from compiler.address.nearest import addresses

__all__ = ["addresses"]
