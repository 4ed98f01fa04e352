"""Figures as the papers write them."""

from __future__ import annotations

from core.desk.figures import fixed, percent

NONE = ""
"""What stands for a figure that is not known."""


def thousands(n: float, places: int = 0) -> str:
    """A figure; from five digits on with a blank every three, which no language misreads."""
    text = fixed(n, places)
    return f"{float(text):,.{places}f}".replace(",", "\u00a0") if abs(n) >= 10_000 else text


def known(n: float | None, places: int) -> str:
    """A figure that may not be known."""
    return NONE if n is None else thousands(n, places)


def share(value: float | None) -> str:
    """A fraction as a percentage, which may not be known."""
    return NONE if value is None else percent(value).replace(" ", "\u00a0")


def signed(value: float | None, places: int) -> str:
    """A deviation with its sign, which may not be known."""
    return NONE if value is None else f"{value:+.{places}f}"
