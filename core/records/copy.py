"""A copy of the records in one file: what is in it, and how its bytes are held to be whole.

A zip file: each book under its name within the data folder, then `manifest.json`. Its
comment ends in the seal, the BLAKE2b digest of everything before it: a zip's own checksums
leave some of its bytes unwatched.
"""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Annotated, BinaryIO, NamedTuple

from pydantic import Field

from core.records.folder import head_of
from core.records.lines import Chain, Damage, is_sound
from core.say import say
from core.value import Value

COPY_FORMAT = 1
MANIFEST = "manifest.json"
PIECE = 1 << 20
"""Bytes in memory at a time, give or take a line."""

SEAL_BYTES = 64
UNSEALED = b"blake2b " + b"0" * SEAL_BYTES


class CopiedBook(Value):
    """A book as it was copied; `end` is its last sound line's checksum."""

    name: str
    bytes: int
    blake2b: str
    lines: int
    end: str


class Manifest(Value):
    """`manifest.json`; `made` is UTC, `program` the version that made the copy."""

    format: Annotated[int, Field(strict=True, ge=1)]
    made: Annotated[str, Field(pattern=r"^\d{4}-\d\d-\d\dT[\d:.]+Z$")]
    program: Annotated[str, Field(pattern=r"^[\w.+-]{1,40}$")]
    books: tuple[CopiedBook, ...]

    @property
    def days(self) -> int:
        return sum(book.name.startswith("days/") for book in self.books)

    @property
    def lines(self) -> int:
        return sum(book.lines for book in self.books)

    @property
    def bytes(self) -> int:
        return sum(book.bytes for book in self.books)


class Scanned(NamedTuple):
    """A book that has gone by whole."""

    book: CopiedBook
    damage: tuple[Damage, ...]


class Scan:
    """A book's bytes as they go by: counted, summed up, and read as lines.

    StoreUnusable where a newer version of this program wrote them.
    """

    def __init__(self, name: str, place: str) -> None:
        self._name = name
        self._digest = hashlib.blake2b(digest_size=32)
        self._chain = Chain(head_of(Path(name).name), place)
        self._bytes = 0
        self._tail = b""

    def take(self, data: bytes) -> None:
        """The next bytes."""
        self._digest.update(data)
        self._bytes += len(data)
        *lines, self._tail = (self._tail + data).split(b"\n")
        self._chain.read(lines)

    def scanned(self) -> Scanned:
        """What it was, when all bytes have been taken."""
        chain = self._chain
        damage = list(chain.damage)
        torn = bool(self._tail) and not is_sound(self._tail)
        if torn:
            damage.append(Damage(chain.lines + 1, "torn", say("not written to its end")))
        elif self._tail:
            chain.read([self._tail])
        book = CopiedBook(
            name=self._name,
            bytes=self._bytes,
            blake2b=self._digest.hexdigest(),
            lines=chain.lines + torn,
            end=chain.last.decode(),
        )
        return Scanned(book, tuple(damage))


def seal_of(file: BinaryIO) -> bytes:
    """The seal that the file should end in, read from its start."""
    file.seek(0)
    digest = hashlib.blake2b(digest_size=SEAL_BYTES // 2)
    kept = b""
    while data := file.read(PIECE):
        kept += data
        digest.update(kept[:-SEAL_BYTES])
        kept = kept[-SEAL_BYTES:]
    return digest.hexdigest().encode()
