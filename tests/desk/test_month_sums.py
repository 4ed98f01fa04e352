"""The sums of months that are over, as closings keep them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from core.day.parts import parts
from core.day.trend import closed_days
from core.desk import summaries
from core.desk.audit import audit
from core.desk.desk import Desk
from core.desk.faces import Outcome, Recorded
from core.desk.summaries import MONTHS, SUMMARIES, Span, span
from core.problems import Problem, StoreUnusable
from core.records.folder import Folder
from tests.desk.conftest import HandClock, load

APRIL, MAY, JUNE = dt.date(2026, 4, 30), dt.date(2026, 5, 4), dt.date(2026, 6, 1)

Close = Callable[[dt.date, int], None]


def done(outcome: Outcome) -> None:
    assert isinstance(outcome, Recorded), outcome


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "data"


@pytest.fixture
def close(folder: Path, clock: HandClock) -> Close:
    """Has that day make so many cigars, and end; a day that was closed is opened again."""
    clock.now = clock.now.replace(month=4, day=1)
    load(Desk(folder, clock, "T0"))

    def close(date: dt.date, made: int) -> None:
        clock.now = max(clock.now, clock.now.replace(date.year, date.month, date.day))
        clock.forward(minutes=1)
        desk = Desk(folder, clock, "T1", date=date)
        if desk.closed:
            done(desk.reopen("bundle found"))
        done(desk.enter(f"7 made {made}", None, sure=True))
        done(desk.close_day())

    return close


def in_book(folder: Path, year: int = 2026) -> list[str]:
    """The months whose sums were kept, in their order."""
    changes = Folder(folder).year(year).news().changes
    return [fields["month"] for table, _, fields in changes if table == MONTHS and fields]


def of_all(folder: Path) -> Span:
    return span(Folder(folder), dt.date(2025, 1, 1), dt.date(2027, 12, 31))


def made(found: Span) -> int:
    (part,) = parts(closed_days(found.kept), found.months).by_bench.values()
    return part.made


def test_a_month_is_added_up_when_a_day_of_a_later_one_is_closed(
    folder: Path, close: Close
) -> None:
    close(APRIL, 5)
    assert in_book(folder) == []
    close(MAY, 7)
    assert in_book(folder) == ["2026-04"]
    close(JUNE, 9)
    assert in_book(folder) == ["2026-04", "2026-05"]
    assert made(of_all(folder)) == 21
    assert audit(folder).problems == ()


def test_a_late_correction_has_its_month_added_up_anew(folder: Path, close: Close) -> None:
    close(APRIL, 5)
    close(MAY, 7)
    close(APRIL, 3)
    assert in_book(folder) == ["2026-04", "2026-04"]
    assert made(of_all(folder)) == 15
    assert audit(folder).problems == ()


def test_before_the_correction_the_figures_are_those_of_then(
    folder: Path, close: Close, clock: HandClock
) -> None:
    close(APRIL, 5)
    close(MAY, 7)
    then = clock.now.astimezone(dt.UTC).strftime("%Y-%m-%dT%H:%M:%S.999Z")
    clock.forward(hours=1)
    close(APRIL, 3)
    assert made(span(Folder(folder), APRIL, MAY, then)) == 12


def test_december_is_kept_by_the_first_closing_of_january(folder: Path, close: Close) -> None:
    close(APRIL, 5)
    close(dt.date(2026, 12, 31), 7)
    assert in_book(folder) == ["2026-04"]
    close(dt.date(2027, 1, 4), 9)
    assert in_book(folder) == ["2026-04", "2026-12"]
    assert made(of_all(folder)) == 21
    close(dt.date(2027, 3, 1), 4)
    close(dt.date(2026, 12, 31), 1)
    assert in_book(folder) == ["2026-04", "2026-12", "2026-12"]
    assert made(of_all(folder)) == 26


def test_december_is_kept_however_late_the_new_year_begins(folder: Path, close: Close) -> None:
    close(dt.date(2026, 12, 31), 7)
    close(dt.date(2027, 3, 1), 9)
    assert in_book(folder) == ["2026-12"]


def newest(folder: Path) -> dict[str, Any]:
    """A copy of the newest summary."""
    changes = Folder(folder).year(2026).news().changes
    return dict([fields for table, _, fields in changes if table == SUMMARIES and fields][-1])


@pytest.mark.parametrize(
    ("wrong", "counted"),
    [
        ({"runs": "{"}, True),
        ({"runs": '{"bench": [7]}'}, True),
        ({"runs": 5}, False),
        ({"leaf": 5}, False),
        ({"leaf": {"used_g": [1.0]}}, False),
        ({"totals": []}, False),
        ({"date": 5}, False),
        ({"date": None}, False),
        ({"date": "2026-5-4"}, False),
        ({"date": "2025-05-04"}, False),
    ],
)
def test_a_summary_that_is_none_stops_no_closing_and_is_told(
    folder: Path, close: Close, wrong: dict[str, Any], counted: bool
) -> None:
    """Its checksum is right: another program wrote it. `counted`: only its rows are none."""
    close(APRIL, 5)
    close(MAY, 7)
    document = newest(folder) | wrong
    Folder(folder).year(2026).append(SUMMARIES, lambda _number: document)
    close(JUNE, 9)
    assert in_book(folder) == (["2026-04"] if counted else ["2026-04", "2026-05"])
    found = of_all(folder)
    assert found.damaged == (not counted)
    assert not (folder / "years" / "2025.jsonl").exists()
    if counted:
        with pytest.raises(StoreUnusable, match="summary of 2026-05-04 cannot be read"):
            made(found)
    else:
        assert made(found) == 21
    told = [problem for problem in audit(folder).problems if "cannot be read" in problem]
    assert len(told) == counted


def test_a_day_is_closed_though_its_months_could_not_be_kept(
    folder: Path, close: Close, monkeypatch: pytest.MonkeyPatch
) -> None:
    close(APRIL, 5)

    def full(*_args: object) -> None:
        raise StoreUnusable(Problem("years/2026.jsonl", "no space left on the disk"))

    with monkeypatch.context() as patched:
        patched.setattr(summaries, "keep_months", full)
        close(MAY, 7)
    assert in_book(folder) == []
    assert made(of_all(folder)) == 12
    close(JUNE, 9)
    assert in_book(folder) == ["2026-04", "2026-05"]


def test_verify_tells_sums_that_are_not_those_of_their_days(folder: Path, close: Close) -> None:
    close(APRIL, 5)
    close(MAY, 7)
    book = Folder(folder).year(2026)
    (sums,) = (dict(f) for t, _, f in book.news().changes if t == MONTHS and f)
    sums["runs"] = sums["runs"].replace('"made":[5]', '"made":[6]')
    book.append(MONTHS, lambda _number: sums)
    (problem,) = audit(folder).problems
    assert "month 2: expected what the closed days of 2026-04 add up to" in problem
    close(APRIL, 1)
    assert audit(folder).problems == ()
