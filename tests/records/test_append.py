"""Recording entries: numbers, repeats, loads of many, and what may be written."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.problems import BadInput
from core.records.folder import Folder
from tests.records.books import DAY, day_book, day_path, in_use, readings, weigh


def test_entries_are_numbered_from_one_across_terminals(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    numbers = [weigh(book, 12.0)["id"] for book in (here, there, there, here)]
    assert numbers == [1, 2, 3, 4]


def test_tables_count_apart(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    weigh(book, 12.0)
    opening = book.append("opening", lambda number: {"id": number})
    assert opening == {"id": 1}
    assert book.table("opening").get(doc_id=1) == {"id": 1}


def test_the_maker_sees_what_others_recorded_just_before(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    weigh(here, 12.1)
    weigh(there, 12.3)
    seen: list[list[float]] = []

    def make(number: int) -> dict[str, object]:
        seen.append(readings(here))
        return {"id": number}

    here.append("notes", make)
    assert seen == [[12.1, 12.3]]


def test_what_the_maker_raises_leaves_nothing(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    weigh(book, 12.1)
    before = in_use(day_path(tmp_path))

    def make(_number: int) -> dict[str, object]:
        raise BadInput("the bench was closed meanwhile")

    with pytest.raises(BadInput):
        book.append("entries", make)
    assert in_use(day_path(tmp_path)) == before
    assert weigh(book, 12.3)["id"] == 2


def test_a_maker_may_record_in_another_table_first(tmp_path: Path) -> None:
    book = day_book(tmp_path)

    def make(number: int) -> dict[str, object]:
        book.append("opening", lambda _: {"house": 3}, "opening")
        return {"id": number}

    book.append("entries", make)
    again = day_book(tmp_path)
    assert again.table("opening").all() == [{"house": 3, "event": "opening"}]
    assert len(again.table("entries")) == 1


def test_a_repeated_event_returns_what_is_recorded(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    first = weigh(here, 12.1, "a1")
    before = in_use(day_path(tmp_path))
    assert weigh(here, 99.0, "a1") == first == {"id": 1, "reading": 12.1, "event": "a1"}
    assert weigh(there, 99.0, "a1") == first
    assert day_book(tmp_path).append("entries", lambda _: {"event": "a1"}) == first
    assert in_use(day_path(tmp_path)) == before


def test_an_event_counts_within_its_table(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    weigh(book, 12.1, "a1")
    assert book.append("notes", lambda number: {"n": number}, "a1") == {"n": 1, "event": "a1"}


def test_an_event_whose_entry_was_removed_is_recorded_anew(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    weigh(book, 12.1, "a1")
    book.table("entries").remove(doc_ids=[1])
    assert weigh(book, 12.3, "a1") == {"id": 2, "reading": 12.3, "event": "a1"}


def test_many_are_recorded_a_line_each(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    weigh(book, 12.0, "a0")
    numbers = book.append_many(
        "entries",
        [
            lambda n: {"id": n, "reading": 12.1, "event": "a1"},
            lambda n: {"id": n, "reading": 99.0, "event": "a0"},
            lambda n: {"id": n, "reading": 99.0, "event": "a1"},
            lambda n: {"id": n, "reading": 12.2},
        ],
    )
    assert numbers == [2, 1, 2, 3]
    for each in (book, day_book(tmp_path)):
        assert readings(each) == [12.0, 12.1, 12.2]
    assert len(in_use(day_path(tmp_path)).splitlines()) == 1 + 3
    assert book.append_many("entries", []) == []


def test_text_that_is_no_unicode_is_refused_whole(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    weigh(book, 12.1)
    with pytest.raises(BadInput, match="nothing was recorded"):
        book.append("notes", lambda _: {"text": "caf\udce9"})
    assert len(book.table("notes")) == 0
    assert weigh(book, 12.3)["id"] == 2
    assert readings(day_book(tmp_path)) == [12.1, 12.3]


def test_books_of_one_folder_are_the_same_book(tmp_path: Path) -> None:
    folder = Folder(tmp_path)
    assert folder.day(DAY) is folder.day(DAY)
    assert folder.house() is folder.house()
    assert folder.house().table("days") is folder.house().table("days")


def test_a_closed_book_opens_again(tmp_path: Path) -> None:
    folder = Folder(tmp_path)
    weigh(folder.day(DAY), 12.1)
    folder.close()
    weigh(folder.day(DAY), 12.3)
    assert readings(folder.day(DAY)) == [12.1, 12.3]
