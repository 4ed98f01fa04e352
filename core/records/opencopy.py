"""A copy read back: held to be whole, of a format we know, and of books only."""

from __future__ import annotations

import contextlib
import lzma
import struct
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import orjson
from pydantic import ValidationError

from core.problems import BadInput, Problem, StoreUnusable
from core.records.copy import (
    COPY_FORMAT,
    MANIFEST,
    PIECE,
    SEAL_BYTES,
    CopiedBook,
    Manifest,
    Scan,
    seal_of,
)
from core.records.folder import is_book
from core.records.lines import Damage
from core.say import say

_LONGEST_MANIFEST = 64 << 20
_UNREADABLE = (
    zipfile.BadZipFile,
    lzma.LZMAError,
    zlib.error,
    struct.error,
    EOFError,
    KeyError,
    NotImplementedError,
    RuntimeError,
    ValueError,
)
"""What the zip library raises for files that are none, or want what it does not know."""


class Copy(NamedTuple):
    """A copy that was found whole, with the damaged lines in its books."""

    archive: zipfile.ZipFile
    manifest: Manifest
    seal: str
    damage: tuple[tuple[str, Damage], ...]

    def pieces(self, book: CopiedBook) -> Iterator[bytes]:
        """The book's bytes, a piece at a time."""
        yield from _pieces(self.archive, book.name)


@contextlib.contextmanager
def open_copy(file: Path) -> Iterator[Copy]:
    """Open a copy, every byte of it checked; BadInput says what is wrong with it."""
    with contextlib.ExitStack() as opened:
        try:
            copy = _open(file, opened)
        except OSError as error:
            raise _bad(file, say("cannot be read: {why}", why=error.strerror or error)) from error
        except _UNREADABLE as error:
            raise _bad(
                file, say("is no copy that this program made ({error})", error=error)
            ) from error
        yield copy


def _open(file: Path, opened: contextlib.ExitStack) -> Copy:
    stream = opened.enter_context(file.open("rb"))
    seal = seal_of(stream)
    stream.seek(max(0, stream.tell() - SEAL_BYTES))
    if stream.read() != seal:
        raise _bad(
            file,
            say(
                "is not whole, or no copy that this program made: its end does not carry the "
                "checksum of what stands before it; fetch it again, or use another copy"
            ),
        )
    archive = opened.enter_context(zipfile.ZipFile(stream))
    manifest = _manifest(file, archive)
    damage: list[tuple[str, Damage]] = []
    for book in manifest.books:
        damage += ((book.name, each) for each in _checked(file, archive, book))
    return Copy(archive, manifest, seal.decode(), tuple(damage))


def _manifest(file: Path, archive: zipfile.ZipFile) -> Manifest:
    """The manifest, which must name the books that are there, and no others."""
    entry = archive.getinfo(MANIFEST)
    if entry.file_size > _LONGEST_MANIFEST:
        raise _bad(
            file,
            say(
                "expected a short {manifest}, found {file_size} bytes",
                manifest=MANIFEST,
                file_size=entry.file_size,
            ),
        )
    said = orjson.loads(b"".join(_pieces(archive, MANIFEST)))
    written = said.get("format") if isinstance(said, dict) else None
    if isinstance(written, int) and written > COPY_FORMAT:
        raise _bad(
            file,
            say(
                "was made by a newer version of this program (format {written}; this one reads up "
                "to {copy_format}): update this program",
                written=written,
                copy_format=COPY_FORMAT,
            ),
        )
    try:
        manifest = Manifest.model_validate(said)
    except ValidationError as error:
        first = error.errors(include_url=False, include_input=False)[0]
        where = ".".join(map(str, first["loc"]))
        raise _bad(file, f"{MANIFEST}: {where}: {first['msg'].lower()}") from error
    names = [book.name for book in manifest.books]
    for name in names:
        if not is_book(name):
            raise _bad(file, say("holds {name!r}, which is no book's name", name=name))
    if sorted([*names, MANIFEST]) != sorted(archive.namelist()) or len(set(names)) < len(names):
        raise _bad(file, say("does not hold what its {manifest} names", manifest=MANIFEST))
    return manifest


def _checked(file: Path, archive: zipfile.ZipFile, book: CopiedBook) -> tuple[Damage, ...]:
    """Read a book through; its damaged lines, which were so when it was copied."""
    scan = Scan(book.name, book.name)
    left = book.bytes
    try:
        for data in _pieces(archive, book.name):
            left -= len(data)
            if left < 0:
                break
            scan.take(data)
    except StoreUnusable as newer:
        raise BadInput(*(Problem(f"{file}: {p.place}", p.says) for p in newer.problems)) from newer
    scanned = scan.scanned()
    if left or scanned.book != book:
        raise _bad(
            file, say("{name} is not what its {manifest} says", name=book.name, manifest=MANIFEST)
        )
    return scanned.damage


def _pieces(archive: zipfile.ZipFile, name: str) -> Iterator[bytes]:
    with archive.open(name) as entry:
        while data := entry.read(PIECE):
            yield data


def _bad(file: Path, says: str) -> BadInput:
    return BadInput(Problem(str(file), say("{says}; nothing was restored", says=says)))
