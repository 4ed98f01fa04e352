"""TinyDB's storage on a journal: its tables in memory, the changed documents on the disk."""

from __future__ import annotations

import contextlib
import gc
import threading
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from tinydb.storages import Storage

from core.records.journal import Journal, Written
from core.records.latch import LOOK_EVERY_S, Latch
from core.records.slices import Change, Fields, changes_of

Slice = Mapping[str, Mapping[str, Fields | None]]

_MANY = 10_000  # objects; a collection of so many would take as long as to read them


class JournalStorage(Storage):
    """The tables as the journal's lines add up; `write` takes only what changed.

    `changes` are all changes since the file's start, in its order, for who follows.
    """

    def __init__(self, path: Path, head: Mapping[str, Any], latch: Latch) -> None:
        super().__init__()
        self.journal = Journal(path, head, self._apply)
        self.latch = latch
        self._lock = threading.RLock()
        self._depth = 0
        self._look_at = 0.0
        self._written: list[Written] = []
        self._clear()

    def _clear(self) -> None:
        self.tables: dict[str, dict[str, Fields]] = {}
        self.changes: list[Change] = []
        self._events: dict[str, dict[str, int]] = {}
        self._highest: dict[str, int] = {}
        self._generation = self.journal.generation

    def next_id(self, table: str) -> int:
        """The number of the table's next document: none is ever given twice."""
        return self._highest.get(table, 0) + 1

    def event_id(self, table: str, event: object) -> int | None:
        """The number of the document that carries this event, found at once."""
        return self._events.get(table, {}).get(event) if isinstance(event, str) else None

    def read(self) -> dict[str, dict[str, Fields]]:
        """The tables as they stand on the disk now; not to be changed by the caller."""
        self.follow()
        return self.tables

    def follow(self) -> bool:
        """Take in what was appended since, here or elsewhere; whether there was anything."""
        with self._lock, contextlib.nullcontext() if self.tables else _collector_spared():
            return self._read(self.journal.follow)

    def _read(self, more: Callable[[], bool]) -> bool:
        news = more()
        if self.journal.generation != self._generation:
            self._clear()
        return news

    def __enter__(self) -> Self:
        """Hold the latch, up to date, for writing."""
        self.latch.__enter__()
        try:
            if not self._depth:
                self._catch_up()
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

    def _catch_up(self) -> None:
        with self._lock:
            now = time.monotonic()
            if now > self._look_at:
                self.follow()
                self._look_at = now + LOOK_EVERY_S
            else:
                self._read(self.journal.read_on)

    def write(self, data: Slice) -> None:
        """Journal the changed documents as one line; None for a removed one."""
        with self:
            self.write_lines([data])

    def write_lines(self, slices: Sequence[Slice]) -> None:
        """Journal several changes in one write, a line each; the caller has entered."""
        with self._lock:
            self._written.append(self.journal.append(slices))
            for each in slices:
                self._apply([*changes_of({"set": each})])

    def _apply(self, changes: Sequence[Change]) -> None:
        if self.journal.generation != self._generation:
            self._clear()
        self.changes += changes
        name = None
        for table, doc_id, fields in changes:
            if table != name:
                name = table
                kept = self.tables.setdefault(table, {})
                events = self._events.setdefault(table, {})
                self._highest.setdefault(table, 0)
            key = str(doc_id)
            if doc_id > self._highest[table]:
                self._highest[table] = doc_id
            elif key in kept:
                before = kept[key].get("event")
                if type(before) is str and events.get(before) == doc_id:
                    del events[before]
            if fields is None:
                kept.pop(key, None)
                continue
            kept[key] = fields
            event = fields.get("event")
            if type(event) is str:
                events.setdefault(event, doc_id)


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
