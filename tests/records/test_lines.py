"""The journal's format, and what shows when somebody has changed a journal."""

from __future__ import annotations

import hashlib
import json
import time
from pathlib import Path

import pytest

from core.problems import StoreUnusable
from core.records.verify import verify_journal
from tests.records.books import day_book, day_path, in_use, readings, signed, sum_in, weigh, written

ZEROS = "0" * 32


def kinds(data: Path) -> list[tuple[int, str]]:
    return [(each.line, each.kind) for each in verify_journal(day_path(data)).damage]


def test_each_line_is_json_with_a_checksum_of_the_rest_and_the_sum_before(tmp_path: Path) -> None:
    lines = written(tmp_path, [12.1, 12.3]).splitlines()
    before = ZEROS
    for line in lines:
        said = json.loads(line)
        assert list(said)[:2] == ["sum", "prev"]
        assert said["sum"] == hashlib.blake2b(line[42:], digest_size=16).hexdigest()
        assert said["prev"] == before
        before = said["sum"]
    assert json.loads(lines[0])["book"] == {"format": 1, "kind": "day", "day": "2026-05-04"}
    assert json.loads(lines[2])["add"] == {"entries": {"2": {"id": 2, "reading": 12.3}}}


def test_lines_written_by_anything_that_follows_the_format_are_read(tmp_path: Path) -> None:
    head = signed({"book": {"format": 1, "kind": "day", "day": "2026-05-04"}}, ZEROS)
    first = signed({"set": {"entries": {"1": {"id": 1, "reading": 12.1}}}}, sum_in(head))
    gone = signed({"set": {"entries": {"1": None, "2": {"reading": 3.5}}}}, sum_in(first))
    day_path(tmp_path).parent.mkdir()
    day_path(tmp_path).write_bytes(head + first + gone)
    book = day_book(tmp_path)
    assert readings(book) == [3.5]
    assert book.damage == ()
    assert weigh(book, 4.0)["id"] == 3


def test_a_sound_journal_verifies(tmp_path: Path) -> None:
    written(tmp_path, [12.1, 12.3])
    report = verify_journal(day_path(tmp_path))
    assert report == (3, 2, (), True)


def test_no_journal_verifies_as_empty(tmp_path: Path) -> None:
    assert verify_journal(day_path(tmp_path)) == (0, 0, (), True)


def test_an_edited_record_shows_by_its_checksum(tmp_path: Path) -> None:
    data = written(tmp_path, [12.1, 12.3, 12.5])
    day_path(tmp_path).write_bytes(data.replace(b"12.3", b"13.3"))
    assert kinds(tmp_path) == [(3, "checksum wrong")]
    assert readings(day_book(tmp_path)) == [12.1, 12.5]


def test_an_edited_record_with_its_checksum_made_right_shows_by_the_next_line(
    tmp_path: Path,
) -> None:
    lines = written(tmp_path, [12.1, 12.3, 12.5]).splitlines(keepends=True)
    lines[2] = signed({"set": {"entries": {"2": {"id": 2, "reading": 9.9}}}}, sum_in(lines[1]))
    day_path(tmp_path).write_bytes(b"".join(lines))
    assert kinds(tmp_path) == [(4, "chain broken")]
    assert not verify_journal(day_path(tmp_path)).chain_sound


@pytest.mark.parametrize("removed", [0, 1, 2])
def test_a_removed_line_shows_where_it_stood(tmp_path: Path, removed: int) -> None:
    lines = written(tmp_path, [12.1, 12.3, 12.5]).splitlines(keepends=True)
    del lines[removed]
    day_path(tmp_path).write_bytes(b"".join(lines))
    assert kinds(tmp_path) == [(removed + 1, "chain broken")]


def test_removed_last_lines_show_by_the_end_kept_elsewhere(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    weigh(book, 12.1)
    weigh(book, 12.3)
    end = book.end
    lines = in_use(day_path(tmp_path)).splitlines(keepends=True)
    day_path(tmp_path).write_bytes(b"".join(lines[:-1]))
    again = day_book(tmp_path)
    again.follow()
    assert again.damage == ()
    assert again.end != end


def test_lines_that_changed_places_show(tmp_path: Path) -> None:
    lines = written(tmp_path, [12.1, 12.3, 12.5, 12.7]).splitlines(keepends=True)
    lines[2], lines[3] = lines[3], lines[2]
    day_path(tmp_path).write_bytes(b"".join(lines))
    assert kinds(tmp_path) == [(3, "chain broken"), (4, "chain broken"), (5, "chain broken")]


def test_a_line_told_twice_shows(tmp_path: Path) -> None:
    lines = written(tmp_path, [12.1, 12.3]).splitlines(keepends=True)
    day_path(tmp_path).write_bytes(b"".join([*lines, lines[1]]))
    assert kinds(tmp_path) == [(4, "chain broken")]


def test_a_damaged_line_does_not_break_the_chain(tmp_path: Path) -> None:
    """It is damaged, but it is the line that stood there: nothing was taken out."""
    lines = written(tmp_path, [12.1, 12.3, 12.5]).splitlines(keepends=True)
    lines[2] = lines[2][:60] + b"\n"
    day_path(tmp_path).write_bytes(b"".join(lines))
    assert kinds(tmp_path) == [(3, "torn")]


def test_a_damaged_line_excuses_only_the_line_after_it(tmp_path: Path) -> None:
    lines = written(tmp_path, [12.1, 12.3]).splitlines(keepends=True)
    damaged = lines[2].replace(b"12.3", b"13.3")
    after = signed({"set": {"entries": {"3": {"reading": 12.5}}}}, sum_in(lines[1]))
    forged = signed({"set": {"entries": {"4": {"reading": 99.0}}}}, sum_in(lines[2]))
    day_path(tmp_path).write_bytes(b"".join([*lines[:2], damaged, after, forged]))
    assert kinds(tmp_path) == [(3, "checksum wrong"), (5, "chain broken")]


def test_a_line_that_is_just_being_written_is_not_taken_for_torn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = written(tmp_path, [12.1])
    day_path(tmp_path).write_bytes(data[:-20])
    monkeypatch.setattr(time, "sleep", lambda _s: day_path(tmp_path).write_bytes(data))
    assert verify_journal(day_path(tmp_path)) == (2, 1, (), True)


def test_the_chain_goes_on_from_the_last_sound_line_after_damage(tmp_path: Path) -> None:
    data = written(tmp_path, [12.1, 12.3])
    day_path(tmp_path).write_bytes(data.replace(b"12.3", b"13.3"))
    weigh(day_book(tmp_path), 12.5)
    assert kinds(tmp_path) == [(3, "checksum wrong")]
    assert readings(day_book(tmp_path)) == [12.1, 12.5]


def test_records_run_together_by_a_damaged_line_end_are_both_kept(tmp_path: Path) -> None:
    lines = written(tmp_path, [12.1, 12.3, 12.5]).splitlines()
    day_path(tmp_path).write_bytes(lines[0] + b"\n" + b"*".join(lines[1:]) + b"\n")
    assert readings(day_book(tmp_path)) == [12.1, 12.3, 12.5]
    assert [line for line, _ in kinds(tmp_path)] == [2]


@pytest.mark.parametrize(
    "junk",
    [
        b"",
        b"\x00",
        b"\x00" * 5000,
        b"\n\n\n",
        b"\xff\xfe\xfd\n",
        b"[]\n{}\n1\n",
        b"x" * 300_000 + b"\n",
        b'{"sum":"\n',
        b'{"sum":"' + b"0" * 32 + b'","prev":"' + b"0" * 32 + b'","set":{}}\n',
    ],
)
def test_any_bytes_are_read_past(tmp_path: Path, junk: bytes) -> None:
    data = written(tmp_path, [12.1, 12.3, 12.5])
    head, first, rest = data.split(b"\n", 2)
    for mixed in (junk + data, head + b"\n" + junk + b"\n" + first + b"\n" + rest, data + junk):
        day_path(tmp_path).write_bytes(mixed)
        assert readings(day_book(tmp_path))[-2:] == [12.3, 12.5]


@pytest.mark.parametrize(
    "body",
    [
        {"set": 5},
        {"set": {"entries": []}},
        {"set": {"entries": {"one": {}}}},
        {"set": {"entries": {"1": [1]}}},
        {"other": {}},
        {"book": {"format": "new"}},
        {"book": 7},
    ],
)
def test_a_sound_line_that_is_no_record_is_damage(tmp_path: Path, body: dict[str, object]) -> None:
    lines = written(tmp_path, [12.1]).splitlines(keepends=True)
    odd = signed(body, sum_in(lines[1]))
    last = signed({"set": {"entries": {"2": {"reading": 12.5}}}}, sum_in(odd))
    day_path(tmp_path).write_bytes(b"".join([*lines, odd, last]))
    assert kinds(tmp_path) == [(3, "not JSON")]
    assert readings(day_book(tmp_path)) == [12.1, 12.5]


def test_a_sound_line_that_is_no_json_is_damage(tmp_path: Path) -> None:
    lines = written(tmp_path, [12.1]).splitlines(keepends=True)
    rest = f'"prev":"{sum_in(lines[1])}","set":{{}}}},{{}}'.encode()
    odd = b'{"sum":"%b",%b\n' % (
        hashlib.blake2b(rest, digest_size=16).hexdigest().encode(),
        rest,
    )
    day_path(tmp_path).write_bytes(b"".join([*lines, odd]))
    assert kinds(tmp_path) == [(3, "not JSON")]
    assert readings(day_book(tmp_path)) == [12.1]


def test_a_damaged_head_costs_no_record(tmp_path: Path) -> None:
    data = written(tmp_path, [12.1, 12.3])
    day_path(tmp_path).write_bytes(b"#" + data[1:])
    book = day_book(tmp_path)
    weigh(book, 12.5)
    assert readings(day_book(tmp_path)) == [12.1, 12.3, 12.5]
    assert [line for line, _ in kinds(tmp_path)] == [1]


def test_another_days_book_under_this_name_shows(tmp_path: Path) -> None:
    written(tmp_path, [12.1])
    other = tmp_path / "days" / "2026-05-05.jsonl"
    other.write_bytes(in_use(day_path(tmp_path)))
    report = verify_journal(other)
    assert [(each.line, each.kind) for each in report.damage] == [(1, "not this book")]
    assert "2026-05-04" in report.damage[0].says


def test_a_book_of_a_newer_version_is_refused_and_left_alone(tmp_path: Path) -> None:
    head = signed({"book": {"format": 2, "kind": "day"}}, ZEROS)
    record = signed({"set": {"entries": {"1": {"reading": 12.1}}}}, sum_in(head))
    day_path(tmp_path).parent.mkdir()
    day_path(tmp_path).write_bytes(head + record)
    book = day_book(tmp_path)
    for use in (book.follow, lambda: weigh(book, 12.3), lambda: readings(book)):
        with pytest.raises(StoreUnusable, match=r"newer version.*format 2.*update this program"):
            use()
    assert in_use(day_path(tmp_path)) == head + record
