"""Bars in cells: they only repeat the figures that stand before them."""

from __future__ import annotations

LONGEST_BAR = 36

_BAR = "█"


def bar(value: float, most: float, longest: int, least: int = 0) -> str:
    """As long as `value` is of `most`, at least so many cells; none for what is below zero."""
    return _BAR * max(least, round(longest * value / most)) if most > 0 else ""
