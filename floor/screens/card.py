"""The Card: what goes into one bunch at this bench, now."""

from __future__ import annotations

from core.desk.figures import decimals
from core.problems import BadInput
from core.recipe.card import Card as RecipeCard
from floor.looks.missing import no_card, no_house
from floor.looks.spans import Line
from floor.screens.card_large import large_lines
from floor.screens.card_view import CardView, Moist, card_lines
from floor.widgets.entry import BARS
from floor.widgets.page import Page

RECENT = 60
MESSAGES = 3
"""Rows of messages under the line that the large figures leave room for: they are as large with
as many as without, and do not jump while a scale types.
"""
LARGE = "ctrl+g"
"""Shows the card large and back; it needs no function key, which some terminals lack."""


class CardPage(Page):
    """The card of the bench the floor stands at.

    Once switched to large figures it stays so from card to card, until it is switched back.
    """

    def __init__(self) -> None:
        super().__init__()
        self.large = False

    def key(self, key: str) -> bool:
        """Switch between the card and its large figures, or turn the page."""
        if key != LARGE:
            return super().key(key)
        self.large = not self.large
        self.put(self.lines, 0)
        self.update()
        return True

    def written(self, width: int, height: int) -> list[Line]:
        floor = self.floor
        desk, number, house = floor.desk, floor.bench, floor.desk.house
        if house is None or number is None:
            return no_house(floor.desk, floor.words, width)
        try:
            card = desk.card(number)
        except BadInput as missing:
            title = floor.words.cannot_roll.format(bench=number)
            return no_card(missing, title, width, floor.words)
        division_g = house.house.scale_division_g
        view = CardView(
            card=card,
            bench=desk.bench_line(number),
            moist={leaf: Moist(*desk.moisture_age(leaf)) for leaf in _leaves(card)},
            open=desk.open_check(number),
            recent=desk.recent_checks(number, RECENT),
            now=desk.now(),
            places=decimals(division_g),
            division_g=division_g,
            words=floor.words,
            lots=desk.card_lots(number),
        )
        steady = min(height, floor.screen.size.height - BARS - 1 - MESSAGES)
        lines = large_lines if self.large else card_lines
        return lines(view, width, height, steady)


def _leaves(card: RecipeCard) -> list[str]:
    return [*(row.leaf for row in card.classes), card.binder.leaf, card.wrapper.leaf]
