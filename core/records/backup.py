"""A copy of the records made while terminals write.

Journals only grow. So each book's length is noted with the latch held, which takes no longer
than a look at each, and what stood there then is copied without it.
"""

from __future__ import annotations

import contextlib
import os
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO, NamedTuple

import orjson

from core.problems import BadInput, Problem, StoreUnusable
from core.records.copy import (
    COPY_FORMAT,
    MANIFEST,
    PIECE,
    SEAL_BYTES,
    UNSEALED,
    Manifest,
    Scan,
    Scanned,
    seal_of,
)
from core.records.disk import unusable
from core.records.folder import Folder
from core.records.lines import Damage
from core.records.newfile import new_file
from core.records.room import length
from core.say import say

_TRIES = 3
_QUICK = 3  # the level of compression: all levels leave about as much of checksums and digits
_LONG = 1 << 30  # bytes from which an entry's sizes need the zip's long form, compressed or not


class Copied(NamedTuple):
    """What a copy holds, and the damaged lines in it, by book."""

    manifest: Manifest
    damage: tuple[tuple[str, Damage], ...]


class _Noted(NamedTuple):
    """A book's place and size while nobody was writing."""

    name: str
    size: int
    inode: int


class _Replaced(Exception):
    """A book is no longer the file that was noted."""


def back_up(folder: Folder, target: Path, made: str, program: str) -> Copied:
    """Copy all books into the new file `target`; `made` is the time now, UTC.

    Every entry acknowledged before is in it. BadInput where the target is there already or
    cannot be made; StoreUnusable where a disk refuses. Neither leaves a file behind.
    """
    _check_target(folder, target)
    for _ in range(_TRIES):
        try:
            with new_file(target) as file:
                return _written(folder, file, made, program)
        except _Replaced:
            continue
        except FileExistsError as error:
            raise _taken(target) from error
        except OSError as error:
            raise unusable(error, target, say("write the copy")) from error
    raise StoreUnusable(
        Problem(
            str(folder.path),
            say(
                "books were replaced each time they were being copied; nothing was written: see "
                "what replaces them (a restore?), then try again"
            ),
        )
    )


def _check_target(folder: Folder, target: Path) -> None:
    try:
        if target.exists() or target.is_symlink():
            raise _taken(target)
        if not target.parent.is_dir():
            raise BadInput(
                Problem(
                    str(target),
                    say(
                        "expected a folder {parent} to write the copy in, found none; make it, or "
                        "name another file",
                        parent=target.parent,
                    ),
                )
            )
        if folder.path.resolve() in target.resolve().parents:
            raise BadInput(
                Problem(
                    str(target),
                    say(
                        "a copy within the data folder is lost with it; name a file elsewhere, "
                        "best on another disk"
                    ),
                )
            )
    except OSError as error:
        raise unusable(error, target, say("write the copy")) from error


def _taken(target: Path) -> BadInput:
    return BadInput(
        Problem(str(target), say("is there already, and is left as it is; name a new file"))
    )


def _noted(folder: Folder) -> list[_Noted]:
    """Every book as it stands between two writes."""
    with folder.latch if _is_written(folder) else contextlib.nullcontext():
        noted: list[_Noted] = []
        for name in folder.books():
            path = folder.path / name
            try:
                with path.open("rb") as book:
                    noted.append(_Noted(name, length(book), os.fstat(book.fileno()).st_ino))
            except OSError as error:
                raise unusable(error, path, say("read it")) from error
        return noted


def _is_written(folder: Folder) -> bool:
    """Whether anybody can write there: the latch of a disk that turned read-only cannot be had."""
    return not os.statvfs(folder.path).f_flag & os.ST_RDONLY


def _written(folder: Folder, file: BinaryIO, made: str, program: str) -> Copied:
    noted = _noted(folder)
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED, compresslevel=_QUICK) as archive:
        scanned = [_copied(archive, folder.path / book.name, book) for book in noted]
        manifest = Manifest(
            format=COPY_FORMAT,
            made=made,
            program=program,
            books=tuple(each.book for each in scanned),
        )
        if any(_inode(folder.path / book.name) != book.inode for book in noted):
            raise _Replaced
        with archive.open(MANIFEST, "w") as out:
            out.write(orjson.dumps(manifest.model_dump(), option=orjson.OPT_INDENT_2))
        archive.comment = UNSEALED
    seal = seal_of(file)
    file.seek(-SEAL_BYTES, os.SEEK_END)
    file.write(seal)
    damage = ((each.book.name, damage) for each in scanned for damage in each.damage)
    return Copied(manifest, tuple(damage))


def _copied(archive: zipfile.ZipFile, path: Path, noted: _Noted) -> Scanned:
    scan = Scan(noted.name, str(path))
    with archive.open(noted.name, "w", force_zip64=noted.size > _LONG) as out:
        for data in _prefix(path, noted):
            scan.take(data)
            out.write(data)
    return scan.scanned()


def _prefix(path: Path, noted: _Noted) -> Iterator[bytes]:
    """The bytes that stood in the book when it was noted."""
    try:
        with path.open("rb") as book:
            if os.fstat(book.fileno()).st_ino != noted.inode:
                raise _Replaced
            left = noted.size
            while left:
                data = book.read(min(left, PIECE))
                if not data:
                    raise _Replaced
                left -= len(data)
                yield data
    except FileNotFoundError as error:
        raise _Replaced from error
    except OSError as error:
        raise unusable(error, path, say("read it")) from error


def _inode(path: Path) -> int:
    try:
        return path.stat().st_ino
    except FileNotFoundError:
        return -1
