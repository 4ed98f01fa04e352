"""Damage is in plain sight on the Board and the Day, on every kind of terminal, with what to do."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.faces import Recorded
from core.house.model import HouseBook
from tests.desk.conftest import HOUSE_TOML, HandClock
from tests.faults.test_damaged_desk import DAY, HOUSE, flip
from tests.floor.hall import F1, F5, XTERM, Hall, floor, small_house
from tests.floor.paper import PaperDesk, blank_line, empty_report

LINUX = {"TERM": "linux"}
PLAIN = {"TERM": "xterm-256color", "NO_COLOR": "1"}
SPANISH = HOUSE_TOML.replace('name = "Test house"', 'name = "Test house"\nlanguage = "es"')

SAYS = {
    ("en", 1): "1 damaged line in the records; all else is here. See: bunchbook verify",
    ("en", 12): "12 damaged lines in the records; all else is here. See: bunchbook verify",
    ("es", 1): "1 línea dañada en los registros; lo sano está aquí. Vea: bunchbook verify",
    ("es", 12): "12 líneas dañadas en los registros; lo sano está aquí. Vea: bunchbook verify",
}
"""What is damaged, what is not, and what to do; one row of 80 cells."""
TO_ASCII = str.maketrans("áíñ", "ain")


def paper(language: str, damaged: int) -> PaperDesk:
    """More benches than a screen has rows, and a day with damaged lines."""
    house: HouseBook = small_house(SPANISH if language == "es" else HOUSE_TOML)
    desk = PaperDesk(house)
    desk.benches = {str(n): blank_line(str(n), "toro", 300) for n in range(1, 41)}
    desk.damaged = damaged
    report = empty_report(desk.day)
    desk.summary = report.model_copy(update={"entries": 40, "damaged_lines": damaged})
    return desk


def row_with(hall: Hall, says: str) -> int:
    """The row that holds the whole notice."""
    rows = [y for y, row in enumerate(hall.rows) if row.strip() == says]
    assert len(rows) == 1, hall.text
    return rows[0]


def stands_out(hall: Hall, y: int) -> bool:
    """Whether every sign of the row is bold or in reverse: seen without any colour."""
    strip = hall.app.screen._compositor.render_strips()[y]
    inked = [segment for segment in strip if segment.text.strip()]
    return all(part.style and (part.style.bold or part.style.reverse) for part in inked)


@pytest.mark.parametrize(("language", "damaged"), SAYS)
@pytest.mark.parametrize(
    ("environ", "encoding"),
    [(XTERM, "utf-8"), (PLAIN, "utf-8"), (LINUX, "ascii")],
    ids=["colour", "monochrome", "ascii"],
)
async def test_damage_is_seen_on_board_and_day(
    language: str, damaged: int, environ: dict[str, str], encoding: str
) -> None:
    says = SAYS[language, damaged]
    if encoding == "ascii":
        says = says.translate(TO_ASCII)
    async with floor(paper(language, damaged), environ=environ, encoding=encoding) as hall:
        for key in (F1, F5):
            hall.type(key)
            await hall.settled()
            await hall.shows(says)
            assert stands_out(hall, row_with(hall, says))


@pytest.mark.parametrize("file", [DAY, HOUSE])
async def test_damage_that_comes_while_the_floor_is_open_is_told_without_a_key(
    desk: Desk, tmp_path: Path, file: str
) -> None:
    assert isinstance(desk.enter("7 made 50", None), Recorded)
    assert isinstance(desk.enter("7 made 20", None), Recorded)
    async with floor(desk) as hall:
        path = tmp_path / "data" / file
        whole = path.read_bytes()
        copy = tmp_path / "copy"
        copy.write_bytes(flip(whole, len(whole) - 60))
        copy.rename(path)
        await hall.shows("1 damaged line in the records")


async def test_a_lost_house_book_is_told_as_damage(
    desk: Desk, tmp_path: Path, clock: HandClock
) -> None:
    """Not as a house that never had one; what to load stands below."""
    desk.folder.close()
    path = tmp_path / "data" / HOUSE
    whole = path.read_bytes()
    path.write_bytes(flip(whole, len(whole) - 60))
    async with floor(Desk(tmp_path / "data", clock, "T1")) as hall:
        for key in (F1, F5):
            hall.type(key)
            await hall.settled()
            assert "1 damaged line in the records" in hall.text
            assert "See: bunchbook verify" in hall.text
            assert "house load house.toml" in hall.text.replace("\\\n", "")
