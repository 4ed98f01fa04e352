"""The demo's data folder: reproducible, sound, and telling its two stories."""

from __future__ import annotations

import datetime as dt
import shutil
import time
from pathlib import Path
from statistics import fmean

import pytest

from core.day.report import DayReport
from core.day.trend import trend
from core.desk.audit import audit
from core.desk.desk import Desk
from core.desk.summaries import span
from core.house.model import HouseBook
from core.records.folder import Folder
from demo import story
from demo.build import MOMENT, build, on
from demo.house import demo_house
from demo.shift import WORKING_DAYS

FILLER = frozenset({"volado", "seco", "viso", "ligero", "medio tiempo"})
Built = tuple[Path, dt.datetime]


def test_two_builds_are_the_same_to_the_byte(built: Built, tmp_path: Path) -> None:
    folder, moment = built
    assert build(tmp_path / "again") == moment
    assert _bytes(tmp_path / "again") == _bytes(folder)


def test_another_time_zone_moves_no_clock(
    built: Built, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, moment = built
    here = _clock_times(folder)
    with monkeypatch.context() as zone:
        zone.setenv("TZ", "XYZ-5:45")
        time.tzset()
        elsewhere = build(tmp_path / "there")
    time.tzset()
    assert elsewhere.utcoffset() == dt.timedelta(hours=5, minutes=45)
    assert elsewhere.replace(tzinfo=None) == moment.replace(tzinfo=None)
    assert _clock_times(tmp_path / "there") == here


def test_its_records_are_sound(built: Built) -> None:
    found = audit(built[0])
    assert found.sound
    assert found.days == len(WORKING_DAYS)


def test_all_days_but_the_last_are_closed_and_have_their_summary(
    built: Built, reports: list[DayReport]
) -> None:
    folder, moment = built
    found = span(Folder(folder), WORKING_DAYS[0], WORKING_DAYS[-1])
    assert list(found.kept) == [day.isoformat() for day in WORKING_DAYS[:-1]]
    assert found.unclosed == (WORKING_DAYS[-1].isoformat(),)
    told = trend(found.kept, found.unclosed)
    for line, report in zip(told.days, reports, strict=False):
        assert line.figures is not None
        assert report.closed
        assert (line.figures.figures.made, line.figures.figures.good) == (
            report.totals.made,
            report.totals.good,
        )
        assert line.figures.figures.leaf_yield == pytest.approx(report.leaf_yield, abs=1e-6)
    assert not Desk(folder, lambda: moment, "T9").closed


def test_the_last_day_stands_in_the_middle_of_its_morning(built: Built) -> None:
    folder, moment = built
    assert moment == on(WORKING_DAYS[-1], MOMENT)
    desk = Desk(folder, lambda: moment, "T9")
    assert desk.day == WORKING_DAYS[-1]
    board = desk.board()
    assert any(line.due is None for line in board)  # a first piece after a change of vitola
    assert any(line.due is not None and line.due <= moment for line in board)
    assert all(0 < line.good < line.made < (line.quota or 0) for line in board)
    assert all(entry.at <= moment for entry in desk.log(10_000))


def test_a_desk_goes_on_from_there(built: Built, tmp_path: Path) -> None:
    folder, moment = built
    shutil.copytree(folder, tmp_path / "data")
    desk = Desk(tmp_path / "data", lambda: moment, "T9")
    before = desk.bench_line("7").good
    desk.enter("7 good 25", None)
    assert desk.bench_line("7").good == before + 25


def test_leaf_goes_missing_on_one_day_and_hardly_any_other(reports: list[DayReport]) -> None:
    ((working_day, missing),) = story.MISSING.items()
    rows = {
        (day, row.leaf): row
        for day, report in enumerate(reports)
        for row in report.leaf
        if row.leaf_class in FILLER
    }
    gone = rows.pop((working_day, missing.leaf))
    assert gone.beyond
    assert gone.unexplained_g == pytest.approx(missing.grams, rel=0.1)
    assert sum(row.beyond for row in rows.values()) <= len(rows) // 20


def test_the_drifting_bench_is_heavy_in_the_end_and_was_not_before(
    built: Built, house: HouseBook
) -> None:
    before = _heavier(built, range(story.DRIFT.since))
    late = _heavier(built, range(len(WORKING_DAYS) - 3, len(WORKING_DAYS)))
    tolerance = house.house.tolerance.share or 0.0
    drifting = story.DRIFT.bench
    others = [bench for bench in house.bench if bench != drifting]
    assert abs(before[drifting]) < tolerance / 4
    assert late[drifting] > tolerance / 2
    assert all(late[bench] < late[drifting] for bench in others)
    assert all(abs(late[bench] - before[bench]) < tolerance / 4 for bench in others)


def test_the_room_makes_what_such_a_room_makes(reports: list[DayReport]) -> None:
    """Final and draw rejects, cuttings and yield: common practice, no source."""
    for report in reports:
        totals = report.totals
        assert totals.first_pass_yield is not None
        assert 0.90 < totals.first_pass_yield < 0.98
        assert 0.01 < 1 - totals.good / totals.made < 0.05
        assert report.leaf_yield is not None
        assert 0.92 < report.leaf_yield < 0.97
        filler = [row for row in report.leaf if row.leaf_class in FILLER]
        used = sum(row.used_standard_g for row in filler)
        fell = sum(row.cuttings_g + row.stem_g + row.sweepings_g for row in filler)
        assert 0.03 < fell / used < 0.08


def _bytes(folder: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*.jsonl"))
    }


def _clock_times(folder: Path) -> list[str]:
    """Every entry's time on the clock of the room."""
    records = Folder(folder)
    times = [
        (dt.datetime.fromisoformat(entry["at"]) + dt.timedelta(minutes=entry["offset"])).strftime(
            "%d %H:%M:%S"
        )
        for day in WORKING_DAYS
        for table, _, entry in records.day(day).news().changes
        if table == "entries" and entry is not None
    ]
    records.close()
    return times


def _heavier(built: Built, working_days: range) -> dict[str, float]:
    """How much heavier than target each bench's bunches were, over some days, as a share."""
    folder, moment = built
    desks = [Desk(folder, lambda: moment, "T9", date=WORKING_DAYS[day]) for day in working_days]
    return {
        bench: fmean(
            check.verdict.deviation / check.window.target
            for desk in desks
            for check in desk.recent_checks(bench, limit=100)
            if check.measure == "bunch" and check.verdict and check.window
        )
        for bench in demo_house().bench
    }
