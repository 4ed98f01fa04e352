"""What leaf the planned cigars need, in standard grams."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from core.day.ledger import Ledger
from core.house.model import HouseBook
from core.problems import BadInput
from core.recipe.card import Card

CardOf = Callable[[str, str], Card]
"""Card of (blend, vitola) at today's moistures; raises BadInput where there is none."""


class Plan(NamedTuple):
    """A bench's day as planned; `quota` None where the house gives none."""

    bench: str
    buncher: str
    blend: str
    vitola: str
    quota: int | None


def plans(ledger: Ledger, house: HouseBook, version: int) -> tuple[Plan, ...]:
    """What every bench is to roll, in the house book's order."""
    return tuple(
        Plan(number, bench.buncher or "", *ledger.seat(number, version))
        for number, bench in house.bench.items()
    )


def in_one(card: Card) -> dict[str, float]:
    """Standard grams of each leaf in one cigar: filler by the recipe, covers by the piece."""
    filler_g = card.packing.filler_standard_g
    found = {row.leaf: filler_g * row.share for row in card.classes}
    for cover in (card.binder, card.wrapper):
        found[cover.leaf] = found.get(cover.leaf, 0.0) + cover.issued_g
    return found


def issued_for_one(card: Card, loss_allowance: float) -> dict[str, float]:
    """Standard grams of each leaf to be issued for one cigar.

    Of the filler that is issued the allowance is lost before the bunch, so more is issued by
    1 ÷ (1 − allowance). A cover's pieces are issued whole, what is trimmed off them included.
    """
    covers = (card.binder.leaf, card.wrapper.leaf)
    return {
        leaf: grams if leaf in covers else grams / (1 - loss_allowance)
        for leaf, grams in in_one(card).items()
    }


def known(card: CardOf, blend: str, vitola: str) -> Card | None:
    """The card, None where the vitola cannot be rolled in that blend."""
    try:
        return card(blend, vitola)
    except BadInput:
        return None


def added(parts: Mapping[str, float], times: float, to: dict[str, float]) -> None:
    """Add so many times the parts to a sum by leaf."""
    for leaf, grams in parts.items():
        to[leaf] = to.get(leaf, 0.0) + times * grams


def loss_of(house: HouseBook) -> float:
    """The house's loss allowance, a share of what is issued; 0 where the book gives none."""
    return house.house.loss_allowance
