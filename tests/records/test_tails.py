"""A journal that a crash left in the middle of its last line."""

from __future__ import annotations

from pathlib import Path

from tests.records.books import day_book, day_path, in_use, readings, weigh, written


def test_a_tail_torn_at_any_byte_costs_that_record_alone_and_is_told(tmp_path: Path) -> None:
    whole = written(tmp_path, [12.1, 12.3])
    start = whole.rindex(b"\n", 0, -1) + 1
    for cut in range(start + 1, len(whole) - 1):
        day_path(tmp_path).write_bytes(whole[:cut])
        reader = day_book(tmp_path)
        assert readings(reader) == [12.1]
        assert [(each.line, each.kind) for each in reader.damage] == [(3, "torn")]

        writer = day_book(tmp_path)
        assert weigh(writer, 12.5)["id"] == 2
        assert in_use(day_path(tmp_path)).startswith(whole[:cut] + b"\n")
        for book in (reader, writer, day_book(tmp_path)):
            assert readings(book) == [12.1, 12.5]
            assert [each.line for each in book.damage] == [3]
            assert "chain broken" not in {each.kind for each in book.damage}
            book.close()


def test_a_whole_record_that_lacks_only_its_line_end_is_kept(tmp_path: Path) -> None:
    whole = written(tmp_path, [12.1, 12.3])
    day_path(tmp_path).write_bytes(whole[:-1])
    reader, writer = day_book(tmp_path), day_book(tmp_path)
    assert readings(reader) == [12.1, 12.3]
    assert reader.damage == ()
    weigh(writer, 12.5)
    for book in (reader, writer, day_book(tmp_path)):
        assert readings(book) == [12.1, 12.3, 12.5]
        assert book.damage == ()
    assert in_use(day_path(tmp_path)).startswith(whole)


def test_a_tail_that_was_only_being_written_is_read_when_it_is_whole(tmp_path: Path) -> None:
    whole = written(tmp_path, [12.1, 12.3])
    day_path(tmp_path).write_bytes(whole[:-30])
    reader = day_book(tmp_path)
    assert readings(reader) == [12.1]
    with day_path(tmp_path).open("ab") as file:
        file.write(whole[-30:])
    assert reader.follow()
    assert readings(reader) == [12.1, 12.3]
    assert reader.damage == ()


def test_a_tail_that_its_writer_cut_off_again_is_forgotten(tmp_path: Path) -> None:
    whole = written(tmp_path, [12.1])
    day_path(tmp_path).write_bytes(whole + b'{"sum":"half of a li')
    reader = day_book(tmp_path)
    reader.follow()
    assert len(reader.damage) == 1
    day_path(tmp_path).write_bytes(whole)
    assert readings(reader) == [12.1]
    assert not reader.damage


def test_a_journal_that_was_torn_in_its_head_begins_again(tmp_path: Path) -> None:
    whole = written(tmp_path, [12.1])
    for cut in (0, 1, 50):
        day_path(tmp_path).write_bytes(whole[:cut])
        assert weigh(day_book(tmp_path), 12.5)["id"] == 1
        book = day_book(tmp_path)
        assert readings(book) == [12.5]
        assert [each.line for each in book.damage] == ([1] if cut else [])


def test_zeros_that_a_power_cut_left_at_the_end_are_ended_like_a_tail(tmp_path: Path) -> None:
    whole = written(tmp_path, [12.1])
    day_path(tmp_path).write_bytes(whole + bytes(700))
    weigh(day_book(tmp_path), 12.5)
    book = day_book(tmp_path)
    assert readings(book) == [12.1, 12.5]
    assert [each.line for each in book.damage] == [3]


def test_a_line_longer_than_any_block_that_is_read_at_once(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    book.append("notes", lambda number: {"id": number, "text": "x" * 1_000_000})
    weigh(book, 12.1)
    again = day_book(tmp_path)
    assert readings(again) == [12.1]
    assert len(again.table("notes").all()[0]["text"]) == 1_000_000
