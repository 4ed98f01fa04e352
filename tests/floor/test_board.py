"""The Board: every bench in a row that nothing cuts off."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from platformdirs import user_data_path
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
            "bench", "pair", "vitola", "weigh", "mean", "g", "target", "is", "trend", "good",
            "to", "quota",
        ]  # fmt: skip
        assert row_of(hall, "7").split() == [
            "7", "P-7", "R-7", "toro", "!6", "min", "late", "11.6", "10.8", "heavy", "∙+▲",
            "120/300", "4.5", "h",
        ]  # fmt: skip
        assert "in 12 min" in row_of(hall, "8")
        assert "mixed" in row_of(hall, "8")
        assert "first piece" in row_of(hall, "7-A")
        assert "late 7 · first piece 7-A · good 120 of 600 · 4 checks, 2 out" in hall.text
        assert "…" not in hall.text


async def test_300_benches_page_and_the_cursor_stays_with_its_bench() -> None:
    paper = many(300)
    async with floor(paper) as hall:
        hall.type(PAGE_DOWN * 3 + DOWN)
        await hall.shows("▸  47")
        cursor = hall.app.board.cursor
        assert cursor == "47"
        assert cursor in listed(hall)
        paper.benches["47"] = paper.benches["47"]._replace(due=NOW, checks=1)
        paper.touched.add("47")
        await hall.shows("▸  47 P-47 R-47   toro    now")
        assert hall.app.board.cursor == cursor


@pytest.mark.parametrize("line", ["sort due", "only 20"])
async def test_another_order_is_seen_from_its_top(line: str) -> None:
    paper = many(300)
    paper.benches["200"] = weighed_line("200", "toro", 11.6, "heavy", -9)
    async with floor(paper) as hall:
        hall.type(PAGE_DOWN * 3)
        await hall.until(lambda: hall.app.board.cursor not in (None, "1"), "another page")
        hall.type(f"{line}\r")
        await hall.shows("by due" if line == "sort due" else "only: 20")
        assert hall.app.board.cursor == listed(hall)[0] == ("1" if "due" in line else "20")


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
        await hall.shows(f"by {'off target' if order == 'mean' else order}")
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
        assert "No house book is loaded yet in the data folder /data/house" in hall.text
        assert "    bunchbook --data /data/house house start" in hall.text
        assert "    bunchbook --data /data/house house load house.toml" in hall.text
        hall.type(F7)
        await hall.shows("    bunchbook --demo house show > house.toml")
        assert hall.rows[0].startswith(" Log")
        assert "    bunchbook --data /data/house house load house.toml" in hall.text


async def test_in_the_users_own_folder_the_commands_name_none() -> None:
    paper = PaperDesk(None)
    paper.data_folder = user_data_path("bunchbook")
    async with floor(paper) as hall:
        assert "    bunchbook house load house.toml" in hall.text


async def test_a_command_too_long_for_a_row_is_one_a_shell_still_takes() -> None:
    paper = PaperDesk(None)
    paper.data_folder = Path("/data/" + "long" * 12)
    async with floor(paper) as hall:
        start = next(y for y, row in enumerate(hall.rows) if "bunchbook --data" in row)
        assert hall.rows[start].rstrip().endswith("\\")
        joined = hall.rows[start].rstrip().rstrip("\\").strip() + " " + hall.rows[start + 1].strip()
        assert joined == f"bunchbook --data {paper.data_folder} house start"


async def test_an_empty_day_shows_how_to_log_the_first_check(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        assert "type 7 15.3 15.6 15.4 and Enter" in hall.text


async def test_damaged_lines_are_told(paper: PaperDesk) -> None:
    paper.damaged = 2
    async with floor(paper) as hall:
        assert "2 damaged lines in the records" in hall.text


async def test_a_spanish_house_reads_spanish() -> None:
    spanish = HOUSE_TOML.replace('name = "Test house"', 'name = "Taller"\nlanguage = "es"')
    paper = PaperDesk(small_house(spanish))
    paper.benches["7"] = weighed_line("7", "toro", 11.6, "heavy", -6)
    async with floor(paper) as hall:
        assert "lunes 4 de mayo de 2026" in hall.rows[0]
        assert "!debe 6 min" in row_of(hall, "7")
        assert "pesado" in row_of(hall, "7")
        assert "atrasadas 7 · 1.ª pieza 7-A 8 · buenos 0 de 300" in hall.text


async def test_late_benches_are_named_the_longest_late_first() -> None:
    paper = many(40)
    for number in (7, 8, 19):
        paper.benches[str(number)] = weighed_line(str(number), "toro", 10.8, "within", -number)
    for number in range(20, 41):
        paper.benches[str(number)] = weighed_line(str(number), "toro", 10.8, "within", 5)
    async with floor(paper) as hall:
        assert "late 19 8 7 · first piece 1 2 3 4 5 6 9 +9 more · good 0 of 12 000" in hall.text
    async with floor(many(300)) as hall:
        assert "first piece 1 2 3 4 5 6 7 8 9 10 11 +289 more · good 0 of 90 000" in hall.text


@pytest.mark.parametrize(
    ("minutes", "says"), [(0, " now "), (1, " in 1 min "), (-1, "!1 min late")]
)
async def test_the_minute_it_is_due_is_now(paper: PaperDesk, minutes: int, says: str) -> None:
    paper.benches["7"] = weighed_line("7", "toro", 10.8, "within", minutes)
    async with floor(paper) as hall:
        assert says in row_of(hall, "7")
        assert ("late 7 · " in hall.text) == (minutes < 0)


async def test_a_check_that_waits_is_shown_and_can_be_listed(paper: PaperDesk) -> None:
    waiting = weighed_line("7", "toro", 10.8, "within", -3)._replace(open=(1, 5))
    paper.benches["7"] = waiting
    async with floor(paper) as hall:
        assert "!1 of 5 open" in row_of(hall, "7")
        hall.type("only open\r")
        await hall.shows("only: open")
        assert listed(hall) == ["7"]


async def test_at_60_cells_whole_columns_go_and_every_figure_stays(paper: PaperDesk) -> None:
    paper.benches["7"] = weighed_line("7", "corona gorda", 18.05, "within", -29)._replace(
        target=18.25, good=1200, quota=1300
    )
    async with floor(paper, size=(60, 20)) as hall:
        assert hall.rows[1].split() == [
            "bench", "vitola", "weigh", "mean", "g", "target", "is", "good",
        ]  # fmt: skip
        assert row_of(hall, "7").split()[2:] == [
            "!29", "min", "late", "18.1", "18.2", "within", "1200/1300",
        ]  # fmt: skip


async def test_a_big_terminal_gives_rows_and_columns_air() -> None:
    async with floor(many(24), size=(132, 43)) as hall:
        rows = [y for y, row in enumerate(hall.rows) if row[1:6].strip().isdigit()]
        assert len(rows) == 24
        assert rows[-1] >= 36
        assert "P-1 R-1        toro" in hall.rows[2]


async def test_a_notice_is_never_cut_inside_its_command(paper: PaperDesk) -> None:
    paper.damaged = 1200
    async with floor(paper, size=(60, 20)) as hall:
        assert "bunchbook verify" in hall.text
