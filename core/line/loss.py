"""Filler that is bought and never reaches a good cigar: what share, and who says so."""

from __future__ import annotations

from typing import Literal, NamedTuple

from core.house.model import HouseBook


class Loss(NamedTuple):
    """Filler that becomes good cigars ÷ filler used, and whether it was measured."""

    leaf_yield: float
    source: Literal["measured", "house"]

    def of(self, filler: float) -> float:
        """What is lost beside `filler` that stays in good cigars, in the unit of `filler`."""
        return filler * (1 / self.leaf_yield - 1)


def loss_of(house: HouseBook, measured_yield: float | None) -> Loss | None:
    """The loss by the measured leaf yield (a fraction); else the house's allowance, if any.

    A measured yield over 1 (bunches lighter than their recipe) counts as no loss.
    """
    if measured_yield is not None and measured_yield > 0:
        return Loss(min(1.0, measured_yield), "measured")
    allowance = house.house.loss_allowance
    return Loss(1 - allowance, "house") if allowance else None
