"""The leaf at one bench: what came in, what was laid, what fell off, what is left."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from core.recipe.moisture import at_standard, on_scale


class Shed(NamedTuple):
    """What falls off the leaf that is laid, as shares of it; `lost` for good."""

    cuttings: float = 0.0
    stem: float = 0.0
    floor: float = 0.0
    lost: float = 0.0


class Stock:
    """A bench's leaf in standard grams, so that drying moves nothing. Scale grams in and out."""

    def __init__(self, leaves: Iterable[str], standard_moisture: float) -> None:
        self._standard = standard_moisture
        self.left = dict.fromkeys(leaves, 0.0)
        self.cuttings, self.stem, self.floor = (dict.fromkeys(self.left, 0.0) for _ in range(3))

    def put(self, leaf: str, scale_g: float, moisture: float) -> None:
        """Leaf issued, weighed at its moisture."""
        self.left[leaf] += at_standard(scale_g, self._standard, moisture)

    def lay(self, leaf: str, scale_g: float, moisture: float, shed: Shed) -> None:
        """Leaf gone into bunches, and what it shed meanwhile."""
        standard_g = at_standard(scale_g, self._standard, moisture)
        self.left[leaf] -= standard_g * (1 + sum(shed))
        self.cuttings[leaf] += standard_g * shed.cuttings
        self.stem[leaf] += standard_g * shed.stem
        self.floor[leaf] += standard_g * shed.floor

    def short(self, leaf: str, wanted_g: float, moisture: float) -> float:
        """Scale grams to issue so that `wanted_g` standard grams are there."""
        return on_scale(wanted_g - self.left[leaf], self._standard, moisture)

    def weighed(self, leaf: str, moisture: float) -> float:
        """What is left of a leaf, on the scale."""
        return on_scale(self.left[leaf], self._standard, moisture)

    def together(self, fell: Mapping[str, float], moistures: Mapping[str, float]) -> float:
        """Standard grams of several leaves, on the scale."""
        return sum(on_scale(g, self._standard, moistures[leaf]) for leaf, g in fell.items())
