"""A copy put back into a data folder: all of it, whatever interrupts it.

The books to be put are written into a folder of their own (`restoring-…`) within the data
folder, and renamed in place with all writers held off. What they replace is linked into
another (`replaced-…`) before. Interrupted anywhere, the folder holds each book as it was or
as it shall be, `restoring-…` shows it, and the same restore again does the rest.
"""

from __future__ import annotations

import contextlib
import fcntl
import os
import shutil
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

import orjson

from core.problems import BadInput, Problem, StoreUnusable
from core.records.compare import Compared, compare, mark_of
from core.records.disk import make_folder, open_private, sync_data, sync_folder, unusable
from core.records.folder import RESTORING, Folder
from core.records.opencopy import Copy
from core.say import say

REPLACED = "replaced-"
_RESTORED = "restored-"  # what `restoring-…` is called when all is in place, until it is gone
_BEGUN = "begun.json"  # in `restoring-…`, when books are about to be put: the copy, and which

Where = Callable[[str], Path]
Fits = Callable[[Sequence[str], Where], tuple[Problem, ...]]
"""Problems of books that stay, given their names, and where each book will be read."""


class Restored(NamedTuple):
    """What was done, by the books' names.

    `put` in place; `left` as they were here already; `stay` beside the copy's, which has
    them not. `aside` are the folders that hold what was replaced, by this run and by those
    that it completed.
    """

    put: tuple[str, ...]
    left: tuple[str, ...]
    stay: tuple[str, ...]
    aside: tuple[Path, ...]


def has_begun(unfinished: Path) -> bool:
    """Whether an unfinished restore may have put books in place before it was broken off."""
    return (unfinished / _BEGUN).exists()


def put_back(folder: Folder, copy: Copy, *, replace: bool, stamp: str, fits: Fits) -> Restored:
    """Put the copy's books in place; `stamp` is the time now, as a folder's name can bear it.

    Without `replace` only where nothing here is lost by it and what stays fits: else
    BadInput, and nothing is changed. With it the folder ends as the copy is. StoreUnusable
    where the disk refuses: nothing is lost, and the same restore again does what is left.
    """
    try:
        make_folder(folder.path)
        with _alone(folder.path):
            return _Restore(folder, copy, stamp, replace=replace).run(fits)
    except OSError as error:
        raise unusable(error, folder.path, say("restore into it")) from error


@contextlib.contextmanager
def _alone(path: Path) -> Iterator[None]:
    """One restore at a time; the kernel ends this with the process, however it ends."""
    held = os.open(path, os.O_RDONLY | os.O_DIRECTORY)
    try:
        try:
            fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise StoreUnusable(
                Problem(str(path), say("another restore is at work in it; wait until it has ended"))
            ) from None
        yield
    finally:
        os.close(held)


class _Restore:
    """One restore at work."""

    def __init__(self, folder: Folder, copy: Copy, stamp: str, *, replace: bool) -> None:
        self._folder = folder
        self._path = folder.path
        self._copy = copy
        self._replace = replace
        self._books = {book.name: book for book in copy.manifest.books}
        self._unfinished = folder.unfinished()
        name = _free(folder.path, stamp)
        self._staging = folder.path / f"{RESTORING}{name}"
        self._aside = folder.path / f"{REPLACED}{name}"
        self._put_before = _put_before(self._unfinished, copy.seal)
        self._found: dict[str, Compared] = {}
        self._begun = False

    def run(self, fits: Fits) -> Restored:
        """Compare, stage, put: each only when nothing speaks against it."""
        for name in self._books:
            self._compare(name)
        self._refuse_losses()
        put = self._to_put()
        if put or self._surplus():
            put = self._staged_and_put(put, fits)
        self._clear_up()
        left = tuple(name for name in self._books if name not in put)
        stay = tuple(name for name in self._folder.books() if name not in self._books)
        aside = (*map(_aside_of, self._unfinished), self._aside)
        return Restored(put, left, stay, tuple(each for each in aside if each.is_dir()))

    def _staged_and_put(self, put: tuple[str, ...], fits: Fits) -> tuple[str, ...]:
        try:
            self._stage(put)
            if not self._replace:
                self._refuse_misfits(fits)
            with self._folder.replacing():
                put = self._looked_again()
                self._begin(put)
                self._set_aside(put)
                self._put(put)
        finally:
            if not self._begun:
                shutil.rmtree(self._staging, ignore_errors=True)
        return put

    # -- what is here ---------------------------------------------------------------------

    def _compare(self, name: str) -> None:
        book = self._books[name]
        self._found[name] = compare(self._path / name, book, lambda: self._copy.pieces(book))

    def _to_put(self) -> tuple[str, ...]:
        """The copy's books that are not in place yet."""
        return tuple(
            name
            for name, found in self._found.items()
            if found.state != "same" and (self._replace or not self._went_on(name))
        )

    def _went_on(self, name: str) -> bool:
        """Whether terminals wrote on in a book that an unfinished run of this had put."""
        return self._found[name].state == "beyond" and name in self._put_before

    def _surplus(self) -> tuple[str, ...]:
        """The books here that have to go, for the folder to end as the copy is."""
        here = self._folder.books() if self._replace else ()
        return tuple(name for name in here if name not in self._books)

    def _refuse_losses(self) -> None:
        """Refuse to put the copy's where more, or something else, is here."""
        lost = [
            _loss(name, self._path / name, found, self._books[name].lines)
            for name, found in self._found.items()
            if not (self._replace or found.safe or self._went_on(name))
        ]
        if lost:
            raise BadInput(*lost, _REFUSED)

    def _refuse_misfits(self, fits: Fits) -> None:
        """Refuse where a book that stays would not fit the books that are put."""

        def where(name: str) -> Path:
            staged = self._staging / name
            return staged if staged.exists() else self._path / name

        stay = [name for name in self._folder.books() if name not in self._books]
        misfits = fits(stay, where)
        if misfits:
            raise BadInput(*misfits, _REFUSED)

    def _looked_again(self) -> tuple[str, ...]:
        """Compare anew what terminals wrote until now; what to put after that, staged."""
        for name, found in self._found.items():
            if mark_of(self._path / name) != found.mark:
                self._compare(name)
        self._refuse_losses()
        put = self._to_put()
        self._stage(name for name in put if not (self._staging / name).exists())
        return put

    # -- what is done ---------------------------------------------------------------------

    def _stage(self, names: Iterable[str]) -> None:
        """Write the books beside those in place, safe on the disk."""
        make_folder(self._staging, within=True)
        for name in names:
            path = self._staging / name
            make_folder(path.parent, within=True)
            _write(path, self._copy.pieces(self._books[name]))

    def _begin(self, put: Iterable[str]) -> None:
        """From here on a book may be in place: say so where the next run will find it."""
        note = {"copy": self._copy.seal, "put": list(put)}
        _write(self._staging / _BEGUN, [orjson.dumps(note)])
        self._begun = True

    def _set_aside(self, put: Iterable[str]) -> None:
        """Give what will be replaced a second name, and what has to go another."""
        for name in put:
            if not self._found[name].safe:
                self._place_aside(name).hardlink_to(self._path / name)
                sync_folder(self._place_aside(name).parent)
        for name in self._surplus():
            place = self._place_aside(name)
            (self._path / name).rename(place)
            sync_folder(place.parent)
            sync_folder((self._path / name).parent)

    def _place_aside(self, name: str) -> Path:
        place = self._aside / name
        make_folder(self._aside, within=True)
        make_folder(place.parent, within=True)
        return place

    def _put(self, names: Iterable[str]) -> None:
        for name in names:
            place = self._path / name
            make_folder(place.parent, within=True)
            (self._staging / name).rename(place)
        for kind in {(self._path / name).parent for name in names}:
            sync_folder(kind)

    def _clear_up(self) -> None:
        """Take away this run's folder and those of the runs that it completed."""
        for done in (*self._unfinished, self._staging):
            if done.is_dir():
                # In one step: a folder half taken away would pass for a restore half done.
                done.rename(_renamed(done, _RESTORED))
        sync_folder(self._path)
        for done in self._path.glob(f"{_RESTORED}*"):
            shutil.rmtree(done)


_REFUSED = Problem(
    "",
    say(
        "nothing was changed; with --replace the folder ends as the copy is, and what is replaced "
        "is kept in a folder of its own"
    ),
)


def _loss(name: str, path: Path, found: Compared, lines: int) -> Problem:
    """What would be lost of a book here, in words."""
    if found.state == "beyond":
        here = path.read_bytes().count(b"\n")
        return Problem(
            name,
            say(
                "goes on beyond the copy: {here} lines here, {lines} in the copy",
                here=here,
                lines=lines,
            ),
        )
    return Problem(name, say("is another than in the copy, from line {line} on", line=found.line))


def _write(path: Path, pieces: Iterable[bytes]) -> None:
    """Write a new file, private or its group's as others, safe on the disk."""
    with os.fdopen(open_private(path, os.O_WRONLY), "wb") as file:
        for data in pieces:
            file.write(data)
        file.flush()
        sync_data(file.fileno())
    sync_folder(path.parent)


def _free(path: Path, stamp: str) -> str:
    """The stamp, or with a number after it where a folder of a restore has that name."""
    names = (stamp, *(f"{stamp}-{n}" for n in range(2, 10_000)))
    kinds = (RESTORING, REPLACED, _RESTORED)
    return next(name for name in names if not any((path / (k + name)).exists() for k in kinds))


def _renamed(staging: Path, kind: str) -> Path:
    return staging.with_name(kind + staging.name.removeprefix(RESTORING))


def _aside_of(unfinished: Path) -> Path:
    return _renamed(unfinished, REPLACED)


def _put_before(unfinished: Iterable[Path], seal: str) -> frozenset[str]:
    """The books that unfinished runs with the same copy have put in place."""
    put: set[str] = set()
    for staging in unfinished:
        with contextlib.suppress(OSError, ValueError):
            note = orjson.loads((staging / _BEGUN).read_bytes())
            if note["copy"] == seal:
                put |= {name for name in note["put"] if not (staging / name).exists()}
    return frozenset(put)
