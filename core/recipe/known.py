"""Looking up a blend or a vitola by its code, or saying which codes there are."""

from __future__ import annotations

from collections.abc import Iterable

from core.house.model import Blend, HouseBook, Vitola
from core.problems import BadInput


def known_blend(house: HouseBook, code: str) -> Blend:
    """The blend of that code; BadInput names the ones there are."""
    if code not in house.blend:
        raise BadInput(_unknown("blend", code, house.blend))
    return house.blend[code]


def known_vitola(house: HouseBook, code: str) -> Vitola:
    """The vitola of that code; BadInput names the ones there are."""
    if code not in house.vitola:
        raise BadInput(_unknown("vitola", code, house.vitola))
    return house.vitola[code]


def _unknown(what: str, code: str, codes: Iterable[str]) -> str:
    there = ", ".join(codes) or "none"
    return f"the house book has no {what} {code}; it has {there}"
