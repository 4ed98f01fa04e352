"""Copies and restores interrupted, damaged, short of room, and made while terminals write."""

from __future__ import annotations

import datetime as dt
import random
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from core.desk.audit import audit
from core.problems import BadInput, StoreUnusable
from core.records.folder import Folder
from core.records.verify import verify_journal
from tests.faults.disk import fill_up
from tests.faults.test_kill import ROOT, said, start
from tests.records.books import DAY, day_book, day_path, in_use, readings, weigh
from tests.records.copies import backed_up, files, house, restored

NEXT_DAY = dt.date(2026, 5, 5)
NAME = "days/2026-05-04.jsonl"


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """Two days and a house book."""
    data = house(tmp_path / "data", 1, 2, 3)
    folder = Folder(data)
    weigh(folder.day(NEXT_DAY), 13.1)
    folder.close()
    return data


@pytest.fixture
def copy(data: Path, tmp_path: Path) -> Path:
    backed_up(data, tmp_path / "copy.zip")
    return tmp_path / "copy.zip"


# -- writers at work ----------------------------------------------------------------------


def copied_while_writing(tmp_path: Path, writers: int) -> None:
    data, file = tmp_path / "data", tmp_path / "copy.zip"
    crew = [start(data, f"w{n}") for n in range(writers)]
    safe: set[str] = set()
    try:
        for process in crew:
            assert process.stdout is not None
            safe |= {process.stdout.readline().decode().strip() for _ in range(30)} - {"ready"}
        backed_up(data, file)
    finally:
        for process in crew:
            process.kill()
            said(process)
    restored(tmp_path / "back", file)
    book = day_book(tmp_path / "back")
    events = [entry["event"] for entry in book.table("entries").all()]
    assert safe
    assert safe <= set(events)
    assert len(events) == len(set(events))
    report = verify_journal(day_path(tmp_path / "back"))
    assert (report.chain_sound, report.damage) == (True, ())
    assert in_use(day_path(data)).startswith(in_use(day_path(tmp_path / "back")))


def test_a_copy_made_while_terminals_write_holds_all_they_had_safe(tmp_path: Path) -> None:
    copied_while_writing(tmp_path, writers=3)


@pytest.mark.slow
@pytest.mark.parametrize("time", range(10))
def test_copies_made_while_many_terminals_write(tmp_path: Path, time: int) -> None:
    copied_while_writing(tmp_path, writers=4 + time)


# -- killed -------------------------------------------------------------------------------


def killed(data: Path, copy: Path, every: int, *how: str) -> list[Path]:
    """Data folders in which a restore was killed, each at another of its steps."""
    command = [sys.executable, "-m", "tests.faults.restorer", str(data), str(copy), str(every)]
    subprocess.run([*command, *how], cwd=ROOT, check=True)
    return sorted(data.parent.glob(f"{data.name}-*"))


def in_place(data: Path) -> dict[str, bytes]:
    """The books in their places."""
    return {name: (data / name).read_bytes() for name in Folder(data).books()}


def set_aside(data: Path) -> set[bytes]:
    return {book for name, book in files(data).items() if name.startswith("replaced-")}


def changed(data: Path) -> None:
    """Since the copy: one book cut off, one gone, one gone on, one new."""
    weigh(day_book(data), 12.2)
    (data / "days" / f"{NEXT_DAY}.jsonl").unlink()
    weigh(Folder(data).day(dt.date(2026, 5, 6)), 14.1)
    lines = (data / "house.jsonl").read_bytes().splitlines(keepends=True)
    (data / "house.jsonl").write_bytes(b"".join(lines[:2]))


def nothing_is_lost(data: Path, before: dict[str, bytes], then: dict[str, bytes]) -> None:
    """Each book is as it was or as it shall be; what is no more in its place is aside."""
    books = in_place(data)
    assert all(book in (before.get(name), then.get(name)) for name, book in books.items())
    for name, book in before.items():
        kept = then.get(name, b"") if then.get(name, b"").startswith(book) else book
        assert {book, kept} & {*books.values(), *set_aside(data)}, name
    told = any("run the same restore again" in problem for problem in audit(data).problems)
    assert told or books in (before, then)


def killed_and_completed(data: Path, copy: Path, every: int) -> None:
    then = in_place(data)
    changed(data)
    before = in_place(data)
    halves = 0
    for here in killed(data, copy, every, "--replace"):
        nothing_is_lost(here, before, then)
        halves += in_place(here) not in (before, then)
        restored(here, copy, replace=True)
        assert in_place(here) == then
        assert {before[NAME], before["days/2026-05-06.jsonl"]} <= set_aside(here)
        assert not [*here.glob("restor*")]
    assert halves


def test_a_restore_killed_at_any_step_is_completed_by_the_same(data: Path, copy: Path) -> None:
    killed_and_completed(data, copy, every=3)


@pytest.mark.slow
def test_a_restore_killed_at_each_step_is_completed_by_the_same(data: Path, copy: Path) -> None:
    killed_and_completed(data, copy, every=1)


def test_what_terminals_write_after_a_kill_does_not_stop_the_same_restore(
    data: Path, copy: Path
) -> None:
    """Without --replace, and with entries in a book that the killed run had put."""
    shutil.rmtree(data / "days")
    completed = 0
    for here in killed(data, copy, 1):
        if DAY in Folder(here).days() and Folder(here).unfinished():
            weigh(day_book(here), 12.7)
            restored(here, copy)
            assert readings(day_book(here)) == [12.1, 12.7]
            assert Folder(here).days() == (DAY, NEXT_DAY)
            assert not Folder(here).unfinished()
            completed += 1
    assert completed


# -- damaged on the way -------------------------------------------------------------------


def is_refused(data: Path, file: Path) -> None:
    with pytest.raises(BadInput, match="nothing was restored"):
        restored(data, file, replace=True)


def flip_each_byte(data: Path, copy: Path, bits: list[int]) -> None:
    changed(data)
    before, whole, bad = files(data), copy.read_bytes(), copy.with_name("bad.zip")
    for at in range(len(whole)):
        for bit in bits:
            flipped = bytes([whole[at] ^ 1 << bit])
            bad.write_bytes(whole[:at] + flipped + whole[at + 1 :])
            is_refused(data, bad)
    assert files(data) == before


def test_a_copy_with_a_bit_flipped_in_any_byte_is_refused(data: Path, copy: Path) -> None:
    flip_each_byte(data, copy, [3])


@pytest.mark.slow
def test_a_copy_with_any_bit_flipped_is_refused(data: Path, copy: Path) -> None:
    flip_each_byte(data, copy, list(range(8)))


def test_a_copy_cut_off_anywhere_or_with_more_behind_it_is_refused(data: Path, copy: Path) -> None:
    changed(data)
    before, whole, bad = files(data), copy.read_bytes(), copy.with_name("bad.zip")
    for length in range(len(whole)):
        bad.write_bytes(whole[:length])
        is_refused(data, bad)
    bad.write_bytes(whole + b"\n")
    is_refused(data, bad)
    assert files(data) == before


# -- no room ------------------------------------------------------------------------------


def heavy(data: Path) -> None:
    """Entries that no compression makes small."""
    noise = random.Random(1)
    weigh_many = [{"text": noise.randbytes(500).hex()} for _ in range(300)]
    folder = Folder(data)
    folder.day(NEXT_DAY).table("notes").insert_multiple(weigh_many)
    folder.close()


def test_a_copy_that_finds_no_room_leaves_no_file(data: Path, small_disk: Path) -> None:
    heavy(data)
    with pytest.raises(StoreUnusable, match="cannot write the copy: the disk is full"):
        backed_up(data, small_disk / "copy.zip")
    assert list(small_disk.iterdir()) == []


def test_a_restore_that_finds_no_room_changes_nothing(
    data: Path, tmp_path: Path, small_disk: Path
) -> None:
    heavy(data)
    backed_up(data, tmp_path / "copy.zip")
    house(small_disk / "data")
    before = files(small_disk / "data")
    with pytest.raises(StoreUnusable, match="the disk is full; free some space"):
        restored(small_disk / "data", tmp_path / "copy.zip", replace=True)
    assert files(small_disk / "data") == before
    assert not Folder(small_disk / "data").unfinished()


def test_a_restore_into_a_full_disk_changes_nothing(copy: Path, small_disk: Path) -> None:
    house(small_disk / "data")
    fill_up(small_disk)
    before = files(small_disk / "data")
    with pytest.raises(StoreUnusable, match="the disk is full"):
        restored(small_disk / "data", copy, replace=True)
    assert files(small_disk / "data") == before
