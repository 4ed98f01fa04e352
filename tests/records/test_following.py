"""What other terminals record, and files that change under a reader's eyes."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from core.records.book import START, Book, Cursor
from core.records.folder import Folder
from tests.records.books import DAY, day_book, day_path, in_use, readings, weigh, written


def test_nothing_is_new_where_nothing_was_recorded(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    assert not book.follow()
    weigh(book, 12.1)
    assert not book.follow()


def test_another_process_is_followed(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    weigh(book, 12.1)
    cursor = book.news(START).cursor
    program = (
        "import sys, datetime, pathlib\n"
        "from core.records.folder import Folder\n"
        "book = Folder(pathlib.Path(sys.argv[1])).day(datetime.date.fromisoformat(sys.argv[2]))\n"
        "book.append('entries', lambda n: {'id': n, 'reading': 12.3})\n"
    )
    root = Path(__file__).parents[2]
    subprocess.run(
        [sys.executable, "-c", program, str(tmp_path), DAY.isoformat()], check=True, cwd=root
    )
    news = book.news(cursor)
    assert news.changes == [("entries", 2, {"id": 2, "reading": 12.3})]
    assert not news.restarted
    assert book.news(news.cursor).changes == []


def test_news_tells_every_change_in_the_journals_order(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    weigh(here, 12.1)
    there.table("notes").insert({"text": "leaf is dry"})
    here.table("entries").update({"reading": 12.2}, doc_ids=[1])
    there.table("entries").remove(doc_ids=[1])
    told = [
        ("entries", 1, {"id": 1, "reading": 12.1}),
        ("notes", 1, {"text": "leaf is dry"}),
        ("entries", 1, {"id": 1, "reading": 12.2}),
        ("entries", 1, None),
    ]
    for book in (here, there, day_book(tmp_path)):
        assert book.news(START).changes == told


def test_a_reader_that_looked_at_a_table_still_gets_the_news(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    cursor = here.news().cursor
    weigh(there, 12.1)
    assert readings(here) == [12.1]
    assert len(here.news(cursor).changes) == 1


def follower(data: Path) -> tuple[Book, Cursor]:
    """A book that has been read up to now, and its reader's cursor."""
    book = day_book(data)
    return book, book.news(START).cursor


def test_a_file_put_back_in_its_place_is_read_from_its_start(tmp_path: Path) -> None:
    old = written(tmp_path, [12.1, 12.2])
    weigh(day_book(tmp_path), 12.3)
    book, cursor = follower(tmp_path)
    copy = tmp_path / "copy"
    copy.write_bytes(old)
    copy.rename(day_path(tmp_path))
    news = book.news(cursor)
    assert news.restarted
    assert [number for _, number, _ in news.changes] == [1, 2]
    assert weigh(book, 12.5)["id"] == 3
    assert readings(day_book(tmp_path)) == [12.1, 12.2, 12.5]


def test_a_longer_file_put_in_its_place_is_read_from_its_start(tmp_path: Path) -> None:
    written(tmp_path, [12.1])
    book, cursor = follower(tmp_path)
    copy = tmp_path / "copy"
    copy.write_bytes(in_use(day_path(tmp_path)))
    copy.rename(day_path(tmp_path))
    weigh(day_book(tmp_path), 12.3)
    news = book.news(cursor)
    assert news.restarted
    assert [number for _, number, _ in news.changes] == [1, 2]


def test_a_writer_finds_the_file_that_was_put_in_place_while_it_was_held_off(
    tmp_path: Path,
) -> None:
    old = written(tmp_path, [12.1])
    book, there = day_book(tmp_path), Folder(tmp_path)
    for reading in (12.2, 12.3):
        weigh(book, reading)
    with there.replacing():
        copy = tmp_path / "copy"
        copy.write_bytes(old)
        copy.rename(day_path(tmp_path))
    weigh(book, 12.9)
    there.close()
    assert readings(book) == readings(day_book(tmp_path)) == [12.1, 12.9]


def test_a_file_that_another_terminal_just_made_is_seen_at_once(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    with pytest.raises(ZeroDivisionError):
        here.append("entries", lambda number: {"share": 1 // (number - 1)})
    weigh(there, 12.1)
    assert weigh(here, 12.3)["id"] == 2


def test_a_file_emptied_in_place_begins_again(tmp_path: Path) -> None:
    written(tmp_path, [12.1, 12.2])
    book = day_book(tmp_path)
    weigh(book, 12.3)
    day_path(tmp_path).write_bytes(b"")
    assert weigh(book, 12.5)["id"] == 1
    assert readings(day_book(tmp_path)) == [12.5]


def test_a_file_that_shrank_is_read_from_its_start(tmp_path: Path) -> None:
    old = written(tmp_path, [12.1])
    weigh(day_book(tmp_path), 12.3)
    book, cursor = follower(tmp_path)
    day_path(tmp_path).write_bytes(old)
    assert book.news(cursor).restarted
    assert readings(book) == [12.1]


def test_a_file_written_over_with_a_longer_one_is_read_from_its_start(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    other = written(tmp_path / "elsewhere", [11.0, 11.1, 11.2, 11.3])
    written(tmp_path, [12.1, 12.2])
    book, cursor = follower(tmp_path)
    day_path(tmp_path).write_bytes(other)
    news = book.news(cursor)
    assert news.restarted
    assert readings(book) == [11.0, 11.1, 11.2, 11.3]
    assert book.damage == ()


def test_a_file_that_was_removed_reads_as_empty_and_comes_back(tmp_path: Path) -> None:
    written(tmp_path, [12.1])
    book, cursor = follower(tmp_path)
    day_path(tmp_path).unlink()
    news = book.news(cursor)
    assert news.restarted
    assert news.changes == []
    assert weigh(book, 12.5)["id"] == 1
    assert readings(day_book(tmp_path)) == [12.5]


def test_damage_met_on_the_way_is_told_once(tmp_path: Path) -> None:
    written(tmp_path, [12.1])
    book, _ = follower(tmp_path)
    with day_path(tmp_path).open("ab") as file:
        file.write(b"scribbled\n")
    weigh(day_book(tmp_path), 12.3)
    assert readings(book) == [12.1, 12.3]
    assert [each.line for each in book.damage] == [3]
    assert not book.follow()
