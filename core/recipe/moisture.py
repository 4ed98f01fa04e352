"""Moisture as a fraction on wet basis: water over total weight."""

from __future__ import annotations

from collections.abc import Mapping

from core.say import Said, say

NOW = say("in force now")
BY_THE_BOOK = say("as the house book gives it")


def on_scale(standard_g: float, standard: float, today: float) -> float:
    """Grams on the scale at moisture `today` of leaf that weighs `standard_g` at `standard`."""
    return standard_g * (1 - standard) / (1 - today)


def at_standard(g: float, standard: float, today: float) -> float:
    """Grams at `standard` moisture of leaf that weighs `g` at moisture `today`."""
    return g * (1 - today) / (1 - standard)


def wet_to_dry(moisture: float) -> float:
    """Water over dry matter, from water over total weight (under 1)."""
    return moisture / (1 - moisture)


def dry_to_wet(moisture: float) -> float:
    """Water over total weight, from water over dry matter."""
    return moisture / (1 + moisture)


def in_force(code: str, moistures: Mapping[str, float], book: float) -> tuple[float, Said]:
    """Moisture of a leaf in force now, and where it is from; the house book's where not told."""
    if code in moistures:
        return moistures[code], NOW
    return book, BY_THE_BOOK
