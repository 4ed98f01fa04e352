"""What books keep of each other's ends shows lines cut off an end, and books that are gone."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import orjson
import pytest

from core.desk.audit import audit
from core.desk.desk import Desk
from core.problems import StoreUnusable
from core.records.folder import Folder
from core.records.verify import read_journal
from tests.desk.conftest import HandClock
from tests.records.books import in_use, put_in, signed, sum_in

MONDAY, TUESDAY, YEAR = "days/2026-05-04.jsonl", "days/2026-05-05.jsonl", "years/2026.jsonl"


@pytest.fixture
def data(desk: Desk, clock: HandClock) -> Path:
    """Monday, closed, and Tuesday's first entry."""
    for line in ("7 made 50", "7 good 40", "close"):
        desk.enter(line, None)
    desk.close_day()
    clock.forward(days=1)
    desk.enter("7 made 20", None)
    return desk.data_folder


def opening(data: Path, name: str) -> Any:
    _, changes = read_journal(data / name)
    return next(document for table, _, document in changes if table == "opening")


def cut(path: Path, lines: int) -> None:
    """Take lines off the end."""
    path.write_bytes(b"".join(in_use(path).splitlines(keepends=True)[:-lines]))


def test_an_opening_says_where_the_other_books_ended(data: Path) -> None:
    ends = opening(data, TUESDAY)["ends"]
    assert set(ends) == {"house.jsonl", MONDAY, YEAR}
    for name, (lines, end) in ends.items():
        stood = in_use(data / name).splitlines()
        assert (lines, end) == (len(stood), sum_in(stood[-1]))
    assert set(opening(data, MONDAY)["ends"]) == {"house.jsonl"}
    assert audit(data).sound


def test_later_entries_leave_an_anchor_as_it_was(
    data: Path, desk: Desk, desk_at: Callable[..., Desk], clock: HandClock
) -> None:
    clock.forward(days=-1)
    assert "saved" in str(desk_at("T2").reopen("bundle found"))
    assert "saved" in str(desk.enter("7 good 3", None))
    assert audit(data).problems == ()


@pytest.mark.parametrize("name", [MONDAY, YEAR, "house.jsonl"])
def test_lines_cut_off_an_end_are_told_with_what_was_expected(data: Path, name: str) -> None:
    lines = len(in_use(data / name).splitlines())
    cut(data / name, 1)
    told = [problem for problem in audit(data).problems if problem.startswith(f"{name}: ")]
    (problem,) = told
    assert f"expected {lines} lines or more" in problem
    assert f"found {lines - 1}: lines were cut off its end, or it was put back" in problem


@pytest.mark.parametrize("name", [MONDAY, YEAR, "house.jsonl"])
def test_a_book_that_is_gone_is_told(data: Path, name: str) -> None:
    (data / name).unlink()
    found = audit(data)
    assert any(p.startswith(f"{name}: ") and "found no such book" in p for p in found.problems)


@pytest.mark.parametrize("name", [MONDAY, TUESDAY, "house.jsonl"])
def test_an_emptied_book_is_told(data: Path, name: str) -> None:
    (data / name).write_bytes(b"")
    assert any("found an empty file" in p and name in p for p in audit(data).problems)


def test_another_book_of_the_same_length_is_told(data: Path) -> None:
    lines = in_use(data / MONDAY).splitlines(keepends=True)
    closed = orjson.loads(lines[-1])
    last = read_journal(data / MONDAY)[1][-1][2]
    assert last is not None
    other = {"set": {"entries": {"3": {**last, "terminal": "T9"}}}}
    (data / MONDAY).write_bytes(b"".join([*lines[:-1], signed(other, closed["prev"])]))
    (problem,) = audit(data).problems
    assert problem.startswith(f"{MONDAY}: line {len(lines)}: expected the checksum")


def test_a_line_torn_before_its_anchor_was_written_counts_then_and_later(
    data: Path, desk: Desk, clock: HandClock
) -> None:
    put_in(data / TUESDAY, b'{"sum":"0123')
    clock.forward(days=1)
    desk.enter("7 made 5", None)
    lines, _ = opening(data, "days/2026-05-06.jsonl")["ends"][TUESDAY]
    assert lines == len(in_use(data / TUESDAY).splitlines())
    assert audit(data).problems == ()
    clock.forward(days=-1)
    other = Desk(data, clock, "T2", date=clock().date())
    other.enter("7 made 6", None)
    found = audit(data)
    assert found.problems == ()
    assert len(found.repaired) == 1


def test_an_opening_without_anchors_still_reads(data: Path) -> None:
    head, first, *_ = in_use(data / TUESDAY).splitlines(keepends=True)
    body = {"set": {"opening": {"1": {"house": 1, "seats": {}, "moistures": {}}}}}
    (data / TUESDAY).write_bytes(head + signed(body, sum_in(head)))
    assert sum_in(first) != sum_in(in_use(data / TUESDAY).splitlines()[1])
    assert audit(data).problems == ()


def add_summary(data: Path, fields: dict[str, Any]) -> None:
    folder = Folder(data)
    folder.year(2026).append("summaries", lambda _number: fields)
    folder.close()


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"date": "2025-05-04"}, "expected a day of 2026 as its date, found 2025-05-04"),
        ({"date": "May"}, "expected a day of 2026 as its date, found May"),
        ({}, "expected a day of 2026 as its date, found None"),
        ({"date": "2026-05-02"}, "sums up 2026-05-02, which has no book"),
        ({"date": "2026-05-04", "lines": "5", "end": "0" * 32}, "does not say where its day's"),
        ({"date": "2026-05-04", "lines": 5}, "does not say where its day's book ended"),
        ({"date": "2026-05-02", "lines": 5, "end": "0" * 32}, "found no such book"),
        ({"date": "2026-05-04", "lines": 99, "end": "0" * 32}, "expected 99 lines or more"),
        ({"date": "2026-05-04", "lines": 2, "end": "0" * 32}, "expected the checksum 000000"),
    ],
)
def test_a_summary_that_does_not_fit_its_day(data: Path, fields: dict[str, Any], says: str) -> None:
    add_summary(data, fields)
    (problem,) = audit(data).problems
    assert says in problem


def test_a_summary_made_by_hand_needs_no_anchor(data: Path) -> None:
    add_summary(data, {"date": "2026-05-04"})
    assert audit(data).sound


def test_damage_in_a_year_book_is_told(data: Path) -> None:
    path = data / YEAR
    path.write_bytes(in_use(path).replace(b'"2026-05-04"', b'"2026-05-03"'))
    assert any(p.startswith(f"{YEAR}: line 2: changed") for p in audit(data).problems)


def test_no_folder_and_an_empty_one_are_not_sound(tmp_path: Path) -> None:
    with pytest.raises(StoreUnusable, match=r"expected a data folder, found nothing; name"):
        audit(tmp_path / "nowhere")
    (tmp_path / "empty").mkdir()
    (problem,) = audit(tmp_path / "empty").problems
    assert "expected a house book (house.jsonl) and a book a day" in problem


def test_an_unfinished_restore_is_told(data: Path) -> None:
    left = data / "restoring-20260504T080000Z"
    left.mkdir()
    (problem,) = audit(data).problems
    assert "or remove this folder: no book had been put in place yet" in problem
    (left / "begun.json").touch()
    (problem,) = audit(data).problems
    assert problem.endswith("run the same restore again to complete it")
