"""Room kept ready at a day's end: entries are written into it, and nothing is lost by it."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from core.problems import StoreUnusable
from core.records.journal import Journal
from core.records.lines import encode_added
from core.records.room import ROOM
from tests.records.books import day_book, day_path, in_use, readings, weigh

READINGS = [12.1, 12.2, 12.3, 12.4]
BEGUN = b'{"sum":"0123456789'


def with_room(data: Path) -> bytes:
    """A day that a terminal left in the middle: its file's bytes, room and all."""
    book = day_book(data)
    for reading_g in READINGS:
        weigh(book, reading_g)
    book.close()
    whole = day_path(data).read_bytes()
    assert len(whole) > len(in_use(day_path(data))) + len(ROOM) // 2
    return whole


def goes_on(data: Path, told: int, kept: list[float]) -> None:
    """What is sound is read, what is damaged told, and another entry recorded for all to see."""
    book = day_book(data)
    assert readings(book) == kept
    assert len(book.damage) == told
    weigh(book, 99.0)
    again = day_book(data)
    assert readings(again) == readings(book) == [*kept, 99.0]
    assert len(again.damage) == told
    for each in (book, again):
        each.close()


def test_who_writes_once_leaves_no_room(tmp_path: Path) -> None:
    weigh(day_book(tmp_path), 12.1)
    assert day_path(tmp_path).read_bytes() == in_use(day_path(tmp_path))


def test_entries_go_into_room_without_making_the_file_longer(tmp_path: Path) -> None:
    size = len(with_room(tmp_path))
    book = day_book(tmp_path)
    for _ in range(20):
        weigh(book, 12.5)
    assert day_path(tmp_path).stat().st_size == size


def test_terminals_share_the_room_one_of_them_made(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    for turn in range(300):
        weigh(here if turn % 2 else there, float(turn))
    assert readings(here) == readings(there) == [float(turn) for turn in range(300)]
    assert readings(day_book(tmp_path)) == readings(here)
    assert here.damage == ()


def test_a_day_that_is_closed_gives_its_room_back(tmp_path: Path) -> None:
    with_room(tmp_path)
    here, there = day_book(tmp_path), day_book(tmp_path)
    weigh(there, 12.5)
    weigh(there, 12.6)
    here.give_back_room()
    whole = day_path(tmp_path).read_bytes()
    assert whole.endswith(b"}}}\n")
    assert weigh(there, 12.7)["id"] == 7
    assert readings(here) == readings(day_book(tmp_path)) == [*READINGS, 12.5, 12.6, 12.7]


def test_room_cut_off_anywhere_is_no_damage(tmp_path: Path) -> None:
    whole = with_room(tmp_path)
    used = len(in_use(day_path(tmp_path)))
    for length in (used, used + 1, used + 200, used + 4096, len(whole) - 1):
        day_path(tmp_path).write_bytes(whole[:length])
        goes_on(tmp_path, 0, READINGS)


def test_a_line_torn_in_room_at_any_byte_costs_that_record_alone(tmp_path: Path) -> None:
    whole = with_room(tmp_path)
    used = in_use(day_path(tmp_path))
    last = used[used.rindex(b"\n", 0, -1) + 1 :]
    for kept in range(len(last)):
        torn = used[: len(used) - len(last) + kept].rstrip(b" ")
        day_path(tmp_path).write_bytes(torn.ljust(len(whole)))
        lacks_only_its_end = kept == len(last) - 1
        told = kept > 0 and not lacks_only_its_end
        goes_on(tmp_path, told, READINGS if lacks_only_its_end else READINGS[:-1])


def test_a_line_whose_first_bytes_a_power_cut_took_is_told_and_not_written_over(
    tmp_path: Path,
) -> None:
    """The disk took the second page of a line, and not the first."""
    whole = with_room(tmp_path)
    used = in_use(day_path(tmp_path))
    lost = used.rindex(b"\n", 0, -1) + 1
    day_path(tmp_path).write_bytes(used[:lost] + b" " * 60 + whole[lost + 60 :])
    goes_on(tmp_path, 1, READINGS[:-1])


def test_a_bit_flipped_in_room_costs_nothing(tmp_path: Path) -> None:
    whole = with_room(tmp_path)
    used = len(in_use(day_path(tmp_path)))
    for at in (used, used + 1, used + 500, len(whole) - 1):
        for bit in range(8):
            flipped = bytearray(whole)
            flipped[at] ^= 1 << bit
            day_path(tmp_path).write_bytes(flipped)
            goes_on(tmp_path, 1, READINGS)


@pytest.mark.parametrize("known", [True, False])
@pytest.mark.parametrize("away", [1, 30, 700, 3000])
def test_what_others_put_into_room_is_never_written_over(
    tmp_path: Path, away: int, known: bool
) -> None:
    with_room(tmp_path)
    book = day_book(tmp_path)
    if known:
        weigh(book, 12.5)
        weigh(book, 12.6)
    kept = readings(book)
    foreign = b"a line of somebody's editor\n"
    with day_path(tmp_path).open("r+b") as file:
        file.seek(len(in_use(day_path(tmp_path))) + away)
        file.write(foreign)
    for turn in range(40):
        weigh(book, 13.0 + turn)
        kept.append(13.0 + turn)
    assert foreign in day_path(tmp_path).read_bytes()
    assert readings(day_book(tmp_path)) == readings(book) == kept


def test_an_entry_that_another_writer_wrote_over_is_not_acknowledged(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Somebody deletes the latch: for a moment two may think that they hold it."""
    with_room(tmp_path)
    book = day_book(tmp_path)
    weigh(book, 12.5)
    real = Journal._write

    def write(journal: Journal, data: bytes, at: int, took: int = 0) -> None:
        real(journal, data, at, took)
        other = {"id": 6, "reading": 12.8}
        real(journal, encode_added("entries", 6, other, journal.chain.last), at)

    with monkeypatch.context() as raced:
        raced.setattr(Journal, "_write", write)
        with pytest.raises(StoreUnusable, match="wrote over the entry; it is not recorded"):
            weigh(book, 12.7)
    assert readings(book) == readings(day_book(tmp_path)) == [*READINGS, 12.5, 12.8]
    weigh(book, 12.7)
    assert readings(day_book(tmp_path)) == [*READINGS, 12.5, 12.8, 12.7]


def test_a_disk_too_full_for_room_takes_the_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = day_book(tmp_path)
    weigh(book, 12.1)
    real = os.pwrite

    def write(fd: int, data: bytes, at: int) -> int:
        if at + len(data) > 2000:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return real(fd, data, at)

    monkeypatch.setattr(os, "pwrite", write)
    weigh(book, 12.2)
    weigh(book, 12.3)
    monkeypatch.undo()
    assert readings(day_book(tmp_path)) == [12.1, 12.2, 12.3]
    assert day_path(tmp_path).read_bytes() == in_use(day_path(tmp_path))
