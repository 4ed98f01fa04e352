"""The leaf at one bench: what came in, what was laid, what fell off, what is left."""

from __future__ import annotations

from collections.abc import Iterable

from core.recipe.moisture import at_standard, on_scale


class Stock:
    """A bench's leaf in standard grams, so that drying moves nothing. Scale grams in and out."""

    def __init__(self, leaves: Iterable[str], standard_moisture: float) -> None:
        self._standard = standard_moisture
        self.left = dict.fromkeys(leaves, 0.0)
        self.swept = dict.fromkeys(self.left, 0.0)

    def put(self, leaf: str, scale_g: float, moisture: float) -> None:
        """Leaf issued, weighed at its moisture."""
        self.left[leaf] += at_standard(scale_g, self._standard, moisture)

    def lay(self, leaf: str, scale_g: float, moisture: float, *, cut: float, lost: float) -> None:
        """Leaf gone into bunches; shares of it fall off as cuttings, and as dust for good."""
        standard_g = at_standard(scale_g, self._standard, moisture)
        self.left[leaf] -= standard_g * (1 + cut + lost)
        self.swept[leaf] += standard_g * cut

    def short(self, leaf: str, wanted_g: float, moisture: float) -> float:
        """Scale grams to issue so that `wanted_g` standard grams are there."""
        return on_scale(wanted_g - self.left[leaf], self._standard, moisture)

    def weighed(self, leaf: str, moisture: float) -> float:
        """What is left of a leaf, on the scale."""
        return on_scale(self.left[leaf], self._standard, moisture)

    def cuttings(self, moistures: dict[str, float]) -> float:
        """All cuttings and sweepings, on the scale."""
        return sum(on_scale(g, self._standard, moistures[leaf]) for leaf, g in self.swept.items())
