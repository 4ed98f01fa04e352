"""Cards on paper: whatever a card says is on it, however much it is."""

from __future__ import annotations

import datetime as dt
from xml.etree import ElementTree

import pytest

from core.house.model import Language
from core.papers.cards_page import card_code, cards_html
from core.papers.style import CARDS, STYLE
from tests.papers.longest import longest

DAY = dt.date(2026, 5, 4)


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("leaves", [1, 6, 30])
def test_the_longest_card_is_whole(language: Language, leaves: int) -> None:
    card = longest(leaves)
    page = cards_html([card], DAY, 0.01, language)
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
    assert 'class="ticket many"' in cards_html([longest(10)], DAY, 0.01, "en")
    assert 'class="ticket many long"' in cards_html([longest(11)], DAY, 0.01, "en")
    assert 'class="ticket"' in cards_html([longest(4)], DAY, 0.01, "en")


def test_a_bench_is_told_as_it_is_read_back() -> None:
    assert card_code("7", DAY) == "B07-2026-05-04"
    assert card_code("7-A", DAY) == "B07-A-2026-05-04"
