"""Cards on paper: whatever a card says is on it, however much it is."""

from __future__ import annotations

import datetime as dt
from xml.etree import ElementTree

import pytest

from core.house.model import Language
from core.papers.cards_page import Behind, card_code, cards_html
from core.papers.style import CARDS, STYLE
from core.recipe.card import Card
from tests.papers.longest import longest

DAY = dt.date(2026, 5, 4)


def behind(card: Card) -> Behind:
    """Version 3 of a house book, in which everything has 13.6 % but the wrapper."""
    moistures = {card.binder.leaf: 0.136, card.wrapper.leaf: 0.243}
    return Behind(DAY, 3, moistures, 0.01)


def page_of(leaves: int) -> str:
    card = longest(leaves)
    return cards_html([card], behind(card), "en")


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("leaves", [1, 6, 30])
def test_the_longest_card_is_whole(language: Language, leaves: int) -> None:
    card = longest(leaves)
    page = cards_html([card], behind(card), language)
    said = " ".join(ElementTree.fromstring(page.replace("<!DOCTYPE html>", "")).itertext())
    assert card.batch is not None
    for row in card.batch.classes:
        assert f"{row.leaf} {row.g:.2f} g" in said
    for each in card.classes:
        assert f"medio tiempo {each.leaf}" in said
    for text in (*card.warnings, card.binder.leaf, card.wrapper.leaf, card.vitola, card.blend):
        assert text in said
    assert "…" not in said
    assert card_code("1234-WW", DAY) in said


def test_nothing_that_is_printed_hides_what_does_not_fit() -> None:
    for style in (STYLE, CARDS):
        assert "overflow:hidden" not in style
        assert "ellipsis" not in style
    assert "min-height:134mm" in CARDS
    assert "overflow-wrap:anywhere" in CARDS


def test_a_card_of_many_leaves_is_set_smaller() -> None:
    assert 'class="ticket many"' in page_of(10)
    assert 'class="ticket many long"' in page_of(11)
    assert 'class="ticket"' in page_of(4)


def test_a_bench_is_told_as_it_is_read_back() -> None:
    assert card_code("7", DAY) == "B07-2026-05-04"
    assert card_code("7-A", DAY) == "B07-A-2026-05-04"
