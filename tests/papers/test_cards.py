"""Cards on paper: whatever a card says is on it, however much it is."""

from __future__ import annotations

import datetime as dt
import re
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


def test_a_card_says_which_moisture_and_house_book_it_is_by() -> None:
    card = longest(2)
    said = text_of(cards_html([card], behind(card), "en"))
    assert f"{card.binder.leaf} × {card.binder.pieces:g} · 13.6\u00a0%" in said
    assert f"{card.wrapper.leaf} × {card.wrapper.pieces:g} · 24.3\u00a0%" in said
    assert "house book version 3" in said
    assert "libro versión 3" in text_of(cards_html([card], behind(card), "es"))


def text_of(page: str) -> str:
    """The page's words, a blank between those of different elements."""
    return " ".join(ElementTree.fromstring(page.replace("<!DOCTYPE html>", "")).itertext())


@pytest.mark.parametrize(("language", "says"), [("en", "1 half-leaf"), ("es", "1 media hoja")])
def test_one_half_leaf_is_one(language: Language, says: str) -> None:
    card = longest(1)
    one = card._replace(classes=(card.classes[0]._replace(half_leaves=1.0),))
    assert f"{says} · 13.0\u00a0%" in text_of(cards_html([one], behind(one), language))


def test_a_card_of_few_short_lines_has_the_largest_figures() -> None:
    card = longest(4)._replace(warnings=(), batch=None, vitola="toro")
    short = tuple(
        row._replace(leaf_class="seco", leaf=f"SE-{n}", g=2.6) for n, row in enumerate(card.classes)
    )
    behind_it = behind(card)._replace(division_g=0.1)
    usual = card._replace(classes=short, filler_g=10.4, bench="7")
    assert 'class="ticket few"' in cards_html([usual], behind_it, "en")
    for longer in (
        usual._replace(warnings=longest(1).warnings[:1]),
        usual._replace(classes=(*short, short[0])),
        usual._replace(vitola="PIRAMIDE-WWWWWWW"),
        usual._replace(batch=longest(4).batch),
    ):
        assert 'class="ticket"' in cards_html([longer], behind_it, "en")
    assert 'class="ticket"' in cards_html([usual], behind(card), "en")  # two decimals


def test_nothing_is_printed_under_seven_points() -> None:
    """Points as set; parts of em are of the smallest text that they stand in."""
    style = STYLE + CARDS
    assert min(float(size) for size in re.findall(r"font-size:([\d.]+)pt", style)) >= 7
    dense = 8.0
    small = float(re.findall(r"small\{font-weight:normal;font-size:([\d.]+)em", style)[0])
    assert dense * small >= 7
    unit = float(re.findall(r"\.big b small\{font-size:([\d.]+)em", style)[0])
    assert 14 * unit >= 7  # the smallest figures of a card
