"""Books and entries as these tests write them."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
from pathlib import Path
from typing import Any

from core.records.book import Book
from core.records.folder import Folder

DAY = dt.date(2026, 5, 4)


opened: list[Folder] = []


def day_book(data: Path) -> Book:
    """The day's book as a terminal of its own opens it; closed when the test ends."""
    opened.append(Folder(data))
    return opened[-1].day(DAY)


def day_path(data: Path) -> Path:
    return data / "days" / "2026-05-04.jsonl"


def in_use(path: Path) -> bytes:
    """The file's bytes without the room at its end."""
    return path.read_bytes().rstrip(b" ")


def put_in(path: Path, lines: bytes) -> None:
    """Put lines in where the file's room begins, as another program may."""
    path.write_bytes(in_use(path) + lines)


def weigh(book: Book, reading_g: float, event: str | None = None) -> dict[str, Any]:
    """Record one reading, as an entry does."""
    return book.append("entries", lambda number: {"id": number, "reading": reading_g}, event)


def readings(book: Book) -> list[float]:
    return [entry["reading"] for entry in book.table("entries").all()]


def written(data: Path, readings_g: list[float]) -> bytes:
    """A day with these readings, and its file's bytes."""
    book = day_book(data)
    for reading_g in readings_g:
        weigh(book, reading_g)
    book.close()
    return in_use(day_path(data))


def signed(body: dict[str, Any], prev: str) -> bytes:
    """A line as the format says, made without the program under test."""
    rest = f'"prev":"{prev}",{json.dumps(body)[1:]}'.encode()
    return b'{"sum":"%b",%b\n' % (
        hashlib.blake2b(rest, digest_size=16).hexdigest().encode(),
        rest,
    )


def sum_in(line: bytes) -> str:
    return str(json.loads(line)["sum"])
