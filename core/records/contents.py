"""What stands in a journal: its sound lines added up to tables."""

from __future__ import annotations

import threading

from core.records.lines import Damage, Sound
from core.records.slices import Change, Fields, all_added, body_of, changes_of
from core.say import say


class Contents:
    """`changes` are all since the start, in the journal's order, for who follows; `odd` the sound
    lines that hold no record.

    What writers ask for is made of the changes when it is first asked for: who only looks at a
    long day does not wait for it.
    """

    def __init__(self) -> None:
        self.changes: list[Change] = []
        self.odd: list[Damage] = []
        self._settled = 0
        self._lock = threading.Lock()
        self._tables: dict[str, dict[str, Fields]] = {}
        self._highest: dict[str, int] = {}
        self._events: dict[str, dict[object, int]] = {}

    @property
    def tables(self) -> dict[str, dict[str, Fields]]:
        """The tables as TinyDB has them, not to be changed by the caller."""
        self.settle()
        return self._tables

    @property
    def highest(self) -> dict[str, int]:
        """Each table's highest number that ever was."""
        self.settle()
        return self._highest

    @property
    def events(self) -> dict[str, dict[object, int]]:
        """The number of the first document that carries an event, by table."""
        self.settle()
        return self._events

    def take(self, lines: list[Sound]) -> None:
        """Go on with the journal's next sound lines."""
        changes = all_added([line for _, line in lines])
        self.add(self._one_by_one(lines) if changes is None else changes)

    def _one_by_one(self, lines: list[Sound]) -> list[Change]:
        changes: list[Change] = []
        for number, line in lines:
            try:
                changes += list(changes_of(body_of(line)))
            except (KeyError, TypeError, ValueError, AttributeError):
                says = say("its checksum is right, but it is no record")
                self.odd.append(Damage(number, "not JSON", says))
        return changes

    def add_new(self, table: str, doc_id: int, fields: Fields) -> None:
        """Add up the document that was just given the table's next number."""
        documents = self.tables.get(table)
        self.changes.append((table, doc_id, fields))
        if documents is None:
            return
        self._settled += 1
        self._highest[table] = doc_id
        documents[str(doc_id)] = fields
        if type(event := fields.get("event")) is str:
            self._events[table].setdefault(event, doc_id)

    def add(self, changes: list[Change]) -> None:
        """Go on with the next changes."""
        self.changes += changes

    def settle(self) -> None:
        """Add up the changes that have not been yet."""
        if self._settled == len(self.changes):
            return
        with self._lock:
            fresh = self.changes[self._settled :]
            self._add_up(fresh)
            self._settled += len(fresh)

    def _add_up(self, fresh: list[Change]) -> None:
        name = None
        for table, doc_id, fields in fresh:
            if table != name:
                name = table
                kept = self._tables.setdefault(table, {})
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
