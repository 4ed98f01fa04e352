"""Clocks that are set back, and the turn of the day: order is the journal's, both days whole."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.faces import Mistake, Recorded
from tests.commands.conftest import Bunchbook
from tests.desk.conftest import HOUSE_TOML, MORNING, HandClock, load
from tests.floor.hall import floor

NIGHT = HOUSE_TOML.replace('tolerance = "0.6 g"', 'tolerance = "0.6 g"\nday_begins = "06:00"')
MONDAY, TUESDAY = dt.date(2026, 5, 4), dt.date(2026, 5, 5)
AFTER = "2026-05-06 09:00"
MIDNIGHT = MORNING.replace(hour=0) + dt.timedelta(days=1)


def record(desk: Desk, line: str, at: str | None = None) -> int:
    outcome = desk.enter(line, at)
    assert isinstance(outcome, Recorded), outcome
    return outcome.entry


def of_day(tmp_path: Path, clock: HandClock, date: dt.date) -> Desk:
    return Desk(tmp_path / "data", clock, "T9", date=date)


# -- a clock that is set back ---------------------------------------------------------------


def test_entries_keep_the_journals_order_whatever_the_clock_says(
    desk: Desk, clock: HandClock, tmp_path: Path
) -> None:
    clock.forward(hours=3)
    record(desk, "7 10.8 10.9 11.0")
    clock.forward(hours=-2)
    record(desk, "7 11.3 11.3 11.4")
    clock.forward(hours=-0.5)
    record(desk, "7 11.0 11.1 11.0")
    assert [line.id for line in desk.log()] == [3, 2, 1]
    assert [check.id for check in desk.recent_checks("7")] == [1, 2, 3]
    again = of_day(tmp_path, clock, MONDAY)
    assert [line.id for line in again.log()] == [3, 2, 1]
    assert again.bench_line("7").last_mean == pytest.approx(33.1 / 3)
    assert record(desk, "undo") == 4
    assert desk.ledger.undone.keys() == {3}, "the last entry made, not the latest by the clock"


def test_after_a_check_the_next_is_due_by_the_clock_as_it_is_now(
    desk: Desk, clock: HandClock
) -> None:
    clock.forward(hours=3)
    record(desk, "7 10.8 10.9 11.0")
    clock.forward(hours=-2)
    record(desk, "7 10.8 10.9 11.0")
    due = desk.bench_line("7").due
    assert due is not None
    assert clock() < due <= clock() + dt.timedelta(minutes=desk.loaded.house.weigh_every_min)


def test_a_clock_set_back_does_not_put_a_weigh_in_off_by_hours(
    desk: Desk, clock: HandClock
) -> None:
    clock.forward(hours=3)
    record(desk, "7 10.8 10.9 11.0")
    clock.forward(hours=-3)
    desk.follow()
    due = desk.bench_line("7").due
    assert due is not None
    assert due <= clock() + dt.timedelta(minutes=desk.loaded.house.weigh_every_min)


def test_a_clock_set_back_over_midnight_goes_on_with_the_day_before(
    desk: Desk, clock: HandClock, tmp_path: Path
) -> None:
    clock.now = MIDNIGHT - dt.timedelta(minutes=5)
    record(desk, "7 made 50")
    clock.forward(minutes=10)
    record(desk, "7 made 20")
    clock.forward(minutes=-8)
    assert record(desk, "7 made 3") == 2
    clock.forward(minutes=9)
    assert record(desk, "7 made 4") == 2
    assert of_day(tmp_path, clock, MONDAY).report().totals.made == 53
    assert of_day(tmp_path, clock, TUESDAY).report().totals.made == 24


def test_a_clock_set_back_into_a_closed_day_is_told(desk: Desk, clock: HandClock) -> None:
    record(desk, "7 made 50")
    assert isinstance(desk.close_day(), Recorded)
    clock.forward(days=1)
    record(desk, "7 made 20")
    clock.forward(days=-1)
    refused = desk.enter("7 made 3", None)
    assert isinstance(refused, Mistake)
    assert "the day is closed" in refused.says
    assert desk.day == MONDAY
    clock.forward(days=1)
    assert record(desk, "7 made 3") == 2


def test_a_house_book_loaded_by_a_fast_clock_is_in_force_all_the_same(
    desk: Desk, clock: HandClock
) -> None:
    clock.forward(days=400)
    load(desk, HOUSE_TOML.replace('"0.6 g"', '"0.7 g"'))
    clock.forward(days=-400)
    desk.follow()
    assert desk.house_version == 2
    record(desk, "7 made 50")
    assert desk.day == MONDAY


# -- the turn of the day --------------------------------------------------------------------


def test_a_tenth_of_a_second_either_side_of_midnight(
    desk: Desk, clock: HandClock, tmp_path: Path
) -> None:
    clock.now = MIDNIGHT - dt.timedelta(seconds=0.1)
    record(desk, "7 made 50")
    clock.now = MIDNIGHT + dt.timedelta(seconds=0.1)
    record(desk, "7 made 20")
    for date, made in ((MONDAY, 50), (TUESDAY, 20)):
        assert of_day(tmp_path, clock, date).report().totals.made == made


def test_two_terminals_left_open_over_midnight_turn_together_and_both_days_are_whole(
    desk: Desk, desk_at: Callable[..., Desk], clock: HandClock, bunchbook: Bunchbook
) -> None:
    other = desk_at("T2")
    clock.now = MIDNIGHT - dt.timedelta(minutes=1)
    record(desk, "7 roll corona")
    record(desk, "10.8", "8")
    record(other, "8 made 30")
    clock.forward(minutes=2)
    assert other.follow() is not None
    assert (other.day, other.log()) == (TUESDAY, ())
    assert record(other, "8 made 5") == 1
    assert desk.open_check("8") is not None, "it has not looked at the clock yet"
    assert record(desk, "10.9", "8") == 2
    check = desk.open_check("8")
    assert check is not None
    assert check.readings == (10.9,), "a check does not run from one day into the next"
    assert desk.bench_line("7").vitola == other.bench_line("7").vitola == "corona"
    monday = bunchbook("day", "2026-05-04", "--json", at=AFTER).json
    tuesday = bunchbook("day", "2026-05-05", "--json", at=AFTER).json
    assert (monday["totals"]["made"], monday["entries"]) == (30, 3)
    assert (tuesday["totals"]["made"], tuesday["entries"]) == (5, 2)
    assert bunchbook("verify").code == 0


def test_a_night_shift_is_one_day_until_the_house_begins_the_next(
    desk: Desk, clock: HandClock, bunchbook: Bunchbook
) -> None:
    load(desk, NIGHT)
    for hour, made, day in ((22, 10, MONDAY), (24, 20, MONDAY), (29.99, 30, MONDAY)):
        clock.now = MORNING.replace(hour=0) + dt.timedelta(hours=hour)
        record(desk, f"7 made {made}")
        assert desk.day == day
    clock.now = MORNING.replace(hour=6) + dt.timedelta(days=1)
    record(desk, "7 made 40")
    assert desk.day == TUESDAY
    assert bunchbook("day", "2026-05-04", "--json", at=AFTER).json["totals"]["made"] == 60
    assert bunchbook("day", "2026-05-05", "--json", at=AFTER).json["totals"]["made"] == 40


def test_at_names_a_time_of_the_night_shift_that_goes_to_the_day_it_began(
    loaded: Bunchbook, tmp_path: Path
) -> None:
    night = tmp_path / "night.toml"
    night.write_text(NIGHT, encoding="utf-8")
    assert loaded("house", "load", str(night)).code == 0
    assert loaded("enter", "7 made 10", at="2026-05-04 23:59").code == 0
    assert loaded("enter", "7 made 20", at="2026-05-05 05:59").code == 0
    assert loaded("enter", "7 made 40", at="2026-05-05 06:00").code == 0
    assert loaded("day", "--json", at="2026-05-05 05:59").json["totals"]["made"] == 30
    assert loaded("day", "--json", at="2026-05-05 06:30").json["totals"]["made"] == 40


def test_an_entry_under_an_earlier_at_comes_after_those_already_made(loaded: Bunchbook) -> None:
    assert loaded("enter", "7 made 10", at="2026-05-04 10:00").code == 0
    assert loaded("enter", "7 made 20", at="2026-05-04 09:00").code == 0
    assert loaded("day", "--json", at="2026-05-04 09:30").json["totals"]["made"] == 20
    assert loaded("day", "--json", at="2026-05-04 10:30").json["totals"]["made"] == 30
    assert loaded("verify").code == 0


def test_a_day_that_was_left_open_can_still_be_closed_the_day_after(
    desk: Desk, clock: HandClock, bunchbook: Bunchbook
) -> None:
    record(desk, "7 made 50")
    clock.forward(days=1)
    record(desk, "7 made 20")
    assert bunchbook("close", "2026-05-04", at="2026-05-05 09:00").code == 0
    assert bunchbook("day", "2026-05-04", "--json", at=None).json["closed"]
    desk.follow()
    assert not desk.closed
    assert record(desk, "7 made 20") == 2


async def test_an_open_floor_turns_to_the_new_day_without_a_key(
    desk: Desk, clock: HandClock, tmp_path: Path
) -> None:
    clock.now = MIDNIGHT - dt.timedelta(minutes=1)
    async with floor(desk) as hall:
        hall.type("7\r10.8\r")
        await hall.shows("saved, entry 1")
        hall.type("10.")
        await hall.shows("bench 7 ▸ 10.")
        clock.forward(minutes=2)
        await hall.shows("Tuesday 5 May 2026")
        assert hall.is_at("Card, bench 7")
        hall.type("9\r")
        await hall.shows("saved, entry 1: bench 7: first piece: reading 1 of 3, 10.9 g")
    for date, reading in ((MONDAY, 10.8), (TUESDAY, 10.9)):
        check = of_day(tmp_path, clock, date).recent_checks("7")[0]
        assert check.readings == (reading,)
