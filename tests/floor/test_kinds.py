"""Other checks than bunches on a Card: named, in their own words, with the readings to come."""

from __future__ import annotations

from pathlib import Path

from core.desk.desk import Desk
from tests.desk.conftest import HOUSE_TOML, MORNING, HandClock, load
from tests.floor.hall import floor

SIZE = 'ring = 52\nlength = "6 in"'


def a_desk(folder: Path, *edits: tuple[str, str]) -> Desk:
    desk = Desk(folder / "data", HandClock(MORNING), "T1")
    text = HOUSE_TOML
    for old, new in edits:
        text = text.replace(old, new)
    load(desk, text)
    return desk


async def test_portions_are_weighed_reading_by_reading(tmp_path: Path) -> None:
    async with floor(a_desk(tmp_path)) as hall:
        hall.type("7 portion LI-1\r")
        await hall.shows("open check portion LI-1: 3 to go")
        hall.type("4.1 g\r4.2 g\r")
        await hall.shows("open check portion LI-1: 1 to go")
        hall.type("4.3\r")
        await hall.shows("portion LI-1 4.2 g mixed, steady")


async def test_an_empty_enter_takes_back_what_was_begun(tmp_path: Path) -> None:
    async with floor(a_desk(tmp_path)) as hall:
        hall.type("7\rcigar\r")
        await hall.shows("open check cigar: 3 to go")
        hall.type("\r")
        await hall.shows("no check yet today")


async def test_a_dial_that_rises_looser_says_so_in_spanish(tmp_path: Path) -> None:
    dial = f'{SIZE}\ndraw = ["3 dial", "7 dial"]\ndraw_rises = "looser"'
    spanish = ('name = "Test house"', 'name = "Test house"\nlanguage = "es"')
    async with floor(a_desk(tmp_path, (SIZE, dial), spanish)) as hall:
        hall.type("7 tiro 2,5\r7\r")
        await hall.shows("tiro 2.5 dial apretado")
