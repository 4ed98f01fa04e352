"""The day book against stock TinyDB in memory: the same operations, the same answers.

Two terminals take turns on the day book. One rule is the day book's own: it never gives a
number twice, where stock TinyDB gives a removed document's number again.
"""

from __future__ import annotations

import copy
import json
import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule
from tinydb import TinyDB, where
from tinydb.operations import add, delete, increment
from tinydb.storages import Storage
from tinydb.table import Document, Table

from core.problems import StoreUnusable
from core.records.folder import Folder
from core.records.table import JournalTable
from tests.records.books import DAY, day_book

BENCHES = st.sampled_from(["7", "7-A", "10"])
GRAMS = st.integers(0, 3) | st.sampled_from([0.5, 12.3])
ENTRY = st.fixed_dictionaries(
    {"bench": BENCHES, "grams": GRAMS},
    optional={
        "event": st.sampled_from(["a", "b", "c"]),
        "readings": st.lists(GRAMS, max_size=3),
        "faults": st.dictionaries(st.sampled_from(["soft", "hard"]), st.integers(1, 3)),
        "note": st.text(max_size=5) | st.none(),
    },
)
CONDITION = st.one_of(
    BENCHES.map(lambda bench: where("bench") == bench),
    GRAMS.map(lambda grams: where("grams") >= grams),
    st.just(where("faults").soft.exists()),
    st.just(where("readings").any([0, 1])),
)
NUMBERS = st.lists(st.integers(1, 12), max_size=4, unique=True)


class TextStorage(Storage):
    """What TinyDB's JSONStorage does, in memory: MemoryStorage lets documents share lists."""

    text = "null"

    def read(self) -> Any:
        return json.loads(self.text)

    def write(self, data: Any) -> None:
        self.text = json.dumps(data)


def contents(table: Table) -> list[tuple[int, dict[str, Any]]]:
    return [(entry.doc_id, dict(entry)) for entry in table.all()]


class DayBookAsTinyDB(RuleBasedStateMachine):
    """Two terminals on one day book, and the table they should seem to share."""

    @initialize()
    def open(self) -> None:
        self.place = tempfile.TemporaryDirectory()
        self.terminals = [Folder(Path(self.place.name)) for _ in range(2)]
        self.turn = 0
        self.stock = TinyDB(storage=TextStorage).table("entries", cache_size=0)
        self.given = 0

    @property
    def ours(self) -> Table:
        return self.terminals[self.turn].day(DAY).table("entries")

    @rule()
    def other_terminal(self) -> None:
        self.turn = 1 - self.turn

    @rule()
    def reopen(self) -> None:
        self.terminals[self.turn].close()
        self.terminals[self.turn] = Folder(Path(self.place.name))

    def took(self, entry: dict[str, Any], number: int) -> None:
        """A document that the day book numbered, put into the stock table as that."""
        assert number > self.given
        self.given = number
        self.stock.insert(Document(copy.deepcopy(entry), number))

    @rule(entry=ENTRY)
    def insert(self, entry: dict[str, Any]) -> None:
        self.took(entry, self.ours.insert(entry))

    @rule(entries=st.lists(ENTRY, max_size=4))
    def insert_multiple(self, entries: list[dict[str, Any]]) -> None:
        for entry, number in zip(entries, self.ours.insert_multiple(entries), strict=True):
            self.took(entry, number)

    @rule(entry=ENTRY, ahead=st.integers(1, 3))
    def insert_numbered(self, entry: dict[str, Any], ahead: int) -> None:
        number = self.given + ahead
        assert self.ours.insert(Document(entry, number)) == number
        self.took(entry, number)

    @rule(entry=ENTRY)
    def insert_over_another(self, entry: dict[str, Any]) -> None:
        for taken in self.stock.all()[:1]:
            for table in (self.ours, self.stock):
                with pytest.raises(ValueError, match="already exists"):
                    table.insert(Document(entry, taken.doc_id))
                with pytest.raises(ValueError, match="already exists"):
                    table.insert_multiple([Document(entry, taken.doc_id)])

    @rule(fields=ENTRY, condition=CONDITION)
    def update(self, fields: dict[str, Any], condition: Any) -> None:
        self.both(lambda table: table.update(copy.deepcopy(fields), condition))

    @rule(fields=ENTRY, numbers=NUMBERS)
    def update_numbered(self, fields: dict[str, Any], numbers: list[int]) -> None:
        self.both(lambda table: table.update(copy.deepcopy(fields), doc_ids=numbers))

    @rule(fields=ENTRY)
    def update_all(self, fields: dict[str, Any]) -> None:
        self.both(lambda table: table.update(copy.deepcopy(fields)))

    @rule(condition=CONDITION)
    def update_by_operations(self, condition: Any) -> None:
        self.both(lambda table: table.update(increment("grams"), condition))
        self.both(lambda table: table.update(add("grams", 1), condition))
        self.both(lambda table: table.update(delete("note"), where("note").exists()))

    @rule(condition=CONDITION)
    def update_within(self, condition: Any) -> None:
        def pad(entry: Any) -> None:
            entry.setdefault("readings", []).append(9)
            entry.setdefault("faults", {})["burst"] = 1

        self.both(lambda table: table.update(pad, condition))

    @rule(first=CONDITION, second=CONDITION, fields=ENTRY)
    def update_multiple(self, first: Any, second: Any, fields: dict[str, Any]) -> None:
        self.both(
            lambda table: table.update_multiple(
                [(copy.deepcopy(fields), first), (increment("grams"), second)]
            )
        )

    @rule(entry=ENTRY, condition=CONDITION)
    def upsert(self, entry: dict[str, Any], condition: Any) -> None:
        matched = self.stock.contains(condition)
        numbers = self.ours.upsert(entry, condition)
        if matched:
            assert numbers == self.stock.upsert(copy.deepcopy(entry), condition)
        else:
            self.took(entry, *numbers)

    @rule(entry=ENTRY, ahead=st.integers(-2, 2))
    def upsert_numbered(self, entry: dict[str, Any], ahead: int) -> None:
        number = max(1, self.given + ahead)
        self.both(lambda table: table.upsert(Document(copy.deepcopy(entry), number)))
        self.given = max(self.given, number)

    @rule(condition=CONDITION)
    def remove(self, condition: Any) -> None:
        self.both(lambda table: table.remove(condition))

    @rule(numbers=NUMBERS)
    def remove_numbered(self, numbers: list[int]) -> None:
        self.both(lambda table: table.remove(doc_ids=numbers))

    @rule()
    def truncate(self) -> None:
        self.both(lambda table: table.truncate())

    @rule(condition=CONDITION, number=st.integers(1, 12), numbers=NUMBERS)
    def ask(self, condition: Any, number: int, numbers: list[int]) -> None:
        self.both(lambda table: [(e.doc_id, dict(e)) for e in table.search(condition)])
        self.both(lambda table: table.get(condition))
        self.both(lambda table: table.get(doc_id=number))
        self.both(lambda table: table.get(doc_ids=numbers))
        self.both(lambda table: table.contains(condition))
        self.both(lambda table: table.contains(doc_id=number))
        self.both(lambda table: table.count(condition))

    def both(self, operation: Any) -> None:
        assert operation(self.ours) == operation(self.stock)

    @invariant()
    def same_contents(self) -> None:
        if not hasattr(self, "stock"):
            return
        for terminal in self.terminals:
            book = terminal.day(DAY)
            assert contents(book.table("entries")) == contents(self.stock)
            assert len(book.table("entries")) == len(self.stock)
            assert book.damage == ()

    def teardown(self) -> None:
        if hasattr(self, "place"):
            for terminal in self.terminals:
                terminal.close()
            self.place.cleanup()


TestDayBookAsTinyDB = DayBookAsTinyDB.TestCase
TestDayBookAsTinyDB.settings = settings(
    max_examples=25,
    stateful_step_count=30,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)


def test_an_update_that_fails_half_way_changes_nothing(tmp_path: Path) -> None:
    table = day_book(tmp_path).table("entries")
    table.insert_multiple([{"grams": 1}, {"grams": 2}, {"grams": "three"}])

    def half(entry: Any) -> None:
        entry["grams"] /= 2

    with pytest.raises(TypeError):
        table.update(half)
    assert [entry["grams"] for entry in table.all()] == [1, 2, "three"]
    assert [e["grams"] for e in day_book(tmp_path).table("entries").all()] == [1, 2, "three"]


def test_no_other_terminal_comes_between_an_upserts_look_and_its_insert(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    here, there = day_book(tmp_path), Folder(tmp_path, wait_s=0.0)
    look = JournalTable.update

    def look_and_be_disturbed(table: JournalTable, *args: Any) -> list[int]:
        found = look(table, *args)
        with pytest.raises(StoreUnusable):
            there.day(DAY).table("entries").insert({"bench": "7"})
        return found

    monkeypatch.setattr(JournalTable, "update", look_and_be_disturbed)
    assert here.table("entries").upsert({"bench": "7"}, where("bench") == "7") == [1]
    there.close()


def test_only_the_documents_that_changed_are_written(tmp_path: Path) -> None:
    book = day_book(tmp_path)
    table = book.table("entries")
    table.insert_multiple({"grams": n} for n in range(100))
    before = book.path.read_bytes()
    table.update({"late": True}, where("grams") == 7)
    table.remove(where("grams") == 8)
    table.update({"late": True}, where("grams") == 1000)
    table.insert_multiple([])
    added = book.path.read_bytes()[len(before) :].splitlines()
    assert [line[84:] for line in added] == [
        b'"set":{"entries":{"8":{"grams":7,"late":true}}}}',
        b'"set":{"entries":{"9":null}}}',
    ]


def test_a_batch_never_writes_over_a_number_it_gave(tmp_path: Path) -> None:
    table = day_book(tmp_path).table("entries")
    with pytest.raises(ValueError, match="already exists"):
        table.insert_multiple([Document({"grams": 1}, 1), {"grams": 2}])
    assert table.all() == []


def test_what_is_no_document_is_refused(tmp_path: Path) -> None:
    table = day_book(tmp_path).table("entries")
    with pytest.raises(ValueError, match="not a Mapping"):
        table.insert([1, 2])  # type: ignore[arg-type]
    assert table.insert({"grams": 1}) == 1
