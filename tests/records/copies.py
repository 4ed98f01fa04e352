"""Copies as these tests make, bend and put them back."""

from __future__ import annotations

import hashlib
import io
import zipfile
from pathlib import Path
from typing import Any

import orjson

from core.records.backup import Copied, back_up
from core.records.book import Make
from core.records.folder import Folder
from core.records.opencopy import open_copy
from core.records.restore import Restored, put_back
from tests.records.books import day_book, opened, weigh

MADE, STAMP = "2026-05-04T07:15:00.000Z", "20260504T071500Z"


def house(data: Path, *lots: int) -> Path:
    """A data folder with a house book and a day."""
    folder = Folder(data)
    opened.append(folder)
    folder.house().append_many("lots", map(_lot, lots or (1,)))
    weigh(day_book(data), 12.1)
    return data


def _lot(lot: int) -> Make:
    return lambda _number: {"lot": lot}


def backed_up(data: Path, target: Path) -> Copied:
    folder = Folder(data)
    try:
        return back_up(folder, target, MADE, "0.1.0")
    finally:
        folder.close()


def restored(data: Path, file: Path, *, replace: bool = False) -> Restored:
    folder = Folder(data)
    try:
        with open_copy(file) as copy:
            return put_back(
                folder, copy, replace=replace, stamp=STAMP, fits=lambda _names, _where: ()
            )
    finally:
        folder.close()


def files(data: Path) -> dict[str, bytes]:
    """Everything in the folder but the latch."""
    return {
        path.relative_to(data).as_posix(): path.read_bytes()
        for path in data.rglob("*")
        if path.is_file() and path.name != "latch"
    }


def sealed(entries: dict[str, bytes], target: Path) -> Path:
    """A file with these entries and a right seal, made without the program under test."""
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in entries.items():
            archive.writestr(zipfile.ZipInfo(name), data)
        archive.comment = b"blake2b " + b"0" * 64
    body = whole.getvalue()[:-64]
    seal = hashlib.blake2b(body, digest_size=32).hexdigest().encode()
    target.write_bytes(body + seal)
    return target


def manifest(stand: dict[str, bytes], **more: Any) -> bytes:
    """A manifest of the books that stand there, which are taken for sound; `more` overrides."""
    listed = [
        {
            "name": name,
            "bytes": len(data),
            "blake2b": hashlib.blake2b(data, digest_size=32).hexdigest(),
            "lines": data.count(b"\n"),
            "end": data.splitlines()[-1][8:40].decode() if data else "0" * 32,
        }
        for name, data in stand.items()
    ]
    return orjson.dumps({"format": 1, "made": MADE, "program": "0.1.0", "books": listed} | more)


def unpacked(file: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(file) as archive:
        return {name: archive.read(name) for name in archive.namelist()}
