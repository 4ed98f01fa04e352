"""A book here held against the same book in a copy."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import BinaryIO, Literal, NamedTuple

from core.records.copy import PIECE, CopiedBook
from core.records.disk import unusable
from core.records.room import length
from core.say import say

State = Literal["absent", "same", "beginning", "beyond", "other"]
Mark = tuple[int, int, int]


class Compared(NamedTuple):
    """The book here beside the copy's, and `mark`, which changes whenever the file does.

    `beginning`: it is the beginning of the copy's, which lacks nothing of it. `beyond`: the
    copy's is the beginning of it. `other`: they part; `line` is the first that differs.
    """

    state: State
    mark: Mark | None = None
    line: int = 0

    @property
    def safe(self) -> bool:
        """Whether nothing is lost here by putting the copy's in its place."""
        return self.state in ("absent", "same", "beginning")


def compare(path: Path, book: CopiedBook, pieces: Callable[[], Iterable[bytes]]) -> Compared:
    """Compare the file at `path`; `pieces` gives the copy's bytes, where they are needed."""
    try:
        with path.open("rb") as here:
            mark = _mark(os.fstat(here.fileno()))
            size = length(here)
            if size >= book.bytes and _summed(here, book.bytes) == book.blake2b:
                return Compared("same" if size == book.bytes else "beyond", mark)
            here.seek(0)
            line = _parts_at(here, size, pieces())
            return Compared("other", mark, line) if line else Compared("beginning", mark)
    except FileNotFoundError:
        return Compared("absent")
    except OSError as error:
        raise unusable(error, path, say("read it")) from error


def mark_of(path: Path) -> Mark | None:
    """What tells whether the file has changed since it was compared; None where it is not."""
    try:
        return _mark(path.stat())
    except FileNotFoundError:
        return None
    except OSError as error:
        raise unusable(error, path, say("read it")) from error


def _mark(seen: os.stat_result) -> Mark:
    return seen.st_ino, seen.st_size, seen.st_mtime_ns


def _summed(here: BinaryIO, size: int) -> str:
    digest = hashlib.blake2b(digest_size=32)
    for data in _read(here, size):
        digest.update(data)
    return digest.hexdigest()


def _read(here: BinaryIO, size: int) -> Iterator[bytes]:
    while size and (data := here.read(min(size, PIECE))):
        size -= len(data)
        yield data


def _parts_at(here: BinaryIO, size: int, pieces: Iterable[bytes]) -> int:
    """The first line that differs in what is in use here; 0 where there is none."""
    line = 1
    for theirs in pieces:
        ours = here.read(min(size, len(theirs)))
        size -= len(ours)
        if not theirs.startswith(ours):
            same = next(n for n, (a, b) in enumerate(zip(ours, theirs, strict=False)) if a != b)
            return line + ours.count(b"\n", 0, same)
        line += ours.count(b"\n")
        if len(ours) < len(theirs):
            return 0
    return line if size else 0
