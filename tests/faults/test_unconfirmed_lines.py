"""Lines the disk did not confirm, come again; and days that nothing may begin too early."""

from __future__ import annotations

import datetime as dt
import errno
import os
from collections.abc import Callable

import pytest

from core.desk.desk import Desk
from core.desk.faces import Mistake, NotSaved, Outcome, Question, Recorded
from core.records import journal
from tests.commands.conftest import Bunchbook
from tests.desk.conftest import HandClock

Failing = Callable[[], None]


@pytest.fixture
def fail_once(monkeypatch: pytest.MonkeyPatch) -> Failing:
    """The next sync fails, those after it are as ever."""

    def arm() -> None:
        def fail(_: int) -> None:
            monkeypatch.setattr(journal, "sync_data", os.fdatasync)
            raise OSError(errno.EIO, "Input/output error")

        monkeypatch.setattr(journal, "sync_data", fail)

    return arm


def unconfirmed(desk: Desk, fail: Failing, line: str, *, sure: bool = False) -> None:
    if not desk.ledger.entries:
        desk.enter("note begun", None)
    fail()
    assert isinstance(desk.enter(line, None, sure), NotSaved)


def made(desk: Desk) -> int:
    desk.follow()
    return desk.report().totals.made


def test_it_is_asked_about_though_nothing_was_looked_at_meanwhile(
    desk: Desk, clock: HandClock, fail_once: Failing
) -> None:
    unconfirmed(desk, fail_once, "7 made 50")
    clock.forward(hours=3)
    asked = desk.enter("7 made 50", None)
    assert isinstance(asked, Question)
    assert "entry 2 of 08:00 says this already, and is saved now" in asked.says
    assert isinstance(desk.enter("7 made 50", None, sure=True), Recorded)
    assert made(desk) == 100


def test_a_confirmed_doubt_that_is_tried_again_late_is_not_recorded_twice(
    desk: Desk, clock: HandClock, fail_once: Failing
) -> None:
    unconfirmed(desk, fail_once, "7 made 500", sure=True)
    clock.forward(minutes=5)
    assert isinstance(desk.enter("7 made 500", None, sure=True), Question)
    assert made(desk) == 500


def test_a_clock_set_back_is_no_reason_to_take_it_for_the_same(
    desk: Desk, clock: HandClock, fail_once: Failing
) -> None:
    clock.forward(hours=3)
    unconfirmed(desk, fail_once, "7 made 50")
    clock.forward(hours=-1)
    assert isinstance(desk.enter("7 made 50", None), Question)


def test_an_entry_that_was_voided_meanwhile_is_not_called_saved(
    desk: Desk, fail_once: Failing
) -> None:
    unconfirmed(desk, fail_once, "7 made 50")
    desk.follow()
    assert isinstance(desk.enter("undo 2", None), Recorded)
    assert isinstance(desk.enter("7 made 50", None), Recorded)
    assert made(desk) == 50


def test_a_closing_that_another_terminal_took_back_is_made_anew(
    desk: Desk, desk_at: Callable[..., Desk], clock: HandClock, fail_once: Failing
) -> None:
    assert isinstance(desk.enter("7 made 50", None), Recorded)
    fail_once()
    assert isinstance(desk.close_day(), NotSaved)
    assert isinstance(desk_at("T2").reopen("bundle found"), Recorded)
    clock.forward(hours=1)
    assert isinstance(desk.close_day(), Recorded)
    assert desk.closed


@pytest.mark.parametrize("refused", ["close", "reopen", "enter"])
def test_what_is_refused_does_not_begin_a_day(
    desk: Desk, desk_at: Callable[..., Desk], refused: str
) -> None:
    tomorrow = desk_at("T2", date=desk.day + dt.timedelta(1))
    does: dict[str, Callable[[], Outcome]] = {
        "close": tomorrow.close_day,
        "reopen": lambda: tomorrow.reopen("a slip"),
        "enter": lambda: tomorrow.enter("undo", None),
    }
    assert isinstance(does[refused](), Mistake)
    assert not list(desk.data_folder.rglob(f"*{tomorrow.day}*"))


def test_a_day_without_entries_is_not_closed(desk: Desk) -> None:
    refused = desk.close_day()
    assert isinstance(refused, Mistake)
    assert refused.says == "nothing was recorded on 2026-05-04: there is nothing to close"


def test_at_of_a_day_to_come_records_nothing(loaded: Bunchbook) -> None:
    for words in (["enter", "7 made 10"], ["close"], ["reopen", "a slip"]):
        ran = loaded(*words, at="2190-01-01 09:00")
        assert ran.code == 2
        assert "2190-01-01 has not begun; today is" in ran.err
