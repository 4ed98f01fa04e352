"""Adding to a book without reading what others added: the numbers and the chain stay right."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.records.verify import verify_journal
from tests.records.books import DAY, day_book, day_path, in_use, readings, signed, sum_in, weigh


def damage(data: Path) -> list[str]:
    book = day_book(data)
    book.follow()
    return [each.kind for each in book.damage]


def numbers(data: Path) -> list[int]:
    assert damage(data) == []
    book = day_book(data)
    assert verify_journal(day_path(data)).chain_sound
    return [entry.doc_id for entry in book.table("entries").all()]


def test_entries_of_two_terminals_are_numbered_on_and_chained(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    weigh(here, 12.0)
    weigh(there, 12.1)
    for n in range(4):
        weigh(here, 12.2)
        weigh(there, 12.3 + n)
        weigh(there, 12.4)
    assert numbers(tmp_path) == list(range(1, 15))
    assert readings(here) == readings(there) == readings(day_book(tmp_path))


def test_an_event_that_stands_unread_is_not_recorded_again(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    weigh(here, 12.0)
    weigh(there, 12.1, 'scale "7"')
    weigh(there, 12.2, "e2")
    assert weigh(here, 99.0, "e2")["reading"] == 12.2
    assert weigh(here, 99.0, 'scale "7"')["reading"] == 12.1
    assert readings(here) == [12.0, 12.1, 12.2]


def test_two_tables_keep_their_own_numbers(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    weigh(here, 12.0)
    weigh(there, 12.1)
    assert weigh(here, 12.2)["id"] == 3
    note = here.append("notes", lambda number: {"id": number, "text": "wet leaf"})
    assert note["id"] == 1
    assert weigh(here, 12.3)["id"] == 4
    weigh(there, 12.4)
    assert there.append("notes", lambda number: {"id": number})["id"] == 2
    assert numbers(tmp_path) == [1, 2, 3, 4, 5]


@pytest.mark.parametrize("reading_g", [12.5, 12.25])
def test_a_document_changed_elsewhere_takes_no_number(tmp_path: Path, reading_g: float) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    weigh(here, 12.0)
    there.table("entries").insert_multiple([{"reading": 12.1}, {"reading": 12.2}])
    there.table("entries").update({"reading": reading_g}, doc_ids=[2])
    assert weigh(here, 12.3)["id"] == 4
    assert readings(here) == [12.0, reading_g, 12.2, 12.3]


def test_what_a_terminal_judges_by_holds_what_others_wrote(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    weigh(here, 12.0)
    cursor = here.news().cursor
    weigh(there, 12.1)
    seen: list[object] = []

    def make(number: int) -> dict[str, object]:
        seen.extend(fields for _, _, fields in here.news(cursor, look=False).changes)
        return {"id": number, "reading": 12.2}

    assert here.append("entries", make)["id"] == 3
    assert seen == [{"id": 2, "reading": 12.1}]


def test_a_terminals_own_entry_is_among_what_it_has_seen(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    weigh(here, 12.0)
    weigh(there, 12.1)
    weigh(here, 12.2)
    found = here.news(look=False).changes
    assert [fields["reading"] for _, _, fields in found if fields] == [12.0, 12.1, 12.2]


def test_a_torn_line_at_the_end_is_ended_and_told_once(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    weigh(here, 12.0)
    weigh(there, 12.1)
    with day_path(tmp_path).open("ab") as book:
        book.write(b'{"sum":"0123')
    assert weigh(here, 12.2)["id"] == 3
    assert readings(here) == [12.0, 12.1, 12.2]
    assert damage(tmp_path) == ["torn"]


def test_a_line_put_in_by_hand_shows_when_it_is_read(tmp_path: Path) -> None:
    """Its own sum is right, but it does not name the line before it."""
    here = day_book(tmp_path)
    weigh(here, 12.0)
    lines = in_use(day_path(tmp_path)).splitlines()
    first = sum_in(lines[0])
    with day_path(tmp_path).open("ab") as book:
        book.write(signed({"add": {"entries": {"2": {"id": 2, "reading": 9.9}}}}, first))
    weigh(here, 12.2)
    here.follow()
    assert [each.kind for each in here.damage] == damage(tmp_path) == ["chain broken"]


def test_a_book_replaced_meanwhile_is_read_anew(tmp_path: Path) -> None:
    here, there = day_book(tmp_path), day_book(tmp_path)
    weigh(here, 12.0)
    kept = in_use(day_path(tmp_path))
    weigh(there, 12.1)
    weigh(here, 12.2)
    copy = tmp_path / "copy"
    copy.write_bytes(kept)
    copy.rename(day_path(tmp_path))
    assert here.follow()
    assert weigh(here, 12.3)["id"] == 2
    assert readings(here) == [12.0, 12.3]
    assert DAY.isoformat() in day_path(tmp_path).name
