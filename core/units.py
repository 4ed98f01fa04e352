"""Exact factors between the units a house speaks and the ones the arithmetic uses."""

from __future__ import annotations

MM_PER_INCH = 25.4
"""NIST SP 811, appendix B.8."""
G_PER_LB = 453.59237
"""NIST SP 811, appendix B.8."""
G_PER_OZ = 28.349523125
"""A sixteenth of a pound; NIST SP 811, appendix B.8."""
RINGS_PER_INCH = 64
"""Ring gauge is a diameter in 64ths of an inch: common practice."""


def ring_mm(ring: float) -> float:
    """Diameter in millimetres of a ring gauge."""
    return ring * MM_PER_INCH / RINGS_PER_INCH


def kg_to_lb(kg: float) -> float:
    """Kilograms as pounds avoirdupois."""
    return kg * 1000 / G_PER_LB
