"""A disk that does not confirm: nothing is called saved, and every line is one entry at last."""

from __future__ import annotations

import errno
import os
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.faces import NotSaved, Recorded
from core.records import journal
from floor.widgets.clerk import Clerk
from tests.desk.conftest import HandClock
from tests.floor.test_clerk import Somewhere


class Sync:
    """Syncs that fail as told, of every file or of one."""

    def __init__(self) -> None:
        self.fails = 0
        self.only: int | None = None

    def __call__(self, fd: int) -> None:
        if self.fails and (self.only is None or self.only == fd):
            self.fails -= 1
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        os.fdatasync(fd)


@pytest.fixture
def sync(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> Sync:
    """Put in place when the house is loaded and the day has begun."""
    assert isinstance(desk.enter("note begun", None), Recorded)
    found = Sync()
    monkeypatch.setattr(journal, "sync_data", found)
    return found


def kept(tmp_path: Path, clock: HandClock) -> list[tuple[str | None, str]]:
    """What the records hold since the day was begun: bench and words of each entry."""
    log = Desk(tmp_path / "data", clock, "T9").log()
    return [(line.bench, line.says) for line in reversed(log)][1:]


def test_a_line_that_was_not_confirmed_is_not_saved_and_later_once(
    desk: Desk, sync: Sync, tmp_path: Path, clock: HandClock
) -> None:
    assert isinstance(desk.enter("7 made 50", None), Recorded)
    sync.fails = 2
    for _ in range(2):
        outcome = desk.enter("7 good 45", None)
        assert isinstance(outcome, NotSaved)
        assert outcome.line == "7 good 45"
        assert "cannot confirm that the entry is on the disk" in outcome.says
    assert isinstance(desk.enter("7 good 45", None), Recorded)
    assert len(kept(tmp_path, clock)) == 2
    assert desk.report().totals.good == 45


def test_of_two_terminals_only_the_one_whose_disk_failed_is_told(
    desk: Desk, desk_at: Callable[..., Desk], sync: Sync, tmp_path: Path, clock: HandClock
) -> None:
    other = desk_at("T2")
    sync.fails = 1
    assert isinstance(desk.enter("7 made 50", None), NotSaved)
    assert isinstance(other.enter("8 made 20", None), Recorded)
    assert isinstance(desk.enter("7 made 50", None), Recorded)
    assert isinstance(other.enter("8 made 20", None), Recorded), "the same again is one more"
    desk.follow()
    assert desk.report().totals.made == other.report().totals.made == 90
    assert len(kept(tmp_path, clock)) == 3


def test_a_closing_that_was_not_confirmed_can_be_done_again(desk: Desk, sync: Sync) -> None:
    assert isinstance(desk.enter("7 made 50", None), Recorded)
    sync.fails = 1
    assert isinstance(desk.close_day(), NotSaved)
    assert isinstance(desk.close_day(), Recorded)
    assert desk.closed


def test_several_lines_that_were_not_confirmed_are_each_one_entry(
    desk: Desk, sync: Sync, tmp_path: Path, clock: HandClock
) -> None:
    sync.fails = 3
    lines = ["7 made 50", "7 good 45", "8 made 20"]
    for line in lines:
        assert isinstance(desk.enter(line, None), NotSaved)
    for line in lines:
        assert isinstance(desk.enter(line, None), Recorded)
    assert len(kept(tmp_path, clock)) == len(lines)


def test_the_same_reading_on_another_card_is_another_entry(
    desk: Desk, sync: Sync, tmp_path: Path, clock: HandClock
) -> None:
    sync.fails = 1
    assert isinstance(desk.enter("10.8", "7"), NotSaved)
    assert isinstance(desk.enter("10.8", "8"), Recorded)
    assert isinstance(desk.enter("10.8", "7"), Recorded)
    assert Counter(bench for bench, _ in kept(tmp_path, clock)) == {"7": 1, "8": 1}


def test_a_scale_that_goes_on_while_the_disk_fails_records_each_reading_once(
    desk: Desk, sync: Sync, tmp_path: Path, clock: HandClock
) -> None:
    """At the floor: unsaved lines are put aside, and an empty Enter saves them all."""
    clerk = Clerk(desk, Somewhere("7"))
    sync.fails = 2
    for reading in ("10.8", "10.9", "11.0"):
        clerk.type(reading)
        clerk.enter()
    assert len(clerk.held) == 2
    clerk.enter()
    assert not clerk.held
    check = desk.recent_checks("7")
    assert sorted(r for c in check for r in c.readings) == [10.8, 10.9, 11.0]
