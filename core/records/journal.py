"""A journal on the disk: read on from where it was left, appended to, synced."""

from __future__ import annotations

import contextlib
import os
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, Literal

from core.problems import Problem, StoreUnusable
from core.records.disk import make_folder, open_private, sync_data, sync_folder, unusable
from core.records.latch import LOOK_EVERY_S
from core.records.lines import NOTHING_BEFORE, Chain, Damage, Sound, encode, encode_added, is_sound
from core.records.room import BLANK, ROOM
from core.records.tail import Tail
from core.say import say

_BLOCK = 1 << 18
_USUAL_LINE = 1 << 10
_LITTLE = 1 << 12  # what others add between two entries of ours is seldom more

_FOREIGN = say("something else wrote in it; nothing was recorded: try again")
_OVERWRITTEN = say(
    "another writer, who did not wait for the latch, wrote over the entry; it is not recorded: see "
    "what else writes in the data folder, then try again"
)
_PERHAPS = say("it may be there all the same: look in the day before it is typed anew; ")

Written = tuple[int, bytes]  # where our own bytes stand that the disk has not confirmed yet
Kind = Literal["add", "set", "book"]
Sink = Callable[[list[Sound]], None]


class Journal:
    """One journal file. Only the latch's holder may append; anybody may follow.

    Sound lines go to `sink` as they are read. A file that shrank or was replaced
    is read again from its start: `generation` counts that. `offset` is where the next unread
    line starts; a torn tail stays after it, and room may. `keeps_room`: new documents are
    added into room from the second on: who adds but one leaves none.
    """

    def __init__(
        self, path: Path, head: Mapping[str, Any], sink: Sink, *, keeps_room: bool = False
    ) -> None:
        self.path = path
        self.head = head
        self.sink = sink
        self.keeps_room = keeps_room
        self.generation = 0
        self._fd = -1
        self._write_fd = -1
        self._unsure: list[Written] = []
        self._forget()

    def _forget(self) -> None:
        for fd in (self._fd, self._write_fd):
            if fd >= 0:
                os.close(fd)
        self._fd = self._write_fd = self._inode = -1
        self._ready = False
        self._unsure.clear()
        self.chain = Chain(self.head, str(self.path))
        self.offset = 0
        self._room_ends = 0
        self._wants_room = False
        self._tail = b""
        self._unended = False

    def __del__(self) -> None:
        self._forget()

    def restart(self) -> bool:
        """Give the files back; the next use reads from the start."""
        self._forget()
        self.generation += 1
        return True

    @property
    def lines(self) -> int:
        """The lines read so far, a torn tail with them."""
        return self.chain.lines + bool(self._tail)

    @property
    def damage(self) -> tuple[Damage, ...]:
        """What is damaged, a torn tail with it."""
        torn = [Damage(self.lines, "torn", say("not written to its end"))]
        return (*self.chain.damage, *(torn if self._tail else ()))

    def follow(self) -> bool:
        """Read on; whether there was anything new, at the cost of one look if not."""
        try:
            try:
                seen = os.stat(self.path)  # noqa: PTH116 - a third of the cost
            except FileNotFoundError:
                return self._fd >= 0 and self.restart()
            if self._fd >= 0 and (seen.st_ino != self._inode or seen.st_size < self.offset):
                self.restart()
            if self._fd < 0:
                self._fd = os.open(self.path, os.O_RDONLY)
                self._inode = os.fstat(self._fd).st_ino
        except OSError as error:
            raise unusable(error, self.path, say("read it")) from error
        return self.read_on()

    def read_on(self) -> bool:
        """Read on in the file that is open: cheaper than to follow, and blind to its place."""
        if self._fd < 0:
            return self.follow()
        try:
            began, damaged = self.offset, len(self.chain.damage)
            size = os.lseek(self._fd, 0, os.SEEK_END)
            news = self._read_to(size) if size >= began and not self.is_read() else False
        except OSError as error:
            raise unusable(error, self.path, say("read it")) from error
        if size < began or (began and len(self.chain.damage) > damaged):
            # Seen from the middle, a file written over in place looks damaged.
            self.restart()
            self.follow()
            return True
        return news

    def _read_to(self, size: int) -> bool:
        """Read block by block, larger ones where a line is longer than a block."""
        began, block = self.offset, _BLOCK
        while (unread := size - self.offset) or self._tail:
            at = self.offset
            data = os.pread(self._fd, min(unread, block), at)
            self._take(data)
            if at + len(data) >= size and not self._tail:
                break
            if self.offset == at:
                if block >= unread:
                    break
                block *= 2
        return self.offset > began

    def _take(self, data: bytes) -> None:
        """Read `data`, which stands at `offset`; a last line without its end waits for it.

        Blanks after the last line's end are room.
        """
        if self._unended and data.startswith(b"\n"):
            data = data[1:]
            self.offset += 1
            self._unended = False
        whole, end, tail = data.rpartition(b"\n")
        lines = whole.split(b"\n") if end else []
        tail = tail.rstrip(BLANK)
        taken = len(whole) + len(end)
        # The cheap look first: a block's end cuts long lines again and again.
        if b"}}" in tail[-3:] and (is_sound(tail) or is_sound(tail[:-1])):
            lines.append(tail)
            taken += len(tail)
            self._unended = True
            tail = b""
        try:
            self.sink(self.chain.read(lines))
        except StoreUnusable:
            self._forget()
            raise
        self.offset += taken
        self._tail = tail
        if tail or self._unended:
            self._ready = False

    def is_in_place(self) -> bool:
        """Whether the file that is open is still the one of its name."""
        try:
            seen = os.stat(self.path)  # noqa: PTH116 - a third of the cost
        except OSError:
            return False
        return seen.st_ino == self._inode and seen.st_size >= self.offset

    def is_read(self) -> bool:
        """Whether the file that is open, and can be added to, is read to its end."""
        try:
            return self._ready and self._ends_at(self.offset)
        except OSError as error:
            raise unusable(error, self.path, say("read it")) from error

    def unread(self, at: int) -> bytes | None:
        """The whole lines that stand from `at` on; None where there is anything else."""
        if not self._ready or self._tail or self._unended:
            return None
        try:
            lines, block, end = b"", _LITTLE, 0
            while data := os.pread(self._fd, block, at + len(lines)):
                lines += data
                block *= 2
                end = lines.rfind(b"\n") + 1
                if lines[end : end + 1] == BLANK:
                    return None if lines[end:].strip(BLANK) else lines[:end]
            return lines if end == len(lines) and self._ends_at(at + end) else None
        except OSError as error:
            raise unusable(error, self.path, say("read it")) from error

    def _ends_at(self, at: int) -> bool:
        """Whether there is nothing but room where the next line would stand, or the file's end."""
        beyond = os.pread(self._fd, _USUAL_LINE, at)
        if beyond:
            return not beyond.strip(BLANK)
        return os.lseek(self._fd, 0, os.SEEK_END) == at

    def append(self, kind: Kind, bodies: Sequence[Mapping[str, Any]]) -> Written:
        """Write a line for each body, all or none; they do not go to `sink`.

        The caller holds the latch and is up to date. StoreUnusable when the disk refuses;
        what it took of the lines is cut off again.
        """
        try:
            if not self._ready:
                self._prepare()
            return self._put(kind, bodies)
        except OSError as error:
            self._unmake()
            raise unusable(error, self.path, say("record in it")) from error

    def add(self, table: str, doc_id: int, fields: Mapping[str, Any], tail: Tail | None) -> Written:
        """Write a new document's line, as `append` does; after a `tail` it stays unread too."""
        try:
            if not self._ready:
                self._prepare()
            at, prev = (tail.end, tail.last) if tail else (self.offset, self.chain.last)
            line = encode_added(table, doc_id, fields, prev)
            if self._wants_room and (len(line) > _USUAL_LINE or at + len(line) > self._room_ends):
                self._write_and_make_room(line, at)
            else:
                self._write(line, at)
                self._wants_room = self.keeps_room
        except OSError as error:
            self._unmake()
            raise unusable(error, self.path, say("record in it")) from error
        if tail is None:
            self.offset = at + len(line)
            self.chain.wrote(1, line)
        return at, line

    def _prepare(self) -> None:
        """Make the file and its head where they are missing; end a line left unended."""
        if self._write_fd < 0:
            make_folder(self.path.parent, within=True)
            self._write_fd = open_private(self.path, os.O_WRONLY)
        if self._fd < 0:
            self.follow()
        if self._tail or self._unended:
            os.pwrite(self._write_fd, b"\n", self.offset + len(self._tail))
            self._take(self._tail + b"\n")
        if self.chain.last == NOTHING_BEFORE:
            sync_folder(self.path.parent)
            self._put("book", [self.head])
        self._ready = True

    def _unmake(self) -> None:
        """Leave no empty file where the disk would not take a book's first line.

        Nobody may go on writing to a file that is gone: they look for it within this time.
        """
        with contextlib.suppress(OSError):
            if self._write_fd >= 0 and not os.fstat(self._write_fd).st_size:
                self.path.unlink()
                self.restart()
                time.sleep(2 * LOOK_EVERY_S)

    def _put(self, kind: Kind, bodies: Sequence[Mapping[str, Any]]) -> Written:
        prev, lines = self.chain.last, []
        for body in bodies:
            lines.append(encode(kind, body, prev))
            prev = lines[-1][8:40]
        at, data = self.offset, b"".join(lines)
        if at + len(data) > self._room_ends:
            self._end_of_room(at)
        self._write(data, at)
        self.offset = at + len(data)
        self.chain.wrote(len(lines), lines[-1])
        return at, data

    def _write(self, data: bytes, at: int, took: int = 0) -> None:
        """Write it all, where the disk `took` some already, or cut it off and raise OSError."""
        try:
            while took < len(data):
                took += os.pwrite(self._write_fd, data[took:] if took else data, at + took)
        except OSError:
            with contextlib.suppress(OSError):  # else the next writer ends the fragment
                if took:
                    os.ftruncate(self._write_fd, at)
            raise

    def _write_and_make_room(self, line: bytes, at: int) -> None:
        """Write the line, with room after it unless another terminal has made some.

        A disk too full for the room may have a place for the line all the same.
        """
        size = self._end_of_room(at)
        if size >= at + len(line):
            self._write(line, at)
            self._room_ends = size
            return
        took = 0
        with contextlib.suppress(OSError):
            took = os.pwrite(self._write_fd, line + ROOM, at)
        self._write(line, at, took)
        self._room_ends = at + max(took, len(line))

    def _end_of_room(self, at: int) -> int:
        """Where the room from `at` on, if there is any, ends; StoreUnusable if it is not empty."""
        size = os.lseek(self._fd, 0, os.SEEK_END)
        if size > at and os.pread(self._fd, size - at, at).strip(BLANK):
            self.restart()
            raise StoreUnusable(Problem(str(self.path), _FOREIGN))
        return size

    def give_back_room(self) -> None:
        """Cut off the room at the end; the caller holds the latch and is up to date."""
        try:
            if not self._ready:
                self._prepare()
            os.ftruncate(self._write_fd, self.offset)
            self._room_ends = 0
        except OSError as error:
            raise unusable(error, self.path, say("give back the room at its end")) from error

    def sync(self, written: Sequence[Written] = ()) -> None:
        """Return when all that was written is on the disk itself; StoreUnusable when unsure.

        After a failed sync Linux takes the lost pages for clean, and the next sync would
        pass without them: so what was ours in them is written again first.
        """
        fd = self._fd if self._write_fd < 0 else self._write_fd
        if fd < 0:
            return
        try:
            for at, data in self._unsure:
                os.pwrite(fd, data, at)
            sync_data(fd)
            for at, data in written:
                if os.pread(self._fd, len(data), at) != data:
                    self.restart()
                    raise StoreUnusable(Problem(str(self.path), _OVERWRITTEN))
        except OSError as error:
            self._unsure += written
            doing = say("confirm that the entry is on the disk")
            raise unusable(error, self.path, doing, _PERHAPS) from error
        self._unsure.clear()
