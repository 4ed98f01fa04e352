"""Disks that are full, read-only, forbidden or failing: a sentence, and nothing half done.

The refusals are put in at the system calls, so that they hold for root too.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from core.problems import StoreUnusable
from core.records import journal
from tests.records.books import day_book, day_path, in_use, readings, weigh, written

Patch = pytest.MonkeyPatch


def refusing(code: int) -> Callable[..., Any]:
    def refuse(*_args: object, **_kwargs: object) -> Any:
        raise OSError(code, os.strerror(code))

    return refuse


class FailingSync:
    """A sync that fails as told, and counts what passed."""

    def __init__(self, monkeypatch: Patch, fails: int) -> None:
        self.fails = fails
        self.passed = 0
        monkeypatch.setattr(journal, "sync_data", self)

    def __call__(self, fd: int) -> None:
        if self.fails:
            self.fails -= 1
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        self.passed += 1
        os.fdatasync(fd)


def test_an_entry_is_synced_before_it_is_acknowledged(tmp_path: Path, monkeypatch: Patch) -> None:
    sync = FailingSync(monkeypatch, fails=0)
    book = day_book(tmp_path)
    weigh(book, 12.1, "a1")
    assert sync.passed == 1
    weigh(book, 12.1, "a1")
    assert sync.passed == 2, "a repeat syncs too"
    book.append_many("entries", [lambda n: {"id": n}] * 50)
    assert sync.passed == 3, "many share one sync"
    book.table("entries").insert({"reading": 3.0})
    assert sync.passed == 4


def test_the_latch_is_free_while_an_entry_is_synced(tmp_path: Path, monkeypatch: Patch) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    written_meanwhile: list[float] = []

    def sync(_fd: int) -> None:
        if not written_meanwhile:
            written_meanwhile.append(12.3)
            weigh(there, 12.3)

    monkeypatch.setattr(journal, "sync_data", sync)
    weigh(here, 12.1)
    assert readings(here) == [12.1, 12.3]


def test_an_entry_whose_sync_failed_is_not_acknowledged_until_it_is_synced(
    tmp_path: Path, monkeypatch: Patch
) -> None:
    book = day_book(tmp_path)
    weigh(book, 12.1)
    sync = FailingSync(monkeypatch, fails=2)
    for _ in range(2):
        with pytest.raises(StoreUnusable, match="cannot confirm that the entry is on the disk"):
            weigh(book, 12.3, "a1")
    assert sync.passed == 0
    assert weigh(book, 12.3, "a1")["id"] == 2
    assert sync.passed == 1
    assert readings(day_book(tmp_path)) == [12.1, 12.3]


def test_bytes_that_a_failed_sync_lost_are_written_again(
    tmp_path: Path, monkeypatch: Patch
) -> None:
    """After a failed sync the kernel may drop the pages: here they turn to zeros."""
    book = day_book(tmp_path)
    weigh(book, 12.1)
    kept = in_use(day_path(tmp_path))
    FailingSync(monkeypatch, fails=1)
    with pytest.raises(StoreUnusable):
        weigh(book, 12.3, "a1")
    whole = in_use(day_path(tmp_path))
    day_path(tmp_path).write_bytes(kept + bytes(len(whole) - len(kept)))
    weigh(book, 12.3, "a1")
    assert in_use(day_path(tmp_path)) == whole


@pytest.mark.parametrize(
    ("code", "says"),
    [
        (errno.ENOSPC, "the disk is full"),
        (errno.EDQUOT, "share of the disk is full"),
        (errno.EROFS, "the disk is read-only"),
        (errno.EACCES, "no right to"),
        (errno.EIO, "Input/output error"),
    ],
)
@pytest.mark.parametrize("call", ["pwrite", "open"])
def test_a_refused_write_records_nothing_and_says_why(
    tmp_path: Path, monkeypatch: Patch, call: str, code: int, says: str
) -> None:
    before = written(tmp_path, [12.1])
    book = day_book(tmp_path)
    with monkeypatch.context() as refused:
        refused.setattr(os, call, refusing(code))
        with pytest.raises(StoreUnusable, match=says) as caught:
            weigh(book, 12.3)
    assert str(tmp_path) in str(caught.value)
    assert in_use(day_path(tmp_path)) == before
    assert weigh(book, 12.3)["id"] == 2
    assert readings(day_book(tmp_path)) == [12.1, 12.3]


def test_a_disk_that_fills_up_within_a_line_leaves_no_half(
    tmp_path: Path, monkeypatch: Patch
) -> None:
    before = written(tmp_path, [12.1])
    book = day_book(tmp_path)
    readings(book)
    real = os.pwrite
    room = [40]

    def write(fd: int, data: bytes, at: int) -> int:
        if not room[0]:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        took = real(fd, data[: room[0]], at)
        room[0] -= took
        return took

    with monkeypatch.context() as full:
        full.setattr(os, "pwrite", write)
        with pytest.raises(StoreUnusable, match=r"the disk is full; free some space"):
            weigh(book, 12.3)
        assert in_use(day_path(tmp_path)) == before
        room[0] = 40
        full.setattr(os, "ftruncate", refusing(errno.EIO))
        with pytest.raises(StoreUnusable, match="the disk is full"):
            weigh(book, 12.3)
    assert len(in_use(day_path(tmp_path))) == len(before) + 40
    weigh(book, 12.5)
    again = day_book(tmp_path)
    assert readings(again) == [12.1, 12.5]
    assert [(each.line, each.kind) for each in again.damage] == [(3, "torn")]


def test_a_disk_that_fills_up_within_many_takes_none(tmp_path: Path, monkeypatch: Patch) -> None:
    written(tmp_path, [12.1])
    book, reader = day_book(tmp_path), day_book(tmp_path)
    real = os.pwrite
    room = [1000]

    def write(fd: int, data: bytes, at: int) -> int:
        took = real(fd, data[: room[0]], at)
        room[0] -= took
        if not took:
            readings(reader)
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return took

    with monkeypatch.context() as full:
        full.setattr(os, "pwrite", write)
        with pytest.raises(StoreUnusable, match="the disk is full"):
            book.append_many("entries", [lambda n: {"id": n, "reading": 1.0}] * 30)
    assert readings(book) == readings(reader) == [12.1]
    assert weigh(book, 12.3)["id"] == 2


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EIO])
def test_a_folder_that_cannot_be_synced_is_synced_by_the_next_try(
    tmp_path: Path, monkeypatch: Patch, code: int
) -> None:
    book = day_book(tmp_path)
    with monkeypatch.context() as failing:
        failing.setattr(os, "fsync", refusing(code))
        with pytest.raises(StoreUnusable):
            weigh(book, 12.1)
    synced: list[int] = []
    real = os.fsync

    def fsync(fd: int) -> None:
        synced.append(fd)
        real(fd)

    monkeypatch.setattr(os, "fsync", fsync)
    weigh(book, 12.1)
    assert synced, "the name of the new file is on the disk too"
    assert readings(day_book(tmp_path)) == [12.1]
    assert day_book(tmp_path).damage == ()


def test_a_read_only_folder_is_read_and_not_written(tmp_path: Path, monkeypatch: Patch) -> None:
    before = written(tmp_path, [12.1])
    (tmp_path / "latch").unlink()
    real = os.open

    def read_only(path: Any, flags: int, mode: int = 0o777) -> int:
        if flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT):
            raise OSError(errno.EROFS, os.strerror(errno.EROFS))
        return real(path, flags, mode)

    monkeypatch.setattr(os, "open", read_only)
    book = day_book(tmp_path)
    assert readings(book) == [12.1]
    with pytest.raises(StoreUnusable, match="the disk is read-only; make it writable"):
        weigh(book, 12.3)
    assert in_use(day_path(tmp_path)) == before


def test_a_file_in_place_of_the_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "data").write_text("not a folder")
    book = day_book(tmp_path / "data")
    for use in (book.follow, lambda: weigh(book, 12.1)):
        with pytest.raises(StoreUnusable, match="a file stands where a folder should be"):
            use()


def test_a_folder_in_place_of_the_book_is_told(tmp_path: Path) -> None:
    day_path(tmp_path).mkdir(parents=True)
    with pytest.raises(StoreUnusable, match="a folder stands where a file should be"):
        day_book(tmp_path).follow()
