"""Recipe cards of the demo house, each worked out once."""

from __future__ import annotations

from collections.abc import Mapping

from core.day.bench import RunKey
from core.house.model import HouseBook
from core.recipe.card import Card, recipe_card
from core.recipe.packing import fit, packed


class Cards:
    """The card of a blend and vitola at moistures by leaf."""

    def __init__(self, house: HouseBook) -> None:
        self._house = house
        self._laws = {blend: fit(house, blend) for blend in house.blend}
        self._cards: dict[tuple[str, str, tuple[float, ...]], Card] = {}
        self._fillers: dict[RunKey, float] = {}

    def __call__(self, blend: str, vitola: str, moistures: Mapping[str, float]) -> Card:
        at = (blend, vitola, tuple(map(moistures.__getitem__, self._house.leaf)))
        card = self._cards.get(at)
        if card is None:
            card = recipe_card(
                self._house, blend=blend, vitola=vitola, moistures=moistures, law=self._laws[blend]
            )
            self._cards[at] = card
        return card

    def filler_of(self, run: RunKey) -> float:
        """Filler per bunch, standard grams, of what was rolled."""
        if run not in self._fillers:
            vitola, law = self._house.vitola[run.vitola], self._laws[run.blend]
            found = packed(self._house, run.blend, vitola, law)
            self._fillers[run] = found.filler_standard_g
        return self._fillers[run]
