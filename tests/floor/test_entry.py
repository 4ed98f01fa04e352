"""The entry line under bursts: every key in order, whatever the screen is doing."""

from __future__ import annotations

import pytest

from tests.floor.hall import DOWN, ESC, F5, F7, UP, Hall, floor
from tests.floor.paper import PaperDesk

TWENTY = [f"{10 + i / 100:.2f}" for i in range(20)]


def readings(paper: PaperDesk) -> list[str]:
    return [line for line, at in paper.lines if at == "7"]


@pytest.mark.parametrize("end", ["\r", "\n", "\r\n"])
async def test_twenty_readings_in_one_burst_are_twenty_readings(paper: PaperDesk, end: str) -> None:
    async with floor(paper) as hall:
        hall.type("7\r" + "".join(f"{reading} g{end}" for reading in TWENTY))
        await hall.until(lambda: len(paper.lines) == 20, "20 readings")
        assert readings(paper) == [f"{reading} g" for reading in TWENTY]
        await hall.shows("saved, entry 20: 10.19 g")


async def test_a_paste_of_twenty_lines_is_twenty_entries_and_its_end_stays_on_the_line(
    paper: PaperDesk,
) -> None:
    async with floor(paper) as hall:
        hall.type("7\r")
        hall.type("\x1b[200~" + "\r\n".join(TWENTY) + "\n\n10.5\x1b[201~")
        await hall.until(lambda: len(paper.lines) == 20, "20 readings")
        assert readings(paper) == TWENTY
        await hall.shows("bench 7 ▸ 10.5")


async def test_a_spoiled_line_in_a_paste_is_named_and_the_rest_recorded(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7\r\x1b[200~10.1\n1O.2\n\n10.3\n\x1b[201~")
        await hall.shows("not read: 1O.2")
        assert readings(paper) == ["10.1", "10.3"]
        assert hall.app.clerk.unread == ["1O.2"]


async def test_keys_before_a_function_key_are_done_before_the_page_changes(
    paper: PaperDesk,
) -> None:
    async with floor(paper) as hall:
        hall.type(f"7\r10.1\r{F5}8\r10.2\r{F7}")
        await hall.until(lambda: len(paper.lines) == 2, "both readings")
        assert paper.lines == [("10.1", "7"), ("10.2", "8")]
        await hall.until(lambda: hall.rows[0].startswith(" Log"), "the Log")


async def test_the_preview_is_not_worked_out_for_keys_that_are_still_coming(
    paper: PaperDesk,
) -> None:
    async with floor(paper) as hall:
        hall.type("7\r" + "\r".join(TWENTY) + "\r10")
        await hall.shows("Enter: do: 10")
        assert len(paper.lines) == 20
        assert len(paper.asked) < 10


async def test_what_enter_would_do_stands_under_the_line(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7 10.8")
        await hall.shows("Enter: do: 7 10.8")
        hall.type("x")
        await hall.settled()
        assert "Enter: do" not in hall.text
        assert paper.lines == []


async def test_a_scale_goes_on_past_a_line_it_spoiled(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7\r10.1\r1O.2\r10.3\r")
        await hall.shows("not read: 1O.2")
        assert readings(paper) == ["10.1", "10.3"]
        hall.type(UP + UP)
        await hall.shows("bench 7 ▸ 1O.2")


async def test_a_refused_line_can_be_mended(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7\r10.x\r")
        await hall.shows("not recorded:")
        hall.type("\x7f8\r")
        await hall.shows("saved, entry 1: 10.8")
        assert readings(paper) == ["10.8"]


async def test_held_weights_are_counted_and_do_not_stop_the_next_reading(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7\r51\r10.8\r52\r")
        await hall.shows("2 held")
        await hall.shows("held: Enter records, Esc drops: 51 g is far over")
        assert readings(paper) == ["10.8"]
        hall.type("\r")
        await hall.until(lambda: readings(paper) == ["10.8", "51"], "the held weight")
        hall.type(ESC)
        await hall.shows("dropped: 52")


async def test_an_unsaved_line_says_why_and_nothing_is_lost(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        paper.full = True
        hall.type("7\r10.8\r")
        await hall.shows("NOT SAVED, the line is kept: the disk is full")
        await hall.shows("bench 7 ▸ 10.8")
        hall.type("10.9\r")
        await hall.shows("1 held")
        paper.full = False
        hall.type("\r\r")
        await hall.until(lambda: len(paper.lines) == 2, "both lines")
        assert readings(paper) == ["10.9", "10.8"]


async def test_an_escape_that_ran_into_a_digit_is_refused_aloud(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7\r")
        hall.type("\x1b710.8\r")
        await hall.shows("▸ ^710.8")
        await hall.shows("not recorded: an Esc ran into")
        assert readings(paper) == []


async def test_the_arrows_mend_a_line_and_bring_back_earlier_ones(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7\r10.8\r")
        await hall.shows("saved, entry 1")
        hall.type(f"{UP}\x1b[D\x1b[D\x7f1\r")
        await hall.until(lambda: readings(paper) == ["10.8", "11.8"], "the mended line")
        hall.type(f"9{UP}{DOWN}")
        await hall.shows("bench 7 ▸ 9")


async def test_what_is_saved_while_a_long_question_waits_says_so_too(paper: PaperDesk) -> None:
    async with floor(paper, size=(60, 20)) as hall:
        hall.type("7\r51\r")
        await hall.shows("held: Enter records, Esc drops:")
        hall.app.clerk.held[0] = hall.app.clerk.held[0]._replace(says="far over, " * 20)
        hall.type("10.8\r")
        await hall.shows("saved, entry 1: 10.8")
        assert "held: Enter records" in hall.text


async def test_ctrl_u_clears_the_line(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("7\r10.8\x1510.9\r")
        await hall.until(lambda: readings(paper) == ["10.9"], "the second reading alone")


async def test_a_question_mark_asks_for_help_only_on_an_empty_line(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("?")
        await hall.until(lambda: hall.rows[0].startswith(" Help"), "Help")
        hall.type("note why?")
        await hall.shows("▸ note why?")


async def test_a_long_line_scrolls_under_its_caret(paper: PaperDesk) -> None:
    async with floor(paper) as hall:
        hall.type("note " + "wet leaf " * 15 + "end")
        await hall.shows("wet leaf end")
        assert cells_fit(hall)


def cells_fit(hall: Hall) -> bool:
    return all(len(row) == 80 for row in hall.rows)
