"""Lengths: how far it is from rail to place, and what cable lies between."""

from compiler.layout.runs import distance_m, laid_out, straight_m

__all__ = ["distance_m", "laid_out", "straight_m"]
