"""The Card: what goes into one bunch at this bench, now."""

from __future__ import annotations

from core.desk.figures import decimals
from core.problems import BadInput
from core.recipe.card import Card as RecipeCard
from floor.looks.missing import no_card, no_house
from floor.looks.spans import Line
from floor.screens.card_view import CardView, Moist, card_lines
from floor.widgets.page import Page

RECENT = 60


class CardPage(Page):
    """The card of the bench the floor stands at."""

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
        return card_lines(view, width, height)


def _leaves(card: RecipeCard) -> list[str]:
    return [*(row.leaf for row in card.classes), card.binder.leaf, card.wrapper.leaf]
