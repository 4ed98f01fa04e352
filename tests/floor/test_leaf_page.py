"""The Leaf: stock by lot, what runs out, what to issue; and the card that tells a change of lot."""

from __future__ import annotations

import datetime as dt

import pytest
from rich.cells import cell_len

from core.day.lots import lots
from core.desk.stock import CardLot
from core.stock.benches import had_today
from core.stock.issue import issue_sheet
from core.stock.need import plans
from tests.desk.conftest import HOUSE_TOML
from tests.floor.hall import ESC, F3, PAGE_DOWN, floor, small_house
from tests.floor.paper import PaperDesk
from tests.stock.shelf import DATE, Shelf

SPANISH = HOUSE_TOML.replace('name = "Test house"', 'name = "Casa"\nlanguage = "es"')


def stocked(paper: PaperDesk) -> PaperDesk:
    """Bench 7 took leaf of a lot for 150 cigars, and made 50 in two hours."""
    assert paper.house is not None
    shelf = Shelf(paper.house)
    shelf.receive("24-118", 9_000.0, crop=2023, bales=3)
    shelf.receive("24-131", 20_000.0, crop=2024)
    shelf.take("24-118", 900.0)
    shelf.take(None, 600.0, leaf="LI-1")
    shelf.now += dt.timedelta(hours=2)
    shelf.at_bench("made", n=50)
    paper.stocked = shelf.stock()
    paper.sheet = issue_sheet(
        plans(shelf.ledger, shelf.house, 1), shelf.house, shelf.card,
        shelf.ledger.moistures(1), lots(shelf.ledger, DATE), had_today(shelf.ledger),
    )  # fmt: skip
    return paper


async def test_every_lot_stands_with_what_is_on_hand_and_out(paper: PaperDesk) -> None:
    async with floor(stocked(paper)) as hall:
        hall.type(F3)
        await hall.until(lambda: hall.is_at("Leaf"), "the Leaf")
        await hall.shows("24-118")
        rows = [" ".join(row.split()) for row in hall.rows]
        assert "SE-1 seco 28.10 0.90 0.60 15.6 13.0 % book" in rows
        assert "▸ 24-118 8.10 0.90 4 May · crop 2023 · 3 bales" in rows
        assert "24-131 20.00 0.00 4 May · crop 2024" in rows
        assert "! seco SE-1 runs out at bench 7 about 14:00" in rows
        hall.type(ESC)
        await hall.until(lambda: hall.is_at("Board"), "the Board")


async def test_the_issue_sheet_is_further_down(paper: PaperDesk) -> None:
    async with floor(stocked(paper)) as hall:
        hall.type(F3)
        await hall.shows("What runs out")
        hall.type(PAGE_DOWN)
        await hall.shows("bench 7 P-07 toro 300")
        assert "SE-1 900 g (24-118) · LI-1 600 g · BI-1 1440 g = 600 pieces" in hall.text
        assert "the house book allows nothing for loss" in hall.text


async def test_a_house_without_lots_is_taught_to_receive_one(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type(F3)
        await hall.shows("receive SE-1 24-118 36.2kg 13.5% crop 2023 bales 3")
        assert "no bench has a quota" in hall.text
    async with floor(PaperDesk(None)) as hall:
        hall.type(F3)
        await hall.shows("bunchbook house check house.toml")


async def test_a_lot_that_went_below_nothing_is_told_in_words(paper: PaperDesk) -> None:
    assert paper.house is not None
    shelf = Shelf(paper.house)
    shelf.receive("24-118", 9_000.0)
    shelf.take("24-118", 9_500.0)
    paper.stocked = shelf.stock()
    async with floor(paper) as hall:
        hall.type(F3)
        await hall.shows("lot 24-118 of SE-1: 0.50 kg more went out than there was")


@pytest.mark.parametrize("width", [60, 80, 132])
@pytest.mark.parametrize("language", ["en", "es"])
async def test_no_row_is_cut_and_the_keys_fit(width: int, language: str) -> None:
    paper = stocked(PaperDesk(small_house(SPANISH if language == "es" else HOUSE_TOML)))
    async with floor(paper, size=(width, 24)) as hall:
        hall.type(F3)
        await hall.shows("Lo que se acaba" if language == "es" else "What runs out")
        assert all(cell_len(row.rstrip()) <= width for row in hall.rows)
        assert ("F3 Hoja" if language == "es" else "F3 Leaf") in hall.rows[-1] or width < 80


async def test_an_ascii_terminal_without_colour_reads_the_same(paper: PaperDesk) -> None:
    environ = {"TERM": "vt100", "NO_COLOR": "1"}
    async with floor(stocked(paper), environ=environ, encoding="ascii") as hall:
        hall.type(F3)
        await hall.shows("> 24-118")
        assert hall.text.isascii()


async def test_the_card_says_that_the_lot_is_another(paper: PaperDesk) -> None:
    paper.lots = (
        CardLot("SE-1", "24-131", "24-118", new=True),
        CardLot("LI-1", "23-9", None, new=True),
        CardLot("BI-1", "B-4", None, new=False),
    )
    async with floor(paper) as hall:
        hall.type("7\r")
        await hall.shows("lots: SE-1 now 24-131, here 24-118 · LI-1 23-9, new today")
        assert "B-4" not in hall.text
        assert "wrapper" in hall.text
        assert "of" not in hall.rows[0].split("·")[0]  # all of the card is in sight


async def test_a_card_without_a_change_of_lot_says_nothing(paper: PaperDesk) -> None:
    paper.lots = (CardLot("SE-1", "24-118", None, new=False),)
    async with floor(paper) as hall:
        hall.type("7\r")
        await hall.shows("half-leaves")
        assert "lots:" not in hall.text
