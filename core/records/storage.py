"""TinyDB's storage on a journal: its tables in memory, the changed documents on the disk."""

from __future__ import annotations

import contextlib
import gc
import threading
import weakref
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from types import TracebackType
from typing import Any, Self, cast

from tinydb.storages import Storage

from core.records.contents import Contents
from core.records.journal import Journal, Kind, Sink, Written
from core.records.latch import Latch
from core.records.lines import Sound
from core.records.slices import Fields, changes_of
from core.records.tail import MOST_BYTES, Tail

Slice = Mapping[str, Mapping[str, Fields | None]]

_MANY = 1_000  # objects; to collect more takes as long as to read them


class JournalStorage(Storage):
    """The tables as the journal's lines add up; `write` takes only what changed."""

    def __init__(
        self, path: Path, head: Mapping[str, Any], latch: Latch, *, keeps_room: bool = False
    ) -> None:
        super().__init__()
        # Held weakly: a storage that nobody holds any more shall give its file back at once.
        mine = weakref.WeakMethod(self._take)

        def take(lines: list[Sound]) -> None:
            cast("Sink", mine())(lines)

        self.journal = Journal(path, head, take, keeps_room=keeps_room)
        self.latch = latch
        self._lock = threading.RLock()
        self._depth = 0
        self._looks = 0
        self._written: list[Written] = []
        self._caught_up = False
        self._tail: Tail | None = None
        self._clear()

    def _clear(self) -> None:
        self._contents = Contents()
        self._generation = self.journal.generation

    @property
    def contents(self) -> Contents:
        """What the lines add up to: all of them while the latch is held, and our own always."""
        if self._tail or (self._depth and not self._caught_up):
            self._catch_up()
        return self._read_so_far()

    def _read_so_far(self) -> Contents:
        if self.journal.generation != self._generation:
            self._clear()
        return self._contents

    def _take(self, lines: list[Sound]) -> None:
        self._read_so_far().take(lines)

    def read(self) -> dict[str, dict[str, Fields]]:
        """The tables as they stand on the disk now; not to be changed by the caller."""
        self.follow()
        return self.contents.tables

    def follow(self) -> bool:
        """Take in what was appended since, here or elsewhere; whether there was anything."""
        first, self._tail = not self._read_so_far().changes, None
        with self._lock, _collector_spared() if first else contextlib.nullcontext():
            return self.journal.follow()

    def next_id(self, table: str) -> int:
        """The number of the table's next document: none is ever given twice.

        What others wrote meanwhile is not read for it where the lines as they stand tell:
        among many terminals nobody waits while another reads on.
        """
        if self._tail is None and not self._caught_up:
            self._caught_up = self.journal.is_read()
        if self._caught_up:
            return self._contents.highest.get(table, 0) + 1
        if self._tail and self._tail.table != table:
            self._catch_up()
        else:
            self._look_beyond(table)
        return (self._tail.number if self._tail else self.contents.highest.get(table, 0)) + 1

    def _look_beyond(self, table: str) -> None:
        """Go on with the tail that stands unread, where it is one that can be added to."""
        journal, tail = self.journal, self._tail
        lines = journal.unread(tail.end if tail else journal.offset)
        if lines == b"":
            return
        if tail is None:
            highest = self._read_so_far().highest.get(table, 0)
            tail = Tail(table, journal.offset, journal.chain.last, highest)
        can_be_added_to = lines and tail.take(lines)
        self._tail = tail if can_be_added_to else None

    def event_id(self, table: str, event: object) -> int | None:
        """The number of the document that carries this event; asked after the next number."""
        unnamed = self._tail and isinstance(event, str) and not self._tail.may_name(event)
        contents = self._contents if self._caught_up or unnamed else self.contents
        known = contents.events.get(table)
        return known.get(event) if known and isinstance(event, str) else None

    def add(self, table: str, doc_id: int, fields: Fields) -> None:
        """Journal a new document under its number; the caller has entered."""
        with self._lock:
            written = self.journal.add(table, doc_id, fields, self._tail)
            self._written.append(written)
            if self._tail is None:
                self._contents.add_new(table, doc_id, fields)
            else:
                self._tail.added(written[1])

    def __enter__(self) -> Self:
        """Hold the latch for writing."""
        if not self._depth:
            with self._lock:
                self._contents.settle()  # now, when nobody waits for it
        self.latch.__enter__()
        try:
            if not self._depth:
                self._caught_up = False
                if self._looks != self.latch.looks:
                    self._looks = self.latch.looks
                    if not self.journal.is_in_place():
                        self.follow()
        except BaseException:
            self.latch.__exit__(None, None, None)
            raise
        self._depth += 1
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        """Free the latch, then sync what was written: others may write meanwhile."""
        self._depth -= 1
        written: list[Written] = []
        if not self._depth:
            written, self._written = self._written, []
        self.latch.__exit__(kind, error, at)
        if written:
            self.journal.sync(written)
        if self._tail and self._tail.end - self.journal.offset > MOST_BYTES:
            self.follow()  # now, when nobody waits for it

    def _catch_up(self) -> None:
        with self._lock:
            self.journal.read_on()
            self._caught_up, self._tail = True, None

    def give_back_room(self) -> None:
        """Cut off the room that is kept ready at the book's end."""
        with self, self._lock:
            self._catch_up()
            self.journal.give_back_room()

    def write(self, data: Slice) -> None:
        """Journal the changed documents as one line; None for a removed one."""
        with self:
            self.write_lines("set", [data])

    def write_lines(self, kind: Kind, slices: Sequence[Slice]) -> None:
        """Journal several changes in one write, a line each; the caller has entered."""
        with self._lock:
            if not self._caught_up:
                self._catch_up()
            self._written.append(self.journal.append(kind, slices))
            self._read_so_far().add([each for said in slices for each in changes_of({kind: said})])


@contextlib.contextmanager
def _collector_spared() -> Iterator[None]:
    """No collecting while many documents come into being, nor of them: none is garbage.

    They are freed all the same when nothing holds them any more.
    """
    running = gc.isenabled()
    gc.disable()
    before = gc.get_count()[0]
    try:
        yield
    finally:
        if gc.get_count()[0] - before > _MANY:
            gc.freeze()
        if running:
            gc.enable()
