"""Rounds: whom to weigh next, as a list that the keys move in and nothing else does."""

from __future__ import annotations

import datetime as dt

import pytest
from rich.cells import cell_len

from core.desk.faces import RoundLine, RoundReason
from tests.desk.conftest import HOUSE_TOML
from tests.floor.checked import charted
from tests.floor.hall import DOWN, END, ESC, F1, F2, F9, PAGE_DOWN, Hall, floor, small_house
from tests.floor.paper import NOW, PaperDesk, blank_line, weighed_line


def to_weigh(bench: str, reason: RoundReason, due_min: int | None) -> RoundLine:
    due = None if due_min is None else NOW + dt.timedelta(minutes=due_min)
    return RoundLine(bench, f"P-{bench}", "toro", "B1", reason, due, "")


ROUND = (
    to_weigh("7-A", "first piece", None),
    to_weigh("8", "out", -12),
    to_weigh("7", "due", 25),
)


@pytest.fixture
def paper() -> PaperDesk:
    paper = PaperDesk(small_house())
    paper.round = ROUND
    paper.benches["8"] = weighed_line("8", "toro", 11.6, "heavy", -12)
    return paper


def many(n: int) -> PaperDesk:
    paper = PaperDesk(small_house())
    paper.benches = {str(i): blank_line(str(i), "toro", 300) for i in range(1, n + 1)}
    paper.round = tuple(to_weigh(str(i), "due", i) for i in range(1, n + 1))
    return paper


def cursor(hall: Hall) -> str:
    return next(row.split()[1] for row in hall.rows[2:19] if row.startswith("▸"))


async def test_benches_stand_in_order_with_their_reason_and_time(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type(F2)
        await hall.shows("Rounds")
        await hall.shows("because")
        rows = [" ".join(row.split()) for row in hall.rows]
        assert rows[1] == "bench weigh because buncher vitola blend"
        assert rows[2] == "▸ 7-A now first piece P-7-A toro B1"
        assert rows[3] == "8 !12 min late last check was out P-8 toro B1"
        assert rows[4] == "7 in 25 min in turn P-7 toro B1"
        assert "2 benches to weigh by now" in hall.text
        assert "bench 7-A: not weighed yet · Enter opens its card" in hall.text


async def test_enter_opens_the_card_under_the_cursor_and_escape_comes_back(
    paper: PaperDesk,
) -> None:
    async with floor(paper) as hall:
        hall.type(F2 + DOWN)
        await hall.shows("bench 8: mean 11.6 g, target 10.8 g: heavy")
        hall.type("\r")
        await hall.until(lambda: hall.is_at("Card, bench 8"), "the card")
        hall.type("10.9\r")
        await hall.until(lambda: paper.lines == [("10.9", "8")], "the reading at bench 8")
        hall.type(ESC)
        await hall.until(lambda: hall.is_at("Rounds"), "the rounds")
        hall.type(ESC)
        await hall.until(lambda: hall.is_at("Board"), "the Board")


async def test_keys_that_come_in_one_burst_open_the_bench_that_was_meant(
    paper: PaperDesk,
) -> None:
    async with floor(paper) as hall:
        hall.type(f"{F2}{DOWN}{DOWN}\r10.9\r")
        await hall.until(lambda: paper.lines == [("10.9", "7")], "the reading at bench 7")


async def test_300_benches_page_smoothly() -> None:
    async with floor(many(300)) as hall:
        hall.type(F2)
        await hall.shows("0 benches to weigh by now")
        assert "1–16 of 300" in hall.text
        hall.type(PAGE_DOWN * 3 + DOWN)
        await hall.shows("32–47 of 300")
        assert cursor(hall) == "47"
        hall.type(END)
        await hall.shows("285–300 of 300")


async def test_minutes_tick_and_the_cursor_stays() -> None:
    paper = many(40)
    async with floor(paper) as hall:
        hall.type(F2 + DOWN * 4)
        await hall.shows("in 5 min")
        assert cursor(hall) == "5"
        paper.clock = NOW + dt.timedelta(minutes=3)
        await hall.shows("1  !2 min late")
        assert cursor(hall) == "5"
        assert "in 2 min" in next(row for row in hall.rows if row.startswith("▸"))


async def test_the_cursor_stays_with_its_bench_while_others_are_weighed(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type(F2 + DOWN)
        await hall.until(lambda: cursor(hall) == "8", "bench 8")
        paper.round = (ROUND[1], ROUND[2], to_weigh("7-A", "due", 30))
        paper.touched.add("7-A")
        await hall.until(lambda: hall.rows[2].split()[1] == "8", "the new order")
        assert cursor(hall) == "8"


async def test_a_bench_that_is_weighed_leaves_the_cursor_at_the_next(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type(F2)
        await hall.until(lambda: cursor(hall) == "7-A", "bench 7-A")
        paper.round = (ROUND[1], ROUND[2], to_weigh("7-A", "due", 30))
        paper.touched.add("7-A")
        await hall.until(lambda: cursor(hall) == "8", "the next bench")


async def test_the_chart_key_is_about_the_bench_under_the_cursor(paper: PaperDesk) -> None:
    paper.charts["8", "bunch"] = charted([0.1, 0.2], bench="8")
    async with floor(paper) as hall:
        hall.type(F2 + DOWN)
        await hall.until(lambda: cursor(hall) == "8", "bench 8")
        hall.type(f"{F9}10.9\r")
        await hall.until(lambda: paper.lines == [("10.9", "8")], "the reading at bench 8")
        hall.type(F1)
        await hall.until(lambda: hall.is_at("Board"), "the Board")


async def test_a_house_without_benches_and_no_house_say_what_to_do() -> None:
    async with floor(PaperDesk(small_house())) as hall:
        hall.type(F2)
        await hall.shows("Add benches to it")
    async with floor(PaperDesk(None)) as hall:
        hall.type(F2)
        await hall.shows("bunchbook house check house.toml")


@pytest.mark.parametrize("width", [60, 80, 132])
async def test_no_row_is_cut_and_spanish_reads(paper: PaperDesk, width: int) -> None:
    spanish = PaperDesk(
        small_house(HOUSE_TOML.replace('name = "Test house"', 'name = "Casa"\nlanguage = "es"'))
    )
    spanish.round = ROUND
    async with floor(spanish, size=(width, 24)) as hall:
        hall.type(F2)
        await hall.shows("último control fuera")
        assert "debe 12 min" in hall.text
        assert "2 mesas por pesar ya" in hall.text
        assert all(cell_len(row.rstrip()) <= width for row in hall.rows)
