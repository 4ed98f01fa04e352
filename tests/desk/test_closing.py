"""What is kept of a day at its end, whatever happens in between."""

from __future__ import annotations

import datetime as dt
import shutil
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from core.day.room import ALREADY_CLOSED
from core.day.summary import SUMMARY, DayOpened, DaySummary
from core.day.trend import DayLine, trend
from core.desk import summaries
from core.desk.desk import Desk
from core.desk.faces import Go, Mistake, NotSaved, Outcome, Recorded
from core.desk.summaries import SUMMARIES, Span, is_kept, keep, span
from core.problems import StoreUnusable
from core.records.folder import Folder
from tests.desk.conftest import HOUSE_TOML, ZONE, HandClock, load

DAY = dt.date(2026, 5, 4)
Kept = DaySummary | DayOpened


class Died(BaseException):
    """The process ended here."""


def in_span(folder: Path, first: dt.date = DAY, last: dt.date = DAY) -> Span:
    """As a process that comes later finds it."""
    return span(Folder(folder), first, last)


def told(folder: Path) -> DayLine:
    found = in_span(folder)
    (line,) = trend(found.kept, found.unclosed).days
    return line


def newest(folder: Path, date: dt.date = DAY) -> Kept:
    return in_span(folder, date, date).kept[date.isoformat()]


def made(folder: Path) -> int:
    figures = told(folder).figures
    assert figures is not None
    return figures.figures.made


def done(outcome: Outcome) -> str:
    assert isinstance(outcome, Recorded), outcome
    return outcome.says


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "data"


@pytest.fixture
def worked(desk: Desk) -> Desk:
    for line in ("7 take SE-1 900", "7 made 50", "7 good 45", "7 fail torn 2", "7 10.9 11.1 11.4"):
        done(desk.enter(line, None, sure=True))
    return desk


def test_a_closed_day_is_in_its_years_book_and_not_in_the_house_book(
    worked: Desk, folder: Path
) -> None:
    before = (folder / "house.jsonl").read_bytes()
    assert told(folder).state == "not closed"
    done(worked.close_day())
    assert (folder / "house.jsonl").read_bytes() == before
    summary = newest(folder)
    book = Folder(folder).day(DAY)
    book.follow()
    assert (summary["lines"], summary["end"]) == (book.lines, book.end)
    line, report = told(folder), worked.report()
    assert (line.state, line.corrected) == ("closed", 0)
    assert line.figures is not None
    assert line.figures.figures.good == report.totals.good == 45
    assert line.figures.figures.first_pass_yield == report.totals.first_pass_yield
    assert line.figures.figures.filler_used_kg == pytest.approx(0.9)


def test_a_late_correction_changes_the_figures_and_is_marked(
    worked: Desk, folder: Path, clock: HandClock
) -> None:
    done(worked.close_day())
    clock.forward(hours=20)
    late = Desk(folder, clock, "T2", date=DAY)
    done(late.reopen("bundle found"))
    line = told(folder)
    assert (line.state, line.figures, line.reason) == ("open again", None, "bundle found")
    assert line.corrected == 1
    assert line.open_since == "2026-05-05T02:00:00.000Z"
    done(late.enter("7 made 3", None))
    assert told(folder).state == "open again"
    done(late.close_day())
    assert (told(folder).state, told(folder).corrected, made(folder)) == ("closed", 1, 53)
    done(late.reopen("another"))
    done(late.close_day())
    assert told(folder).corrected == 2


def test_a_closed_day_with_a_sound_summary_is_closed_already(worked: Desk, folder: Path) -> None:
    done(worked.close_day())
    before = (folder / "years" / "2026.jsonl").read_bytes()
    assert isinstance(worked.close_day(), Mistake)
    assert (folder / "years" / "2026.jsonl").read_bytes() == before


def test_a_refused_reopen_leaves_the_summary_alone(worked: Desk, folder: Path) -> None:
    assert isinstance(worked.reopen("it is open"), Mistake)
    assert told(folder).state == "not closed"
    done(worked.close_day())
    assert isinstance(worked.reopen(" "), Mistake)
    assert told(folder).state == "closed"


def test_dying_between_the_close_and_the_summary_is_made_up_for_by_the_next_close(
    worked: Desk, folder: Path, desk_at: Callable[..., Desk], monkeypatch: pytest.MonkeyPatch
) -> None:
    def die(*_args: object) -> bool:
        raise Died

    with monkeypatch.context() as patched:
        patched.setattr(summaries, "keep", die)
        with pytest.raises(Died):
            worked.close_day()
    assert told(folder).state == "not closed"
    later = desk_at("T2")
    assert "kept now" in done(later.close_day())
    assert made(folder) == 50
    assert isinstance(later.close_day(), Mistake)
    assert sum(entry["kind"] == "close" for entry in later.ledger.entries.values()) == 1


def test_dying_while_opening_again_never_leaves_figures_that_may_change(
    worked: Desk, folder: Path, desk_at: Callable[..., Desk], monkeypatch: pytest.MonkeyPatch
) -> None:
    done(worked.close_day())

    def keep_and_die(*args: Any) -> bool:
        keep(*args)
        raise Died

    with monkeypatch.context() as patched:
        patched.setattr(summaries, "keep", keep_and_die)
        with pytest.raises(Died):
            worked.reopen("bundle found")
    assert told(folder).state == "open again"
    later = desk_at("T2")
    assert later.closed
    assert "kept now" in done(later.close_day())
    assert (told(folder).state, told(folder).corrected) == ("closed", 0)


def test_a_lost_year_book_comes_back_day_by_day_as_it_was(
    worked: Desk, folder: Path, clock: HandClock
) -> None:
    done(worked.close_day())
    before = newest(folder)
    shutil.rmtree(folder / "years")
    clock.forward(days=30)
    late = Desk(folder, clock, "T2", date=DAY)
    load(late, HOUSE_TOML.replace('standard_moisture = "13 %"', 'standard_moisture = "12 %"'))
    assert "kept now" in done(late.close_day())
    assert newest(folder) == before


def test_a_terminal_that_is_overtaken_does_not_keep_what_is_no_longer_so(
    worked: Desk, folder: Path, desk_at: Callable[..., Desk], monkeypatch: pytest.MonkeyPatch
) -> None:
    other = desk_at("T2")

    def overtaken(*args: Any) -> bool:
        monkeypatch.setattr(summaries, "keep", keep)
        done(other.reopen("bundle found"))
        done(other.enter("7 made 7", None))
        done(other.close_day())
        return keep(*args)

    monkeypatch.setattr(summaries, "keep", overtaken)
    done(worked.close_day())
    assert (made(folder), told(folder).corrected) == (57, 1)
    assert is_kept(other.folder, DAY)


def test_two_terminals_that_close_at_once_leave_one_close_and_its_summary(
    worked: Desk, folder: Path, desk_at: Callable[..., Desk]
) -> None:
    for turn in range(5):
        desks = [worked, desk_at("T2")]
        start = threading.Barrier(2)
        outcomes: list[Outcome] = []

        def close(
            desk: Desk, start: threading.Barrier = start, into: list[Outcome] = outcomes
        ) -> None:
            start.wait()
            into.append(desk.close_day())

        threads = [threading.Thread(target=close, args=(desk,)) for desk in desks]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert sum("day closed" in getattr(each, "says", "") for each in outcomes) == 1
        assert all(isinstance(each, Recorded | Mistake) for each in outcomes)
        line = told(folder)
        assert (line.state, line.corrected) == ("closed", turn)
        done(worked.reopen("again"))


def test_a_disk_that_will_not_take_the_summary_leaves_the_day_closed_and_says_what_to_do(
    worked: Desk, folder: Path
) -> None:
    (folder / "years").write_text("in the way")
    outcome = worked.close_day()
    assert isinstance(outcome, NotSaved)
    assert "summary could not be kept" in outcome.says
    assert "close it again" in outcome.says
    assert worked.closed
    assert isinstance(worked.close_day(), NotSaved)
    (folder / "years").unlink()
    assert "kept now" in done(worked.close_day())
    assert made(folder) == 50


def test_a_day_is_not_opened_again_where_that_cannot_be_kept(worked: Desk, folder: Path) -> None:
    done(worked.close_day())
    shutil.rmtree(folder / "years")
    (folder / "years").write_text("in the way")
    fresh = Desk(folder, worked.now, "T2")
    assert isinstance(fresh.reopen("bundle found"), NotSaved)
    assert Desk(folder, worked.now, "T3").closed


def test_a_reopening_that_is_not_saved_keeps_its_reason(worked: Desk, folder: Path) -> None:
    done(worked.close_day())
    shutil.rmtree(folder / "years")
    (folder / "years").write_text("in the way")
    fresh = Desk(folder, worked.now, "T2")
    outcome = fresh.enter("reopen bundle found", None)
    assert isinstance(outcome, NotSaved)
    assert outcome.line == "reopen bundle found"
    (folder / "years").unlink()
    assert "bundle found" in done(fresh.enter(outcome.line, None))


def test_a_day_is_kept_in_its_own_year(desk: Desk, folder: Path, clock: HandClock) -> None:
    old = Desk(folder, clock, "T2", date=dt.date(2025, 12, 31))
    done(old.enter("7 made 5", None))
    done(old.close_day())
    assert [path.name for path in (folder / "years").iterdir()] == ["2025.jsonl"]


def test_a_night_shift_is_kept_under_the_day_it_began(
    desk_at: Callable[..., Desk], folder: Path, clock: HandClock
) -> None:
    clock.now = dt.datetime(2026, 1, 1, 2, 0, tzinfo=ZONE)
    night = desk_at()
    load(night, HOUSE_TOML.replace("[house]", '[house]\nday_begins = "05:00"'))
    done(night.enter("7 made 5", None))
    done(night.close_day())
    date = dt.date(2025, 12, 31)
    assert night.day == date
    assert newest(folder, date)["date"] == "2025-12-31"
    assert (folder / "years" / "2025.jsonl").exists()


def put(folder: Path, document: dict[str, Any]) -> None:
    Folder(folder).year(2026).append(SUMMARIES, lambda _number: document)


def test_a_summary_of_a_newer_program_is_refused_and_not_half_read(
    worked: Desk, folder: Path
) -> None:
    done(worked.close_day())
    put(folder, {"summary": SUMMARY + 1, "date": "2026-05-05", "closed": True})
    with pytest.raises(StoreUnusable, match="newer version"):
        in_span(folder)
    outcome = worked.close_day()
    assert isinstance(outcome, NotSaved)
    assert "update this program" in outcome.says


def test_what_is_no_summary_counts_as_damage_and_hides_nothing(worked: Desk, folder: Path) -> None:
    done(worked.close_day())
    put(folder, {"date": "2026-05-04", "closed": True})
    put(folder, {"summary": 1, "date": "2026-05-04", "closed": True})
    assert in_span(folder).damaged == 2
    assert made(folder) == 50


def test_as_of_a_time_later_closings_are_left_out(
    worked: Desk, folder: Path, clock: HandClock
) -> None:
    done(worked.close_day())
    clock.forward(hours=1)
    done(worked.reopen("bundle found"))
    then = span(Folder(folder), DAY, DAY, "2026-05-04T06:30:00.000Z")
    assert then.kept[DAY.isoformat()]["closed"]
    before = span(Folder(folder), DAY, DAY, "2026-05-04T05:30:00.000Z")
    assert (before.kept, before.unclosed) == ({}, (DAY.isoformat(),))


def test_no_day_book_is_read_for_a_span(
    worked: Desk, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    done(worked.close_day())

    def unread(*_args: object) -> None:
        raise AssertionError("a day's book was opened")

    monkeypatch.setattr(Folder, "day", unread)
    assert in_span(folder).kept


def test_a_closed_day_says_so_before_anybody_is_asked(worked: Desk) -> None:
    assert worked.meaning("close", None).ok
    assert isinstance(worked.enter("close", None), Go)
    done(worked.close_day())
    would = worked.meaning("close", None)
    assert (would.ok, would.says) == (False, ALREADY_CLOSED)
    refused = worked.enter("close", None)
    assert isinstance(refused, Mistake)
    assert refused.says == ALREADY_CLOSED


def test_a_summary_that_was_lost_is_made_up_for_without_a_question(
    worked: Desk, folder: Path
) -> None:
    done(worked.close_day())
    shutil.rmtree(folder / "years")
    assert "is kept now" in done(Desk(folder, worked.now, "T2").enter("close", None))
    assert made(folder) == 50
