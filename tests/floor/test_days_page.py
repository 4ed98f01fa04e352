"""Days: the last four weeks, led there by what a typed word asks for."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from rich.cells import cell_len

from core.desk.days import LastWeeks
from core.desk.faces import Go
from floor.looks.language import words_of
from floor.looks.spans import width_of
from floor.screens.days import days_lines
from tests.bench.year import keep, year
from tests.floor.hall import floor, small_house
from tests.floor.paper import PaperDesk

LAST = dt.date(2026, 1, 30)


@pytest.fixture
def records(tmp_path: Path) -> Path:
    return keep(tmp_path / "data", list(year(days=250, benches=3))[:20])


async def test_weeks_days_vitolas_and_benches_stand_under_the_trend(records: Path) -> None:
    paper = PaperDesk(small_house())
    paper.data_folder, paper.day = records, LAST
    async with floor(paper) as hall:
        hall.app.go(Go("days"))
        await hall.shows("2026-W05")
        assert hall.is_at("Days")
        assert "filler per 1000 good" in hall.text
        assert all(cell_len(row.rstrip()) <= 80 for row in hall.rows)


async def test_without_a_closed_day_it_says_how_to_close_one(tmp_path: Path) -> None:
    paper = PaperDesk(small_house())
    paper.data_folder = tmp_path
    async with floor(paper) as hall:
        hall.app.go(Go("days"))
        await hall.shows("Type close and Enter")


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("width", [60, 80, 132])
def test_no_line_is_wider_than_the_screen(records: Path, language: str, width: int) -> None:
    weeks = LastWeeks().until(records, LAST)
    lines = days_lines(weeks, width, words_of(language, False))
    assert max(map(width_of, lines)) <= width
    assert len(weeks.told.weeks) == 4


def test_it_is_read_again_when_a_day_is_closed(records: Path) -> None:
    last = LastWeeks()
    before = last.until(records, LAST)
    assert last.until(records, LAST) is before
    more = list(year(days=250, benches=3))[20:21]
    keep(records, more)
    assert last.until(records, LAST).told.closed == before.told.closed + 1
