"""Figures as the papers write them."""

from __future__ import annotations

from core.desk import figures
from core.desk.figures import percent

NONE = ""
"""What stands for a figure that is not known."""


def thousands(n: float, places: int = 0) -> str:
    """A figure; the gap of one with five digits is no place to break a line."""
    return figures.thousands(n, places, "\u00a0")


def known(n: float | None, places: int) -> str:
    """A figure that may not be known."""
    return NONE if n is None else thousands(n, places)


def share(value: float | None) -> str:
    """A fraction as a percentage, which may not be known."""
    return NONE if value is None else percent(value).replace(" ", "\u00a0")


def signed(value: float | None, places: int) -> str:
    """A deviation with its sign, which may not be known."""
    return NONE if value is None else f"{value:+.{places}f}"
