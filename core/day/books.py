"""What the house books say of the day's leaf: what is in a piece, and grams at the standard."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from core.day.bench import Run, RunKey
from core.day.entries import LeafEntry, SweepEntry
from core.house.model import HouseBook
from core.recipe.moisture import at_standard


class Laid(NamedTuple):
    """A leaf in one piece: standard grams, and its share of the filler (0 of a cover)."""

    grams: float
    share: float


class Recipe(NamedTuple):
    """What one piece of a run takes: filler in standard grams, and each leaf of it."""

    filler_g: float
    laid: Mapping[str, Laid]


class Books(NamedTuple):
    """The house-book versions the day's entries name, and the one now in force.

    `standards` are the former's standard moistures. Until the day is `closed`, leaf that is
    not yet explained may still lie on the benches.
    """

    versions: Mapping[int, HouseBook]
    standards: Mapping[int, float]
    now: HouseBook
    closed: bool
    packed: Callable[[RunKey], float]
    """Filler per bunch, standard grams, of what was rolled."""

    def standard_g(self, entry: LeafEntry | SweepEntry) -> float:
        """The entry's grams at the standard moisture of the house book it was made under."""
        return at_standard(entry["grams"], self.standards[entry["house"]], entry["moisture"])

    def shares(self, run: RunKey) -> Mapping[str, float]:
        """The shares of the blend that was rolled."""
        blend = self.versions[run.house].blend.get(run.blend)
        return blend.shares if blend else {}


class Recipes(dict[RunKey, Recipe]):
    """What a piece of each run takes: its blend's fillers by weight, its covers by pieces."""

    def __init__(self, books: Books) -> None:
        super().__init__()
        self._books = books

    def __missing__(self, run: RunKey) -> Recipe:
        found = self[run] = self._worked_out(run)
        return found

    def _worked_out(self, run: RunKey) -> Recipe:
        house = self._books.versions[run.house]
        blend = house.blend.get(run.blend)
        filler_g = self._books.packed(run)
        if blend is None:
            return Recipe(filler_g, {})
        laid = {leaf: Laid(filler_g * share, share) for leaf, share in blend.shares.items()}
        for leaf in (blend.binder, blend.wrapper):
            cover = house.cover.get(leaf)
            if cover:
                laid[leaf] = Laid(cover.pieces * cover.half_leaf_g, 0.0)
        return Recipe(filler_g, laid)


def bunches(run: Run) -> int:
    """Bunches made: as counted, or as many as there must have been for what was inspected."""
    return max(run.made, run.good + run.second + run.lost)
