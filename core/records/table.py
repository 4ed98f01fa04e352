"""TinyDB's table, journalling the documents that an operation changed and no others."""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterable, Iterator, Mapping, MutableMapping
from typing import Any, cast

from tinydb.queries import QueryLike
from tinydb.table import Document, Table

from core.records.slices import Fields
from core.records.storage import JournalStorage

Update = Mapping[str, Any] | Callable[[MutableMapping[str, Any]], None]


class _Working(MutableMapping[int, Mapping[str, Any]]):
    """A table as TinyDB's updaters see it; what they do stands in `changed` alone."""

    def __init__(self, docs: Mapping[str, Fields]) -> None:
        self._docs = docs
        self.changed: dict[str, Fields | None] = {}

    def __contains__(self, doc_id: object) -> bool:
        key = str(doc_id)
        return self.changed[key] is not None if key in self.changed else key in self._docs

    def __getitem__(self, doc_id: int) -> Document:
        key = str(doc_id)
        fields = self.changed[key] if key in self.changed else self._docs[key]
        if fields is None:
            raise KeyError(doc_id)
        return Document(fields, doc_id)

    def __setitem__(self, doc_id: int, fields: Mapping[str, Any]) -> None:
        if doc_id in self:
            raise ValueError(f"Document with ID {doc_id} already exists")
        self.change(doc_id, dict(fields))

    def __delitem__(self, doc_id: int) -> None:
        if doc_id not in self:
            raise KeyError(doc_id)
        self.changed[str(doc_id)] = None

    def __iter__(self) -> Iterator[int]:
        for key in self._docs:
            if key not in self.changed or self.changed[key] is not None:
                yield int(key)
        for key, fields in self.changed.items():
            if key not in self._docs and fields is not None:
                yield int(key)

    def __len__(self) -> int:
        return sum(1 for _ in self)

    def clear(self) -> None:
        self.changed = dict.fromkeys(self._docs)

    def change(self, doc_id: int, fields: Fields) -> None:
        """Set a document, there or not."""
        self.changed[str(doc_id)] = fields


class JournalTable(Table):
    """A table of a book. Each operation holds the latch and is durable when it returns.

    Numbers are given in order under the latch, and never twice, unlike stock TinyDB's
    after a removal. Results are never cached: other terminals write too.
    """

    def __init__(self, storage: JournalStorage, name: str) -> None:
        super().__init__(storage, name, cache_size=0)
        self._journal = storage
        self._working = _Working({})
        self._free = 0

    def insert(self, document: Mapping[str, Any]) -> int:
        with self._journal:
            self._free = self._journal.next_id(self.name)
            return super().insert(document)

    def insert_multiple(self, documents: Iterable[Mapping[str, Any]]) -> list[int]:
        with self._journal:
            self._free = self._journal.next_id(self.name)
            return super().insert_multiple(documents)

    def upsert(self, document: Mapping[str, Any], cond: QueryLike | None = None) -> list[int]:
        with self._journal:
            return super().upsert(document, cond)

    def update(
        self,
        fields: Update,
        cond: QueryLike | None = None,
        doc_ids: Iterable[int] | None = None,
    ) -> list[int]:
        return super().update(self._on_a_draft(fields), cond, doc_ids)

    def update_multiple(self, updates: Iterable[tuple[Update, QueryLike]]) -> list[int]:
        return super().update_multiple(
            [(self._on_a_draft(fields), cond) for fields, cond in updates]
        )

    def _on_a_draft(self, fields: Update) -> Callable[[MutableMapping[str, Any]], None]:
        """The update as one that leaves the table's own document alone and says it changed."""

        def update(seen: MutableMapping[str, Any]) -> None:
            draft = copy.deepcopy(dict(seen))
            if callable(fields):
                fields(draft)
            else:
                draft.update(fields)
            self._working.change(cast("Document", seen).doc_id, draft)

        return update

    def _get_next_id(self) -> int:
        self._free += 1
        return self._free - 1

    def _update_table(self, updater: Callable[[dict[int, Mapping[str, Any]]], None]) -> None:
        with self._journal:
            self._working = _Working(self._journal.contents.tables.get(self.name, {}))
            updater(cast("dict[int, Mapping[str, Any]]", self._working))
            if self._working.changed:
                self._journal.write({self.name: self._working.changed})
