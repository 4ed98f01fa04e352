"""A copy of the records: what is in it, and what stands in its way."""

from __future__ import annotations

import datetime as dt
import os
import stat
import zipfile
from pathlib import Path
from typing import BinaryIO

import orjson
import pytest

from core.problems import BadInput, StoreUnusable
from core.records import backup
from core.records.copy import Scanned, seal_of
from core.records.folder import Folder
from tests.records.books import day_book, day_path, in_use, signed, weigh
from tests.records.copies import MADE, backed_up, files, house, manifest, unpacked


def test_a_copy_holds_every_book_and_says_what_it_holds(tmp_path: Path) -> None:
    data = house(tmp_path / "data", 1, 2)
    weigh(Folder(data).day(dt.date(2026, 5, 5)), 12.5)
    Folder(data).year(2026).append("summaries", lambda _number: {"date": "2026-05-04"})
    copied = backed_up(data, tmp_path / "copy.zip")
    found = unpacked(tmp_path / "copy.zip")
    said = found.pop("manifest.json")
    assert found == files(data)
    assert orjson.loads(said) == orjson.loads(manifest(found))
    assert (copied.manifest.days, copied.manifest.lines) == (2, 9)
    assert copied.manifest.bytes == sum(map(len, found.values()))
    assert (copied.manifest.made, copied.damage) == (MADE, ())


def test_a_copy_is_its_owners_alone_and_leaves_nothing_beside_it(tmp_path: Path) -> None:
    data = house(tmp_path / "data")
    before = os.umask(0)
    try:
        backed_up(data, tmp_path / "copy.zip")
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "copy.zip").stat().st_mode) == 0o600
    assert {path.name for path in tmp_path.iterdir()} == {"data", "copy.zip"}


def test_a_file_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    data = house(tmp_path / "data")
    (tmp_path / "copy.zip").write_text("a letter")
    with pytest.raises(BadInput, match="is there already, and is left as it is"):
        backed_up(data, tmp_path / "copy.zip")
    assert (tmp_path / "copy.zip").read_text() == "a letter"


def test_nor_is_one_that_comes_while_the_copy_is_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    data, target = house(tmp_path / "data"), tmp_path / "copy.zip"

    def late(file: BinaryIO) -> bytes:
        target.write_text("a letter")
        return seal_of(file)

    monkeypatch.setattr(backup, "seal_of", late)
    with pytest.raises(BadInput, match="is there already"):
        backed_up(data, target)
    assert target.read_text() == "a letter"
    assert {path.name for path in tmp_path.iterdir()} == {"data", "copy.zip"}


@pytest.mark.parametrize("place", ["nowhere/copy.zip", "data/copy.zip", "data/days/copy.zip"])
def test_places_where_no_copy_should_be(tmp_path: Path, place: str) -> None:
    data = house(tmp_path / "data")
    before = files(data)
    with pytest.raises(BadInput, match=r"(found none; make it|is lost with it)"):
        backed_up(data, tmp_path / place)
    assert files(data) == before


def test_damaged_lines_are_copied_as_they_are_and_told(tmp_path: Path) -> None:
    data = house(tmp_path / "data")
    weigh(day_book(data), 12.2)
    whole = in_use(day_path(data))
    day_path(data).write_bytes(whole.replace(b"12.1", b"12.9") + b'{"sum":"01')
    copied = backed_up(data, tmp_path / "copy.zip")
    told = [(name, each.line, each.kind) for name, each in copied.damage]
    name = "days/2026-05-04.jsonl"
    assert told == [(name, 2, "checksum wrong"), (name, 4, "torn")]
    assert unpacked(tmp_path / "copy.zip")[name] == in_use(day_path(data))
    assert copied.manifest.books[1].lines == 4


def test_a_whole_line_that_lacks_only_its_end_is_a_line(tmp_path: Path) -> None:
    data = house(tmp_path / "data")
    day_path(data).write_bytes(in_use(day_path(data))[:-1])
    copied = backed_up(data, tmp_path / "copy.zip")
    assert (copied.manifest.books[1].lines, copied.damage) == (2, ())


def test_a_book_longer_than_a_piece_is_read_in_pieces(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(backup, "PIECE", 7)
    data = house(tmp_path / "data", *range(20))
    copied = backed_up(data, tmp_path / "copy.zip")
    assert (copied.manifest.books[0].lines, copied.damage) == (21, ())
    assert unpacked(tmp_path / "copy.zip")["house.jsonl"] == (data / "house.jsonl").read_bytes()


def test_what_is_written_after_the_sizes_were_noted_is_not_in_the_copy(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = house(tmp_path / "data")
    before = in_use(day_path(data))
    real = backup._noted

    def noted(folder: Folder) -> list[backup._Noted]:
        sizes = real(folder)
        weigh(day_book(data), 12.2)
        return sizes

    monkeypatch.setattr(backup, "_noted", noted)
    copied = backed_up(data, tmp_path / "copy.zip")
    assert unpacked(tmp_path / "copy.zip")["days/2026-05-04.jsonl"] == before
    assert copied.damage == ()


@pytest.mark.parametrize("times", [1, 3])
def test_a_book_replaced_meanwhile_is_copied_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, times: int
) -> None:
    data = house(tmp_path / "data")
    real, left = backup._copied, [times]

    def copied(archive: zipfile.ZipFile, path: Path, noted: backup._Noted) -> Scanned:
        if path == day_path(data) and left[0]:
            left[0] -= 1
            (data / "new").write_bytes(path.read_bytes())
            (data / "new").rename(path)
        return real(archive, path, noted)

    monkeypatch.setattr(backup, "_copied", copied)
    if times == 1:
        assert backed_up(data, tmp_path / "copy.zip").manifest.days == 1
        return
    with pytest.raises(StoreUnusable, match="books were replaced each time"):
        backed_up(data, tmp_path / "copy.zip")
    assert {path.name for path in tmp_path.iterdir()} == {"data"}


def test_a_newer_versions_book_is_not_copied_half_understood(tmp_path: Path) -> None:
    data = house(tmp_path / "data")
    day_path(data).write_bytes(signed({"book": {"format": 2}}, "0" * 32))
    with pytest.raises(StoreUnusable, match="update this program"):
        backed_up(data, tmp_path / "copy.zip")
    assert not (tmp_path / "copy.zip").exists()
