"""A page: well-formed, alone, escaped, made to print."""

from __future__ import annotations

import re
from xml.etree import ElementTree

from core.papers.bars import bars_svg
from core.papers.blocks import (
    Bar,
    Bars,
    Beside,
    Big,
    Block,
    Column,
    Facts,
    Figure,
    Heading,
    Para,
    Points,
    Table,
    Ticket,
    Tickets,
)
from core.papers.page import html_page

HOSTILE = "<script src='//x'>&\"</td>\u00e9"
SVG = '<svg xmlns="http://www.w3.org/2000/svg"><title>t</title></svg>'
BARS = Bars(HOSTILE, (Bar(HOSTILE, 3, HOSTILE, HOSTILE), Bar("b", -1, "-1 g")))
COLUMNS = (Column(HOSTILE, "g"), Column("n", right=True))
BIG = Big(HOSTILE, "3.1", "g")
EVERY: list[Block] = [
    Heading(HOSTILE),
    Para(HOSTILE, "look", "en"),
    Points((HOSTILE,)),
    Facts(((HOSTILE, HOSTILE),)),
    Table(
        HOSTILE, (Column(HOSTILE, "g"), Column("n", right=True)), ((HOSTILE, "1"),), (("a", "1"),)
    ),
    BARS,
    Figure(SVG),
    Beside((BARS,)),
    Tickets(
        tuple(
            Ticket(
                f"B0{n}", HOSTILE, HOSTILE, (Big(HOSTILE, "3.1", "g"),), ((HOSTILE, "x"),), ("n",)
            )
            for n in range(5)
        )
    ),
]


def parsed(page: str) -> ElementTree.Element:
    return ElementTree.fromstring(page.replace("<!DOCTYPE html>", ""))


def test_every_block_is_well_formed_and_its_text_comes_back_whole() -> None:
    page = html_page(HOSTILE, EVERY, "es")
    root = parsed(page)
    assert root.get("lang") == "es"
    texts = [element.text for element in root.iter()]
    assert texts.count(HOSTILE) > 15
    assert not [e for e in root.iter() if e.tag.endswith(("script", "link", "img"))]
    assert not re.search(r"\b(?:href|src)=[\"']|url\(|@import", page.replace(HOSTILE, ""))


def test_it_prints_with_margins_and_the_head_of_a_table_on_every_page() -> None:
    page = html_page("t", EVERY[:-1], "en")
    assert "@page{margin:14mm" in page
    assert "thead{display:table-header-group}" in page
    assert "tr{break-inside:avoid}" in page
    assert "99mm" not in page


def test_cards_stand_four_to_a_page() -> None:
    root = parsed(html_page("t", EVERY, "en"))
    sheets = [e for e in root.iter("section") if e.get("class") == "sheet"]
    assert [len(sheet) for sheet in sheets] == [4, 1]


def test_bars_keep_their_scale_and_say_themselves_to_who_cannot_see_them() -> None:
    drawn = ElementTree.fromstring(bars_svg(Bars("faults", (Bar("a", 4, "4"), Bar("b", -2, "-2")))))
    space = "{http://www.w3.org/2000/svg}"
    first, second = (float(r.get("width", "")) for r in drawn.iter(f"{space}rect"))
    assert abs(first - 2 * second) < 0.2
    said = drawn.find(f"{space}desc")
    assert said is not None
    assert said.text == "a 4; b -2"


def test_the_same_blocks_make_the_same_page() -> None:
    assert html_page("t", EVERY, "en") == html_page("t", EVERY, "en")
