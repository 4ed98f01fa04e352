"""A copy put back: what is put, what is refused, and what becomes of what was there."""

from __future__ import annotations

import datetime as dt
import stat
from pathlib import Path

import pytest

from core.problems import BadInput, StoreUnusable
from core.records.folder import Folder
from tests.records.books import DAY, day_book, day_path, in_use, readings, signed, weigh
from tests.records.copies import (
    STAMP,
    backed_up,
    files,
    house,
    manifest,
    restored,
    sealed,
    unpacked,
)

NAME = "days/2026-05-04.jsonl"
ASIDE = f"replaced-{STAMP}"
OTHER_DAY = dt.date(2026, 5, 6)


@pytest.fixture
def data(tmp_path: Path) -> Path:
    return house(tmp_path / "data")


@pytest.fixture
def copy(data: Path, tmp_path: Path) -> Path:
    """A copy of `data`, whose day had one entry then."""
    backed_up(data, tmp_path / "copy.zip")
    return tmp_path / "copy.zip"


def refused(data: Path, copy: Path, match: str, **how: bool) -> None:
    before = files(data)
    with pytest.raises(BadInput, match=match) as problem:
        restored(data, copy, **how)
    assert "nothing was" in str(problem.value)
    assert files(data) == before


def test_into_no_folder_at_all(data: Path, copy: Path, tmp_path: Path) -> None:
    done = restored(tmp_path / "new" / "data", copy)
    assert files(tmp_path / "new" / "data") == files(data)
    assert (done.put, done.aside) == (("house.jsonl", NAME), ())
    assert stat.S_IMODE((tmp_path / "new" / "data" / NAME).stat().st_mode) == 0o600
    assert weigh(day_book(tmp_path / "new" / "data"), 12.2)["id"] == 2


def test_what_is_here_already_is_left(data: Path, copy: Path) -> None:
    inode = day_path(data).stat().st_ino
    done = restored(data, copy)
    assert (done.put, done.left) == ((), ("house.jsonl", NAME))
    assert day_path(data).stat().st_ino == inode


def test_a_book_that_is_gone_or_was_cut_off_is_put_back(data: Path, copy: Path) -> None:
    before = files(data)
    (data / "house.jsonl").unlink()
    day_path(data).write_bytes(before[NAME][:-40])
    done = restored(data, copy)
    assert done.put == ("house.jsonl", NAME)
    assert files(data) == before


def test_a_book_that_goes_on_beyond_the_copy_is_refused(data: Path, copy: Path) -> None:
    weigh(day_book(data), 12.2)
    (data / "house.jsonl").unlink()
    refused(data, copy, "goes on beyond the copy: 3 lines here, 2 in the copy")


def test_a_book_that_differs_is_refused_with_the_line(data: Path, copy: Path) -> None:
    day_path(data).write_bytes(in_use(day_path(data)).replace(b"12.1", b"12.9"))
    refused(data, copy, f"{NAME}: is another than in the copy, from line 2 on")


def test_a_book_with_a_blank_line_in_place_of_the_copys_is_refused(data: Path, copy: Path) -> None:
    day_path(data).write_bytes(b"\n")
    refused(data, copy, "from line 1 on")


def test_replaced_books_and_those_the_copy_has_not_are_set_aside(data: Path, copy: Path) -> None:
    then = files(data)
    weigh(day_book(data), 12.2)
    weigh(Folder(data).day(OTHER_DAY), 12.3)
    now = files(data)
    done = restored(data, copy, replace=True)
    assert done.aside == (data / ASIDE,)
    assert files(data / ASIDE) == {name: now[name] for name in now if now[name] != then.get(name)}
    assert {n: d for n, d in files(data).items() if not n.startswith(ASIDE)} == then
    assert not Folder(data).unfinished()


def test_each_restore_has_a_folder_aside_of_its_own(data: Path, copy: Path) -> None:
    for reading in (12.2, 12.3):
        weigh(day_book(data), reading)
        restored(data, copy, replace=True)
    kept = [readings(Folder(data / f"{ASIDE}{n}").day(DAY)) for n in ("", "-2")]
    assert kept == [[12.1, 12.2], [12.1, 12.3]]


def test_a_book_that_the_copy_has_not_stays(data: Path, copy: Path) -> None:
    weigh(Folder(data).day(OTHER_DAY), 12.3)
    day_path(data).unlink()
    done = restored(data, copy)
    assert done.stay == ("days/2026-05-06.jsonl",)
    assert Folder(data).days() == (DAY, OTHER_DAY)


def test_a_running_terminal_goes_on_in_the_restored_book(data: Path, copy: Path) -> None:
    book = day_book(data)
    weigh(book, 12.2)
    restored(data, copy, replace=True)
    assert weigh(book, 12.5)["id"] == 2
    assert readings(book) == readings(day_book(data)) == [12.1, 12.5]


def test_what_a_terminal_writes_before_the_latch_is_taken_is_not_lost(
    data: Path, copy: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The day was the copy's own when the two were compared."""
    real = Folder.replacing

    def replacing(folder: Folder) -> object:
        weigh(day_book(data), 12.2)
        return real(folder)

    (data / "house.jsonl").unlink()
    monkeypatch.setattr(Folder, "replacing", replacing)
    with pytest.raises(BadInput, match="goes on beyond the copy"):
        restored(data, copy)
    assert list(files(data)) == [NAME]
    assert not Folder(data).unfinished()
    restored(data, copy, replace=True)
    assert readings(day_book(data)) == [12.1]
    assert readings(Folder(data / ASIDE).day(DAY)) == [12.1, 12.2, 12.2]


def test_one_restore_at_a_time(data: Path, copy: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = Folder.replacing

    def replacing(folder: Folder) -> object:
        with pytest.raises(StoreUnusable, match="another restore is at work in it"):
            restored(data, copy)
        return real(folder)

    (data / "house.jsonl").unlink()
    monkeypatch.setattr(Folder, "replacing", replacing)
    assert restored(data, copy).put == ("house.jsonl",)


@pytest.mark.parametrize(
    "name",
    [
        "../house.jsonl", "/etc/house.jsonl", "days/../house.jsonl", "latch", "days/",
        "days/2026-05-04.jsonl/x", "days/20260504.jsonl", "days/2026-5-4.jsonl",
        "years/2026-05-04.jsonl", "days/house.jsonl", "years/26.jsonl", "House.jsonl",
        "./house.jsonl", "days\\2026-05-04.jsonl", "house.jsonl\x00.txt", "days//2026-05-04.jsonl",
    ],
)  # fmt: skip
def test_names_that_are_no_books(data: Path, tmp_path: Path, name: str) -> None:
    book = in_use(day_path(data))
    bent = sealed({name: book, "manifest.json": manifest({name: book})}, tmp_path / "bent.zip")
    refused(data, bent, r"no book's name|is no copy|does not hold", replace=True)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["bent.zip", "data"]


def bent(copy: Path, **changes: bytes | None) -> Path:
    """The copy with some entries changed or left out, sealed again."""
    keys = {"day": NAME, "house": "house.jsonl", "said": "manifest.json", "more": "more.txt"}
    entries = unpacked(copy)
    for key, data in changes.items():
        entries.pop(keys[key], None)
        if data is not None:
            entries[keys[key]] = data
    return sealed(entries, copy.with_name("bent.zip"))


def test_a_copy_sealed_by_hand_is_taken(data: Path, copy: Path) -> None:
    assert restored(data, bent(copy)).put == ()


def test_copies_that_do_not_hold_what_they_say(data: Path, copy: Path) -> None:
    book = unpacked(copy)[NAME]
    refused(data, bent(copy, day=None), "does not hold what its manifest.json names")
    refused(data, bent(copy, more=b"x"), "does not hold what its manifest.json names")
    refused(data, bent(copy, said=None), "is no copy that this program made")
    refused(data, bent(copy, said=b"[]"), "manifest.json: ")
    refused(data, bent(copy, said=b"{"), "is no copy that this program made")
    refused(data, bent(copy, day=book + b"\n"), f"{NAME} is not what its manifest.json says")
    refused(data, bent(copy, day=book[:-1]), f"{NAME} is not what its manifest.json says")
    refused(data, bent(copy, day=book.replace(b"12.1", b"12.9")), "is not what its manifest")
    short = {NAME: book[:-1], "house.jsonl": unpacked(copy)["house.jsonl"]}
    refused(data, bent(copy, said=manifest(short)), "is not what its manifest")
    wrong = manifest(short, books=[{"name": NAME}])
    refused(data, bent(copy, said=wrong), r"manifest.json: books.0.bytes: field required")
    twice = {"name": NAME, "bytes": 1, "blake2b": "", "lines": 1, "end": ""}
    refused(data, bent(copy, said=manifest({}, books=[twice, twice])), "does not hold")


def test_newer_formats_are_refused_with_what_to_do(data: Path, copy: Path) -> None:
    newer = manifest({}, format=2, pages=[])
    refused(data, bent(copy, said=newer), r"format 2; this one reads up to 1\): update this")
    books = {"house.jsonl": unpacked(copy)["house.jsonl"]}
    books[NAME] = signed({"book": {"format": 2}}, "0" * 32)
    later = bent(copy, day=books[NAME], said=manifest(books))
    refused(data, later, r"\(format 2, not 1\): update this program")


def test_files_that_are_no_copies(data: Path, tmp_path: Path) -> None:
    refused(data, tmp_path / "none.zip", "cannot be read: No such file")
    refused(data, tmp_path, "cannot be read")
    for junk in (b"", b"x", b"x" * 64, b"PK\x05\x06" + bytes(18), bytes(5000)):
        (tmp_path / "junk").write_bytes(junk)
        refused(data, tmp_path / "junk", "is not whole, or no copy that this program made")
