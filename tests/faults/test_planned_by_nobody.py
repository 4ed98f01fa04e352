"""Days, house books and lines in an order that nobody planned."""

from __future__ import annotations

import datetime as dt
import errno
from collections.abc import Callable
from pathlib import Path

import pytest

from core.desk.audit import audit
from core.desk.desk import Desk
from core.desk.faces import Mistake, NotSaved, Question, Recorded
from core.desk.load import examine
from core.desk.shelf import Shelf
from core.records import journal
from core.records.folder import Folder
from tests.desk.conftest import HOUSE_TOML, HandClock, load


def test_the_same_count_hours_after_one_that_was_not_confirmed_is_a_new_entry(
    desk: Desk, clock: HandClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(_: int) -> None:
        raise OSError(errno.EIO, "Input/output error")

    desk.enter("7 made 10", None)
    with monkeypatch.context() as patched:
        patched.setattr(journal, "sync_data", fail)
        assert isinstance(desk.enter("7 made 50", None), NotSaved)
    desk.follow()
    assert desk.report().totals.made == 60  # seen in the day, so not typed again
    clock.forward(hours=1)
    assert isinstance(desk.enter("7 made 20", None), Recorded)
    clock.forward(hours=2)
    asked = desk.enter("7 made 50", None)
    assert isinstance(asked, Question)
    assert (
        asked.says == "entry 2 of 08:00 says this already, and is saved now; this would be another"
    )
    assert isinstance(desk.enter("7 made 50", None, sure=True), Recorded)
    assert desk.report().totals.made == 130


def test_a_slip_in_the_closed_date_leaves_the_next_mornings_moistures_alone(
    desk: Desk, desk_at: Callable[..., Desk], clock: HandClock
) -> None:
    leaf = next(iter(desk.moistures()))
    desk.enter("7 made 10", None)
    slip = desk_at("T2", date=desk.day + dt.timedelta(1)).close_day()  # today was meant
    assert isinstance(slip, Mistake)
    assert "has not begun" in slip.says
    clock.forward(hours=5)
    assert isinstance(desk.enter(f"{leaf} 21 %", None, sure=True), Recorded)
    clock.forward(days=1)
    next_morning = desk_at("T3")
    assert next_morning.moistures()[leaf] == pytest.approx(0.21)


def test_a_house_book_loaded_while_verify_reads_is_no_problem(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk.enter("7 made 10", None)
    books, asked = Folder.books, []

    def meanwhile(folder: Folder) -> tuple[str, ...]:
        asked.append(folder)
        if len(asked) == 2:  # the first asks for the folder as a whole
            load(desk, HOUSE_TOML + "\n# a new season\n")
            assert isinstance(desk.enter("7 made 20", None), Recorded)
        return books(folder)

    monkeypatch.setattr(Folder, "books", meanwhile)
    assert audit(tmp_path / "data").problems == ()


def test_two_terminals_that_load_the_same_house_book_make_one_version(
    tmp_path: Path, clock: HandClock
) -> None:
    house = examine(HOUSE_TOML, "house.toml").house
    assert house is not None
    one, other = Shelf(Folder(tmp_path)), Shelf(Folder(tmp_path))
    one.load(house, HOUSE_TOML, "house.toml", clock())
    other.load(house, HOUSE_TOML, "house.toml", clock())
    assert len(Shelf(Folder(tmp_path))) == 1
