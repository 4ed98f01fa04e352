"""The Board: every bench in a row that nothing cuts off."""

from __future__ import annotations

import datetime as dt

import pytest
from textual.strip import Strip

from core.desk.faces import SeenCheck
from tests.desk.conftest import HOUSE_TOML
from tests.floor.hall import DOWN, ESC, F7, PAGE_DOWN, Hall, floor, small_house
from tests.floor.paper import NOW, WINDOW, PaperDesk, blank_line, weighed_line


def many(n: int) -> PaperDesk:
    paper = PaperDesk(small_house())
    paper.benches = {str(i): blank_line(str(i), "toro", 300) for i in range(1, n + 1)}
    return paper


def row_of(hall: Hall, number: str) -> str:
    return next(row[1:] for row in hall.rows[2:] if row[1:].split()[:1] == [number])


def listed(hall: Hall) -> list[str]:
    """The benches in sight, in order."""
    return [row[1:].split()[0] for row in hall.rows[2:-5] if row[1:6].strip()[:1].isdigit()]


async def test_a_bench_shows_all_of_itself_at_80_cells(paper: PaperDesk) -> None:
    started = NOW - dt.timedelta(hours=3)
    first = SeenCheck(1, started, "bunch", (10.8,), WINDOW, None)
    paper.seen["7"] = (first,)
    paper.benches["7"] = weighed_line("7", "toro", 11.6, "heavy", -6)._replace(
        trend=(0.0, 0.5, 1.4), good=120, made=130, checks=3, out=1
    )
    paper.benches["8"] = weighed_line("8", "toro", 10.8, "mixed", 12)
    async with floor(paper) as hall:
        assert hall.rows[1].split() == [
            "bench", "pair", "vitola", "weigh", "mean", "target", "is", "trend", "good", "left",
        ]  # fmt: skip
        assert row_of(hall, "7").split() == [
            "7", "P-7", "R-7", "toro", "6", "min", "late", "11.6", "10.8", "heavy", "─▔▲",
            "120/300", "4.5", "h",
        ]  # fmt: skip
        assert "in 12 min" in row_of(hall, "8")
        assert "mixed" in row_of(hall, "8")
        assert "first piece" in row_of(hall, "7-A")
        assert "1 late · 1 first piece · 4 checks, 2 out · good 120 of 600" in hall.text
        assert "…" not in hall.text


async def test_300_benches_page_and_the_cursor_stays_with_its_bench() -> None:
    paper = many(300)
    async with floor(paper) as hall:
        hall.type(PAGE_DOWN * 3 + DOWN)
        await hall.shows("▸  47")
        cursor = hall.app.board.cursor
        assert cursor == "47"
        assert cursor in listed(hall)
        paper.benches["300"] = paper.benches["300"]._replace(due=NOW, checks=1)
        hall.type("sort due\r")
        await hall.shows("by due")
        assert hall.app.board.cursor == cursor
        assert cursor in listed(hall)


async def test_enter_opens_the_bench_under_the_cursor_and_escape_comes_back(
    paper: PaperDesk,
) -> None:
    async with floor(paper) as hall:
        hall.type(DOWN + DOWN + "\r")
        await hall.shows("Card, bench 8")
        hall.type(ESC)
        await hall.shows("▸   8 ")


async def test_only_lists_the_benches_with_every_word(paper: PaperDesk) -> None:
    paper.benches["7"] = weighed_line("7", "toro", 11.6, "heavy", 12)
    paper.benches["8"] = weighed_line("8", "corona", 10.0, "light", -3)
    async with floor(paper) as hall:
        hall.type("only heavy toro\r")
        await hall.shows("only: heavy toro · 1 of 3 benches")
        assert listed(hall) == ["7"]
        hall.type("only late\r")
        await hall.shows("only: late")
        assert listed(hall) == ["8"]
        hall.type("only nothing\r")
        await hall.shows("no bench has all of: nothing")
        hall.type(ESC)
        await hall.until(lambda: len(listed(hall)) == 3, "every bench")


@pytest.mark.parametrize(
    ("order", "expected"),
    [("due", ["7-A", "8", "7"]), ("mean", ["7", "8", "7-A"]), ("bench", ["7", "7-A", "8"])],
)
async def test_the_board_is_put_in_order(paper: PaperDesk, order: str, expected: list[str]) -> None:
    paper.benches["7"] = weighed_line("7", "toro", 11.6, "heavy", 12)
    paper.benches["8"] = weighed_line("8", "toro", 10.7, "within", 3)
    async with floor(paper) as hall:
        hall.type(f"sort {order}\r")
        await hall.shows(f"by {'deviation' if order == 'mean' else order}")
        assert listed(hall) == expected


async def test_what_another_terminal_records_appears_without_a_key(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type(DOWN)
        await hall.settled()
        paper.benches["7"] = weighed_line("7", "toro", 11.6, "heavy", 60)
        paper.touched.add("7")
        await hall.shows("heavy")
        assert hall.app.board.cursor == "7-A"


async def test_only_rows_that_changed_are_drawn_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    paper = many(40)
    async with floor(paper) as hall:
        drawn = set[int]()
        render = hall.app.board.render_line

        def noted(y: int) -> Strip:
            drawn.add(y)
            return render(y)

        monkeypatch.setattr(hall.app.board, "render_line", noted)
        paper.benches["4"] = weighed_line("4", "toro", 11.6, "heavy", 60)
        paper.touched.add("4")
        await hall.shows("heavy")
        await hall.settled()
        assert 4 in drawn
        assert len(drawn) <= 3  # the bench, the notice it ended, the totals


async def test_long_names_shorten_and_figures_do_not(paper: PaperDesk) -> None:
    paper.benches["7"] = weighed_line("7", "doble corona especial", 11.6, "heavy", 60)._replace(
        buncher="P-1234567", roller="R-1234567", good=1200, quota=1300
    )
    async with floor(paper) as hall:
        row = row_of(hall, "7")
        assert "…" in row
        assert "1200/1300" in row
        assert "11.6  10.8 heavy" in row


async def test_a_house_without_a_book_is_told_what_to_load() -> None:
    async with floor(PaperDesk(None)) as hall:
        assert "No house book is loaded yet." in hall.text
        assert "bunchbook house load FILE" in hall.text
        hall.type(F7)
        await hall.until(lambda: hall.rows[0].startswith(" Log"), "the Log")
        assert "bunchbook house load FILE" in hall.text


async def test_an_empty_day_shows_how_to_log_the_first_check(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        assert "type 7 15.3 15.6 15.4 and Enter" in hall.text


async def test_damaged_lines_are_told(paper: PaperDesk) -> None:
    paper.damaged = 2
    async with floor(paper) as hall:
        assert "2 damaged lines in today's book" in hall.text


async def test_a_spanish_house_reads_spanish() -> None:
    spanish = HOUSE_TOML.replace('name = "Test house"', 'name = "Taller"\nlanguage = "es"')
    paper = PaperDesk(small_house(spanish))
    paper.benches["7"] = weighed_line("7", "toro", 11.6, "heavy", -6)
    async with floor(paper) as hall:
        assert "lunes 4 de mayo de 2026" in hall.rows[0]
        assert "hace 6 min" in row_of(hall, "7")
        assert "pesado" in row_of(hall, "7")
        assert "1 atrasada · 2 primeras piezas" in hall.text
