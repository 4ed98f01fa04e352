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
    ByHand,
    Column,
    Facts,
    Figure,
    Group,
    Grouped,
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
    Para(HOSTILE, "look"),
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


def test_long_codes_in_a_table_may_be_broken_and_short_ones_are_not() -> None:
    code = "PIRAMIDE-LARGA-1"
    page = html_page(
        "t", [Table("", COLUMNS, ((code, "12\u00a0345\u00a0678"), ("robusto", "1")))], "en"
    )
    assert "PIRAMI<wbr/>DE-LAR<wbr/>GA-1" in page
    assert "robusto" in page
    assert "12\u00a0345\u00a0678" in page
    assert code in "".join(parsed(page).itertext())


def test_wide_tables_are_set_smaller_and_empty_captions_left_out() -> None:
    columns = tuple(Column(f"c{n}") for n in range(11))
    page = html_page("t", [Table("", columns, (("x",) * 11,))], "en")
    assert '<table class="dense">' in page
    assert "<caption>" not in page


def test_what_is_signed_by_hand_has_a_line_and_groups_stay_together() -> None:
    group = Group(HOSTILE, (("a", ""),))
    root = parsed(html_page("t", [Grouped(COLUMNS, (group,)), ByHand((HOSTILE,))], "en"))
    (body,) = root.iter("tbody")
    assert body[0][0].text == HOSTILE
    assert body[0][0].get("colspan") == "2"
    (sign,) = (each for each in root.iter("div") if each.get("class") == "sign")
    assert [line.text for line in sign] == [HOSTILE]
    assert ".hand tbody{break-inside:avoid}" in html_page("t", [], "en")
