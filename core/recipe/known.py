"""Looking up a blend or a vitola by its code, or saying which codes there are."""

from __future__ import annotations

from collections.abc import Iterable

from core.house.model import Blend, HouseBook, Vitola
from core.problems import BadInput
from core.say import joined, say, say_as


def known_blend(house: HouseBook, code: str) -> Blend:
    """The blend of that code; BadInput names the ones there are."""
    if code not in house.blend:
        there = _listed(house.blend)
        raise BadInput(
            say("the house book has no blend {code}; it has {there}", code=code, there=there)
        )
    return house.blend[code]


def known_vitola(house: HouseBook, code: str) -> Vitola:
    """The vitola of that code; BadInput names the ones there are."""
    if code not in house.vitola:
        there = _listed(house.vitola)
        raise BadInput(
            say("the house book has no vitola {code}; it has {there}", code=code, there=there)
        )
    return house.vitola[code]


def _listed(codes: Iterable[str]) -> str:
    return joined(", ", codes) or say_as("blends or vitolas", "none")
