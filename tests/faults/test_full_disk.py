"""A disk that is really full, where this machine lets the test make a small one."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.problems import StoreUnusable
from core.records.book import Book
from tests.records.books import day_book, readings, weigh


def fill(book: Book, safe: list[float]) -> None:
    """Record entries until the disk refuses; `safe` grows by those acknowledged."""
    for n in range(10_000):
        weigh(book, float(n), f"e{n}")
        safe.append(float(n))


def test_a_full_disk_refuses_and_keeps_what_it_took(small_disk: Path) -> None:
    book = day_book(small_disk)
    other = small_disk / "other"
    other.write_bytes(bytes(8192))
    safe: list[float] = []
    with pytest.raises(StoreUnusable, match=r"the disk is full; free some space"):
        fill(book, safe)
    assert safe
    assert readings(book) == readings(day_book(small_disk)) == safe
    other.unlink()
    weigh(book, 99.5, f"e{len(safe)}")
    again = day_book(small_disk)
    assert readings(again) == [*safe, 99.5]
    assert again.damage == ()
    book.close()
    again.close()
