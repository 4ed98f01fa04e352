"""Journals and latches under what a sceptic does to them."""

from __future__ import annotations

import _thread
import gc
import os
import shutil
import time
from pathlib import Path

import pytest

from core.problems import StoreUnusable
from core.records.folder import Folder
from core.records.latch import LOOK_EVERY_S, Latch
from core.records.lines import Damage
from tests.records.books import DAY, day_book, day_path, weigh, written


def test_a_terminal_follows_the_latch_of_a_folder_that_was_moved_and_copied_back(
    tmp_path: Path,
) -> None:
    data = tmp_path / "data"
    early = Latch(data / "latch")
    with early:
        pass
    data.rename(tmp_path / "moved")
    shutil.copytree(tmp_path / "moved", data)
    time.sleep(2 * LOOK_EVERY_S)
    with early, pytest.raises(StoreUnusable), Latch(data / "latch", wait_s=0.1):
        pass


@pytest.mark.parametrize("missing", [2, 3])
def test_a_line_that_lacks_its_last_bytes_is_torn_not_changed(tmp_path: Path, missing: int) -> None:
    size = len(written(tmp_path, [15.3, 15.6]))
    os.truncate(day_path(tmp_path), size - missing)
    book = day_book(tmp_path)
    weigh(book, 15.4)
    assert [each.kind for each in _read_anew(tmp_path)] == ["torn"]


def _read_anew(data: Path) -> tuple[Damage, ...]:
    book = day_book(data)
    book.follow()
    return book.damage


def test_a_folder_that_nobody_holds_gives_its_files_back(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    book.append_many("entries", [lambda n: {"id": n, "at": {"bench": 7}} for _ in range(3_000)])
    book.close()
    before = len(os.listdir("/proc/self/fd"))  # noqa: PTH208
    for _ in range(5):
        Folder(tmp_path).day(DAY).follow()
        gc.collect()
    assert len(os.listdir("/proc/self/fd")) < before + 5  # noqa: PTH208


def test_a_system_without_threads_left_is_told_in_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> int:
        raise RuntimeError("can't start new thread")

    with Latch(tmp_path / "latch"):
        monkeypatch.setattr(_thread, "start_new_thread", refuse)
        with pytest.raises(StoreUnusable), Latch(tmp_path / "latch", wait_s=0.1):
            pass
