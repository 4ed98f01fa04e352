"""The data folder: what is in it, and who may look."""

from __future__ import annotations

import datetime as dt
import os
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.problems import StoreUnusable
from core.records.folder import Folder
from tests.records.books import DAY, day_book, day_path, in_use, readings, weigh, written

NEXT_DAY = dt.date(2026, 5, 5)


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_a_missing_folder_reads_as_empty_and_stays_missing(tmp_path: Path) -> None:
    folder = Folder(tmp_path / "data")
    assert folder.days() == ()
    assert folder.latest_before(DAY) is None
    assert readings(folder.day(DAY)) == []
    assert folder.house().news().changes == []
    folder.day(DAY).sync()
    assert not (tmp_path / "data").exists()


def test_the_first_entry_makes_the_folder(tmp_path: Path) -> None:
    folder = Folder(tmp_path / "a" / "data")
    weigh(folder.day(DAY), 12.1)
    folder.house().append("lots", lambda number: {"lot": number})
    assert sorted(str(path.relative_to(folder.path)) for path in folder.path.rglob("*")) == [
        "days",
        "days/2026-05-04.jsonl",
        "house.jsonl",
        "latch",
    ]
    head = folder.house().path.read_bytes().splitlines()[0]
    assert head.endswith(b'"book":{"format":1,"kind":"house"}}')


def test_days_are_listed_oldest_first(tmp_path: Path) -> None:
    folder = Folder(tmp_path)
    weigh(folder.day(NEXT_DAY), 12.1)
    weigh(folder.day(DAY), 12.1)
    for other in ("2026-05-06.jsonl.bak", "2026-05-07", "20260508.jsonl", "notes.jsonl"):
        (tmp_path / "days" / other).touch()
    assert folder.days() == (DAY, NEXT_DAY)
    assert folder.latest_before(NEXT_DAY) == DAY
    assert folder.latest_before(dt.date(2027, 1, 1)) == NEXT_DAY
    assert folder.latest_before(DAY) is None


def test_days_that_cannot_be_listed_are_told(tmp_path: Path) -> None:
    (tmp_path / "days").write_text("not a folder")
    with pytest.raises(StoreUnusable, match="a file stands where a folder should be"):
        Folder(tmp_path).days()


@pytest.fixture(params=[0o000, 0o022, 0o077, 0o777])
def umask(request: pytest.FixtureRequest) -> Iterator[None]:
    before = os.umask(request.param)
    yield
    os.umask(before)


@pytest.mark.usefixtures("umask")
def test_records_are_their_owners_alone_whatever_the_umask(tmp_path: Path) -> None:
    data = tmp_path / "data"
    weigh(day_book(data), 12.1)
    assert [mode(path) for path in (data, data / "days")] == [0o700, 0o700]
    assert [mode(path) for path in (data / "latch", day_path(data))] == [0o600, 0o600]


def test_a_house_may_open_its_records_to_a_group(tmp_path: Path) -> None:
    tmp_path.chmod(0o2770)
    weigh(day_book(tmp_path), 12.1)
    assert mode(tmp_path / "days") == 0o2770
    assert [mode(path) for path in (tmp_path / "latch", day_path(tmp_path))] == [0o660, 0o660]


def test_a_folder_others_may_look_into_still_gets_private_files(tmp_path: Path) -> None:
    tmp_path.chmod(0o755)
    weigh(day_book(tmp_path), 12.1)
    assert mode(tmp_path / "days") == 0o700
    assert mode(day_path(tmp_path)) == 0o600


def test_a_copy_taken_under_the_latch_is_whole(tmp_path: Path) -> None:
    written(tmp_path, [12.1])
    folder = Folder(tmp_path)
    with folder.latch:
        copy = in_use(day_path(tmp_path))
        with pytest.raises(StoreUnusable, match="has held the records"):
            weigh(Folder(tmp_path, wait_s=0.05).day(DAY), 12.3)
    assert copy.endswith(b"\n")
    assert weigh(day_book(tmp_path), 12.3)["id"] == 2
