"""A paper is in one language throughout, whatever the core says on it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from xml.etree import ElementTree

import pytest

from core import wordbook
from core.day.pay import pay_of_day
from core.desk.faces import LogLine
from core.house.read import read_house
from core.papers import page as pages
from core.papers.blocks import Bar, Bars, Column, Facts, Grouped, Heading, Para, Table, Whole
from core.papers.blocks import Group as Rows
from core.papers.cards_page import Behind, cards_html
from core.papers.day_page import DayPaper, day_html
from core.papers.page import html_page
from core.papers.words import words_of
from core.recipe.card import recipe_card
from core.say import say
from tests.day.book import HOUSE
from tests.papers.longest import HOUSE as SMALL
from tests.papers.test_day_page import REASONS, worked
from tests.words.greek import Greek, greek, untold

MORNING = dt.datetime(2026, 5, 4, 9, 30, tzinfo=dt.UTC)
SIGNS = {"kg", "lb", "mm", "bunchbook", "chart", "seco", "ligero", "volado", "viso"}
"""Units, a command, and the classes that have one name in every language."""
LATE = LogLine(
    *(400, MORNING, "7", say("{n} cigars good", n=3), "T1", None),
    voided_by=401,
    void_reason="",
    late=True,
)


@pytest.fixture
def in_greek(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Every language is Greek letters."""
    for module in (wordbook, pages):
        monkeypatch.setattr(module, "tongue_of", lambda _language: Greek())
    words_of.cache_clear()
    yield
    words_of.cache_clear()


def text_of(page: str) -> str:
    """What a reader sees of a page."""
    root = ElementTree.fromstring(page.replace("<!DOCTYPE html>", ""))
    for style in root.iter("style"):
        style.text = ""
    return "\n".join(root.itertext())


@pytest.mark.usefixtures("in_greek")
@pytest.mark.parametrize("closed", [True, False])
def test_every_word_of_a_days_page_is_told(closed: bool) -> None:
    report = worked(close=closed)
    report = report.revised(standouts=tuple(REASONS), late=1, reopened=1)
    paper = DayPaper(report, {}, late=[LATE], pay=pay_of_day(report, HOUSE), currency="€")
    codes = {*HOUSE.vitola, *HOUSE.blend, *HOUSE.leaf}
    assert untold(text_of(day_html(paper, "es")), SIGNS | codes) == []


@pytest.mark.usefixtures("in_greek")
def test_every_word_of_a_card_is_told() -> None:
    house = read_house(SMALL.read_text(), SMALL.name).house
    assert house is not None
    moistures = {code: leaf.moisture for code, leaf in house.leaf.items()}
    blend, vitola = next(iter(house.blend)), next(iter(house.vitola))
    card = recipe_card(house, blend=blend, vitola=vitola, moistures=moistures, bench="7")
    card = card._replace(warnings=(say("the approved bunches disagree about size"),))
    page = text_of(cards_html([card], Behind(MORNING.date(), 3, moistures, 0.1), "es"))
    assert untold(page, SIGNS | {blend, vitola, "BI", "WR"}) == []


@pytest.mark.usefixtures("in_greek")
def test_a_page_tells_what_it_is_given_wherever_it_stands() -> None:
    good = say("good")
    page = html_page(
        say("Month {month}", month="2026-05"),
        [
            Heading(good),
            Para(good),
            Facts(((good, "12"),)),
            Table(good, (Column(good, "g"),), ((good,),)),
            Grouped((Column(good),), (Rows(good, ((good,),)),)),
            Whole((Para(say("{n} of {what}", n=3, what=good)),)),
            Bars(good, (Bar(good, 1.0, good, good),)),
        ],
        "es",
    )
    text = text_of(page)
    assert untold(text, ()) == []
    assert f"3 {greek('of')} {greek('good')}" in text


def test_a_page_is_in_the_language_it_says() -> None:
    page = html_page("t", [Para(say("The day is closed."))], "es")
    assert '<html lang="es">' in page
    assert "El día está cerrado." in page
    assert "The day is closed." in html_page("t", [Para(say("The day is closed."))], "en")


def test_the_spanish_day_is_spanish_to_the_last_correction() -> None:
    paper = DayPaper(worked(), {}, late=[LATE])
    assert "anulada por 401" in day_html(paper, "es")
