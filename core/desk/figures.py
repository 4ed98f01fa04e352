"""Figures as people read them: the decimals the scale has, the unit beside the number."""

from __future__ import annotations

from core.measure import DrawScale, Measure
from core.say import say

UNITS: dict[Measure, str] = {
    "filler": "g",
    "portion": "g",
    "bunch": "g",
    "cigar": "g",
    "bundle": "g",
    "ring": say("ring gauge"),
    "length": "mm",
    "draw": "mmH2O",
}


def decimals(division_g: float) -> int:
    """Decimal places of a scale with this division: 0.1 has one, 0.05 two, 1 none."""
    return len(f"{division_g:.6f}".rstrip("0").partition(".")[2])


def fixed(value: float, places: int) -> str:
    """The value in plain notation; a rounded nothing has no minus sign."""
    text = f"{value:.{places}f}"
    return text.lstrip("-") if float(text) == 0 else text


def thousands(value: float, places: int = 0, gap: str = " ") -> str:
    """A figure; from five digits on with a blank every three, which no language misreads."""
    text = fixed(value, places)
    return f"{float(text):,.{places}f}".replace(",", gap) if abs(float(text)) >= 10_000 else text


def shown(reading: float, places: int) -> str:
    """A reading as it was typed, with the scale's decimals at least; three at most."""
    text = f"{reading:.3f}".rstrip("0").rstrip(".")
    return text if len(text.partition(".")[2]) > places else fixed(reading, places)


def unit_of(measure: Measure, draw: DrawScale | None = None) -> str:
    """The unit beside a measure's figures; `draw` is what draw was read in."""
    return UNITS[measure] if draw is None else draw.unit


def places_of(measure: Measure, division_g: float, draw: DrawScale | None = None) -> int:
    """Decimals to show for a measure: the scale's for weights, one for ring, length and a dial."""
    if measure in ("ring", "length"):
        return 1
    if measure == "draw":
        return 1 if draw is not None and draw.unit == "dial" else 0
    return decimals(division_g)


def amount(grams: float, division_g: float) -> str:
    """A weight of leaf: the scale's decimals under a kilogram, kilograms above."""
    if abs(grams) >= 10_000:
        return f"{fixed(grams / 1000, 2)} kg"
    text = fixed(grams, decimals(division_g))
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text} g"


def percent(share: float, places: int = 1) -> str:
    """A fraction as a percentage."""
    return f"{fixed(100 * share, places)} %"
