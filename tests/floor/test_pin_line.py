"""The house's PIN on the entry line: hidden, never in the way of a scale, dropped by Esc."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.pin_save import set_pin
from tests.desk.conftest import MORNING, HandClock, load
from tests.floor.hall import ESC, F7, UP, Hall, floor
from tests.floor.terminal import opened

PIN = "471182"
ASKED = "PIN to close the day?"


@pytest.fixture
def clock() -> HandClock:
    return HandClock(MORNING)


@pytest.fixture
def locked(tmp_path: Path, clock: HandClock) -> Desk:
    desk = Desk(tmp_path / "data", clock, "T1", "RM")
    load(desk)
    set_pin(desk, clock, PIN, None)
    desk.follow()
    desk.enter("7 made 10", None)
    return desk


async def asked_to_close(hall: Hall) -> None:
    hall.type("close\r")
    await hall.shows("close the day?")
    hall.type("\r")
    await hall.shows(ASKED)


async def test_the_digits_are_hidden_and_enter_closes_the_day(locked: Desk) -> None:
    async with floor(locked) as hall:
        await asked_to_close(hall)
        hall.type("4711")
        await hall.shows("▸ ••••")
        assert "4711" not in hall.text
        assert ASKED in hall.text
        hall.type("82\r")
        await hall.until(lambda: locked.closed, "the day to be closed")
        await hall.shows("saved, entry 2: day closed")
        assert not hall.app.clerk.held


async def test_a_wrong_one_says_what_is_left_and_the_question_stays(
    locked: Desk, clock: HandClock
) -> None:
    async with floor(locked) as hall:
        await asked_to_close(hall)
        hall.type("1111\r")
        await hall.shows("the PIN is wrong; 2 more tries")
        hall.type("1111\r1111\r")
        await hall.shows("the PIN is wrong; the next try in 5 s")
        assert ASKED in hall.text
        hall.type(f"{PIN}\r")
        await hall.shows("too many wrong PINs; wait 5 s")
        clock.forward(seconds=5)
        hall.type(f"{PIN}\r")
        await hall.until(lambda: locked.closed, "the day to be closed")


async def test_a_scale_that_types_meanwhile_loses_nothing_and_tries_no_pin(locked: Desk) -> None:
    async with floor(locked) as hall:
        await asked_to_close(hall)
        hall.type("/7\r10.81\r10.9 g\r11\r110\r")
        await hall.until(lambda: len(locked.ledger.entries) == 4, "three readings")
        readings = [entry.get("reading") for entry in locked.ledger.entries.values()]
        assert readings == [None, 10.81, 10.9, 11]
        await hall.shows(ASKED)
        held = hall.app.clerk.held
        await hall.until(
            lambda: [each.why for each in held] == ["pin", "far off"], "110 to be held"
        )
        assert not (locked.data_folder / "pin-tries").exists()
        hall.type(f"{PIN}\r")
        await hall.until(lambda: locked.closed, "the day to be closed")
        await hall.shows("held: Enter records, Esc drops")


async def test_an_empty_enter_answers_nothing_and_escape_drops_the_question(locked: Desk) -> None:
    async with floor(locked) as hall:
        await asked_to_close(hall)
        hall.type("\r\r47")
        await hall.shows("▸ ••")
        hall.type(ESC)
        await hall.shows("dropped: close")
        assert ASKED not in hall.text
        assert not locked.closed
        hall.type("x" + UP)
        await hall.shows("▸ close")  # no digit is among the earlier lines


async def test_no_key_brings_the_digits_back_in_clear(locked: Desk) -> None:
    async with floor(locked) as hall:
        await asked_to_close(hall)
        for end in (UP, "\x15", "\r"):
            hall.type("1234" + end)
            await hall.settled()
            assert "1234" not in hall.text
        for _ in range(4):
            hall.type(UP)
            await hall.settled()
            assert "1234" not in hall.text


async def test_digits_that_come_with_the_line_itself_are_taken_for_the_pin(
    locked: Desk, tmp_path: Path, clock: HandClock
) -> None:
    Desk(tmp_path / "data", clock, "T2", "LP").enter("7 good 3", None)
    async with floor(locked) as hall:
        hall.type(f"undo 2 wrong bench!\r{PIN}\r")
        await hall.until(lambda: 2 in locked.ledger.undone, "the entry to be void")
        hall.type(F7)
        await hall.until(lambda: hall.is_at("Log"), "the Log")
        assert PIN not in hall.text


async def test_anothers_entry_is_asked_about_once_and_then_for_the_pin(
    locked: Desk, tmp_path: Path, clock: HandClock
) -> None:
    Desk(tmp_path / "data", clock, "T2", "LP").enter("7 good 3", None)
    async with floor(locked) as hall:
        hall.type("undo 2\r")
        await hall.shows("held: Enter records, Esc drops: entry 2 was made at another terminal")
        hall.type("\r")
        await hall.shows("PIN to void entry 2, which is another's?")
        hall.type(f"{PIN}\r")
        await hall.until(lambda: 2 in locked.ledger.undone, "the entry to be void")


async def test_initials_are_typed_and_stand_in_the_title_and_the_log(locked: Desk) -> None:
    async with floor(locked) as hall:
        assert " RM  08:00" in hall.rows[0]
        hall.type("iniciales ñu\r7 made 5\r")
        await hall.shows(" ÑU  08:00")
        await hall.shows("saved, entry 2")
        hall.type(F7)
        await hall.shows("T1 ÑU")
        hall.type("initials R2D2\r")
        await hall.shows("expected 1 to 4 letters")


def test_at_a_terminal_no_digit_is_ever_drawn(tmp_path: Path) -> None:
    now = HandClock(MORNING.now().astimezone())
    here = Desk(tmp_path / "data", now, "T2", "LP")
    load(here)
    set_pin(here, now, PIN, None)
    here.follow()
    here.enter("7 made 10", None)
    here.enter("7 made 12", None)
    with opened(["-m", "tests.floor.stage", "desk", str(tmp_path / "data")]) as terminal:
        terminal.wait_for("▸")
        terminal.type("undo 2!\r")
        terminal.wait_for("PIN to void entry 2")
        terminal.type(PIN)
        terminal.wait_for("••••••")
        terminal.type("\r")
        terminal.wait_for("saved, entry 3")
        assert PIN.encode() not in terminal.sent
        terminal.type("quit\r")
        assert terminal.wait_for_end() == 0


async def test_digits_too_many_for_a_pin_are_neither_shown_nor_kept(locked: Desk) -> None:
    async with floor(locked) as hall:
        await asked_to_close(hall)
        hall.type(f"{PIN}{PIN}\r")
        await hall.shows("a PIN is 4 to 8 digits")
        assert PIN not in hall.text
        assert ASKED in hall.text
        hall.type(UP)
        assert PIN not in hall.app.clerk.draft.text


async def test_digits_that_nothing_asked_for_are_not_repeated_or_kept(locked: Desk) -> None:
    async with floor(locked) as hall:
        hall.type(f"{PIN}\r")
        await hall.shows("digits that may be a PIN")
        hall.type(f"{PIN}\x15x{UP}")
        await hall.settled()
        assert PIN not in hall.text
        assert not hall.app.clerk.unread
