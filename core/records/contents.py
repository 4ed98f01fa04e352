"""What stands in a journal: its sound lines added up to tables."""

from __future__ import annotations

from core.records.lines import Damage, Sound
from core.records.slices import Change, Fields, all_added, body_of, changes_of
from core.say import say


class Contents:
    """`tables` as TinyDB has them, not to be changed by the caller; `changes` are all since the
    start, in the journal's order, for who follows; `odd` the sound lines that hold no record.
    `highest` is each table's highest number that ever was, `events` the number of the first
    document that carries an event, by table.
    """

    def __init__(self) -> None:
        self.tables: dict[str, dict[str, Fields]] = {}
        self.changes: list[Change] = []
        self.odd: list[Damage] = []
        self.highest: dict[str, int] = {}
        self.events: dict[str, dict[object, int]] = {}

    def take(self, lines: list[Sound]) -> None:
        """Add up the journal's next sound lines."""
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
        if documents is None:
            return self.add([(table, doc_id, fields)])
        self.changes.append((table, doc_id, fields))
        self.highest[table] = doc_id
        documents[str(doc_id)] = fields
        if type(event := fields.get("event")) is str:
            self.events[table].setdefault(event, doc_id)
        return None

    def add(self, changes: list[Change]) -> None:
        """Add up the next changes."""
        self.changes += changes
        name = None
        for table, doc_id, fields in changes:
            if table != name:
                name = table
                kept = self.tables.setdefault(table, {})
                events = self.events.setdefault(table, {})
                self.highest.setdefault(table, 0)
            key = str(doc_id)
            if doc_id > self.highest[table]:
                self.highest[table] = doc_id
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
