"""What is longer than its place on a page goes on below, or is turned to; no word of it is lost."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.day.trend import DayLine
from core.desk.desk import Desk
from core.desk.stock import CardLot
from core.house.language import LANGUAGES
from core.house.model import Language
from floor.looks.language import words_of
from floor.looks.missing import no_house
from floor.looks.spans import text_of
from floor.screens.days import _columns, _of_day, _row
from tests.desk.conftest import HOUSE_TOML, MORNING, HandClock
from tests.floor.hall import END, F2, PAGE_DOWN, Hall, floor, small_house
from tests.floor.paper import PaperDesk

SIZES = ((80, 24), (60, 20))
EVERY = [(size, language) for size in SIZES for language in LANGUAGES]
LONG_NAME = "Casa de los Hermanos Fernández y Sobrinos del Valle Alto, S.A."[:60]


def on_page(hall: Hall) -> str:
    """The page's words, without the bars and the entry line."""
    return " ".join(" ".join(hall.rows[1:-4]).split())


@pytest.mark.parametrize(("size", "language"), EVERY)
@pytest.mark.parametrize("key", ["", F2])
async def test_what_to_do_without_a_house_is_turned_to_its_end(
    size: tuple[int, int], language: Language, key: str
) -> None:
    paper = PaperDesk(None)
    paper.damaged = 2
    paper.data_folder = Path("/home/galera") / "/".join(["mesas"] * 12)
    async with floor(paper, size) as hall:
        hall.app.speak(language)
        hall.type(key)
        await hall.settled()
        rows = [text_of(line) for line in no_house(paper, hall.app.words, size[0])]
        assert len(rows) > size[1] - 5, "else nothing has to be turned"
        assert f"1–{size[1] - 5}" in hall.rows[0]
        assert hall.rows[1].strip() == rows[0].strip()
        hall.type(PAGE_DOWN * 3)
        await hall.until(lambda: hall.rows[-5].strip() == rows[-1].strip(), "its last row")


async def test_a_house_book_that_comes_while_it_is_read_is_listed_from_the_top() -> None:
    paper = PaperDesk(None)
    paper.damaged = 2
    async with floor(paper, (60, 20)) as hall:
        hall.type(PAGE_DOWN)
        await hall.settled()
        with_house = PaperDesk(small_house())
        paper.house, paper.benches = with_house.house, with_house.benches
        hall.app.changed()
        await hall.until(lambda: hall.rows[2].startswith("▸   7"), "the benches")
        assert "–" not in hall.rows[0]


@pytest.mark.parametrize(("size", "language"), EVERY)
async def test_a_long_name_of_the_house_leaves_the_clock_and_that_the_day_is_closed(
    size: tuple[int, int], language: Language
) -> None:
    paper = PaperDesk(small_house(HOUSE_TOML.replace("Test house", LONG_NAME)))
    paper.closed, paper.who = True, "MC"
    async with floor(paper, size) as hall:
        hall.app.speak(language)
        hall.type("help\r")
        await hall.settled()
        assert hall.rows[0].endswith("MC  10:30 ")
        assert hall.app.words.closed in hall.rows[0]
        assert "–" in hall.rows[0]
        assert "Casa d" in hall.rows[0]


@pytest.mark.parametrize(("size", "language"), EVERY)
async def test_every_lot_that_is_new_is_told_on_the_card(
    paper: PaperDesk, size: tuple[int, int], language: Language
) -> None:
    paper.lots = tuple(
        CardLot(leaf, f"HACIENDA-24-{n:04}", had, new=had is None)
        for n, (leaf, had) in enumerate(
            (("SE-1", "HACIENDA-23-9999"), ("LI-1", None), ("BI-1", None), ("WR-1", None))
        )
    )
    async with floor(paper, size) as hall:
        hall.app.speak(language)
        hall.type("7\r")
        await hall.settled()
        assert not [lot for lot in paper.lots if lot.lot not in on_page(hall)]
        assert "HACIENDA-23-9999" in on_page(hall)


@pytest.mark.parametrize("width", [80, 60])
@pytest.mark.parametrize("language", LANGUAGES)
def test_why_a_day_was_opened_again_is_whole(language: Language, width: int) -> None:
    reason = "the bales of lot 24-131 were weighed wet and " * 4 + "again"
    line = DayLine("2026-05-04", "open again", 1, "2026-05-05T09:00:00Z", reason, None)
    words = words_of(language, False)
    told = _of_day(line, words)
    rows = [text_of(row) for row in _row(*told, _columns([told], width, words), width)]
    assert max(map(len, rows)) <= width
    assert reason in " ".join(" ".join(rows).split())


@pytest.mark.parametrize("size", SIZES)
async def test_answers_paths_and_problems_of_the_first_run_are_whole(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    data = tmp_path / ("a long way down to it " * 4).strip() / "data"
    desk = Desk(data, HandClock(MORNING), "T1")
    async with floor(desk, size) as hall:
        for line in ("1", "en", LONG_NAME):
            hall.type(f"{line}\r")
            await hall.settled()
        assert LONG_NAME in on_page(hall)
        for _ in range(40):
            hall.type("\r")
            await hall.settled()
            if str(data.parent.name) in on_page(hall):
                break
        else:
            raise AssertionError(hall.text)


@pytest.mark.parametrize("size", SIZES)
async def test_the_problem_under_the_cursor_is_whole(tmp_path: Path, size: tuple[int, int]) -> None:
    folder = tmp_path / "libros-de-la-casa" / ("de-la-galera-" * 6)
    folder.mkdir(parents=True)
    book = folder / "mine.toml"
    text = HOUSE_TOML.replace('on_cigar = "60 g/m^2"', 'on_cigar = "600 g/m^2"')
    book.write_text(text, encoding="utf-8")
    async with floor(Desk(tmp_path / "data", HandClock(MORNING), "T1"), size) as hall:
        hall.type("2\r")
        await hall.settled()
        hall.type(f"{book}\r{END}")
        await hall.settled()
        first = hall.app.beginning.first
        assert first is not None
        assert first.problems
        said = hall.app.words.tell(first.problems[-1].said)
        assert len(said) > 4 * 60
        assert "".join(said.split()) in on_page(hall).replace(" ", "")
