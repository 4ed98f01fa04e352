"""A book damaged anywhere opens, keeps every sound record, tells what is damaged, and goes on."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.problems import StoreUnusable
from tests.records.books import day_book, day_path, in_use, readings, signed, weigh, written

READINGS = [12.1, 12.2, 12.3, 12.4]


def opens_and_goes_on(data: Path, kept: list[float]) -> int:
    """Read the damaged book, record one more and read again; the lines told as damaged."""
    book = day_book(data)
    assert readings(book) == kept
    told = len(book.damage)
    weigh(book, 99.0)
    again = day_book(data)
    assert readings(again) == readings(book) == [*kept, 99.0]
    assert len(again.damage) == len(book.damage) == told
    book.close()
    again.close()
    return told


def flip_each_byte(data: Path, bits: list[int]) -> None:
    whole = written(data, READINGS)
    for at in range(len(whole)):
        number = whole.count(b"\n", 0, at)
        for bit in bits:
            flipped = bytearray(whole)
            flipped[at] ^= 1 << (bit + at) % 8
            day_path(data).write_bytes(flipped)
            kept = list(READINGS)
            if number and whole[at : at + 1] != b"\n":
                kept.remove(READINGS[number - 1])
            assert opens_and_goes_on(data, kept) >= 1


def test_a_bit_flipped_in_any_byte(tmp_path: Path) -> None:
    flip_each_byte(tmp_path, [0])


@pytest.mark.slow
def test_any_bit_flipped(tmp_path: Path) -> None:
    flip_each_byte(tmp_path, list(range(8)))


def test_cut_off_at_any_byte(tmp_path: Path) -> None:
    whole = written(tmp_path, READINGS)
    for length in range(len(whole)):
        day_path(tmp_path).write_bytes(whole[:length])
        lines = whole.count(b"\n", 0, length)
        lacks_only_its_end = whole[length : length + 1] == b"\n"
        torn = whole[:length][-1:] not in (b"", b"\n") and not lacks_only_its_end
        kept = READINGS[: max(0, lines + lacks_only_its_end - 1)]
        assert opens_and_goes_on(tmp_path, kept) == torn


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(start=st.integers(0, 700), length=st.integers(0, 300), junk=st.binary(max_size=300))
def test_any_stretch_written_over(tmp_path: Path, start: int, length: int, junk: bytes) -> None:
    day_path(tmp_path).unlink(missing_ok=True)
    whole = written(tmp_path, READINGS)
    day_path(tmp_path).write_bytes(whole[:start] + junk + whole[start + length :])
    untouched = [
        reading
        for reading, line in zip(READINGS, whole.splitlines(keepends=True)[1:], strict=True)
        if whole.index(line) + len(line) <= start or whole.index(line) > start + length
    ]
    book = day_book(tmp_path)
    assert [each for each in readings(book) if each in untouched] == untouched
    weigh(book, 99.0)
    assert readings(day_book(tmp_path))[-1] == 99.0


def test_a_running_terminal_leaves_a_newer_versions_book_alone(tmp_path: Path) -> None:
    """Another terminal's program was updated, and put a book of its own in place."""
    written(tmp_path, READINGS)
    book = day_book(tmp_path)
    assert readings(book) == READINGS
    newer = signed({"book": {"format": 2}}, "0" * 32)
    copy = tmp_path / "copy"
    copy.write_bytes(newer)
    copy.rename(day_path(tmp_path))
    for _ in range(2):
        with pytest.raises(StoreUnusable, match="newer version"):
            weigh(book, 99.0)
        with pytest.raises(StoreUnusable, match="newer version"):
            book.follow()
    assert in_use(day_path(tmp_path)) == newer
