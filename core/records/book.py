"""A book: one journal's tables, and the ways entries get into it and are followed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from core.records.latch import Latch
from core.records.lines import Damage
from core.records.slices import Change, Fields
from core.records.storage import JournalStorage, Slice
from core.records.table import JournalTable

Make = Callable[[int], Fields]


class Cursor(NamedTuple):
    """How far a reader has followed a book; `generation` counts the file's replacements."""

    generation: int = 0
    seen: int = 0


START = Cursor()


class News(NamedTuple):
    """Changes in the journal's order, (table, number, fields or None for removed).

    `restarted`: the file was replaced, and these are all its changes from the start.
    """

    changes: list[Change]
    cursor: Cursor
    restarted: bool


class Book:
    """A day book or the house book. Its file comes into being with its first record.

    `keeps_room`: entries follow one another in it all day, and are to be quick.
    """

    def __init__(
        self, path: Path, head: Mapping[str, Any], latch: Latch, *, keeps_room: bool = False
    ) -> None:
        self.path = path
        self._storage = JournalStorage(path, head, latch, keeps_room=keeps_room)
        self._journal = self._storage.journal
        self._tables: dict[str, JournalTable] = {}

    def table(self, name: str) -> JournalTable:
        """The TinyDB table of that name."""
        if name not in self._tables:
            self._tables[name] = JournalTable(self._storage, name)
        return self._tables[name]

    def append(self, table: str, make: Make, event: str | None = None) -> Fields:
        """Record the document that `make` returns for its number; durable on return.

        `make` runs on the latest state, with the latch held; what it raises leaves nothing
        written, and what it returns is the book's from then on. A repeated event (given, or
        in the document) returns what is recorded, and syncs too. StoreUnusable if the disk
        will not take or confirm it: then it is unacknowledged, and may be tried again.
        """
        storage = self._storage
        with storage:
            doc_id = storage.next_id(table)
            found = None if event is None else storage.event_id(table, event)
            if found is None:
                fields = make(doc_id)
                if event is None:
                    found = storage.event_id(table, fields.get("event"))
                else:
                    fields["event"] = event
                if found is None:
                    storage.add(table, doc_id, fields)
                    return fields
        self.sync()
        return storage.contents.tables[table][str(found)]

    def append_many(self, table: str, makes: Iterable[Make]) -> list[int]:
        """Record many documents with one sync, all of them or none; their numbers.

        They appear in the tables together at the end. Repeated events are passed over.
        """
        numbers: list[int] = []
        slices: list[Slice] = []
        fresh: dict[object, int] = {}
        with self._storage:
            contents = self._storage.contents
            doc_id = contents.highest.get(table, 0) + 1
            for make in makes:
                fields = make(doc_id)
                event = fields.get("event")
                found = fresh.get(event) or self._storage.event_id(table, event)
                if found is None:
                    slices.append({table: {str(doc_id): fields}})
                    if event is not None:
                        fresh[event] = doc_id
                    found = doc_id
                    doc_id += 1
                numbers.append(found)
            if slices:
                self._storage.write_lines("add", slices)
        if not slices:
            self.sync()
        return numbers

    def follow(self) -> bool:
        """Take in what was appended, here or elsewhere; whether there was anything new."""
        return self._storage.follow()

    def news(self, cursor: Cursor = START, *, look: bool = True) -> News:
        """All changes since `cursor`, own ones too, after a look at the file.

        Without a `look` those it has seen: within `append`, and right after it.
        """
        if look:
            self._storage.follow()
        generation, changes = self._journal.generation, self._storage.contents.changes
        restarted = generation != cursor.generation
        return News(
            changes[0 if restarted else cursor.seen :], Cursor(generation, len(changes)), restarted
        )

    @property
    def damage(self) -> tuple[Damage, ...]:
        """The damaged lines, in the order they were met; everything sound was kept."""
        return tuple(sorted((*self._journal.damage, *self._storage.contents.odd)))

    @property
    def lines(self) -> int:
        """The lines read so far, damaged ones too."""
        return self._journal.lines

    @property
    def end(self) -> str:
        """The checksum of the last sound line: kept elsewhere, it shows a cut-off end."""
        return self._journal.chain.last.decode()

    def sync(self) -> None:
        """Return when all that is recorded is on the disk itself; StoreUnusable if unsure."""
        self._journal.sync()

    def give_back_room(self) -> None:
        """Leave the file as long as what stands in it: nothing follows for now."""
        self._storage.give_back_room()

    def close(self) -> None:
        """Give the file back; the next use reads it from the start."""
        self._journal.restart()
