"""A measure with what its figures are called."""

from __future__ import annotations

from typing import NamedTuple

from core.desk.figures import places_of, unit_of
from core.desk.verdicts import place_words
from core.measure import DrawScale, Measure


class Measured(NamedTuple):
    """A measure, and what draw is read in where it is that."""

    measure: Measure
    draw: DrawScale | None = None

    @property
    def unit(self) -> str:
        """The unit beside its figures."""
        return unit_of(self.measure, self.draw)

    def places(self, division: float) -> int:
        """The decimals its figures have."""
        return places_of(self.measure, division, self.draw)

    def side(self, *, high: bool) -> str:
        """What a figure over target is called, or one under it."""
        return place_words("heavy" if high else "light", self.measure, self.draw)
