"""A house book from its text: the house, or every problem in it; and what is odd about it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple, TypeVar

from core.house import limits
from core.house.approved import read_approved
from core.house.benches import read_bench
from core.house.blends import read_blend
from core.house.codes import Known, holders
from core.house.excise import read_excise
from core.house.fields import Fields
from core.house.house_rules import read_house_rules
from core.house.leaves import read_leaf
from core.house.model import Excise, HouseBook, HouseRules, Leaf
from core.house.odd import oddities
from core.house.places import SINGLE, entry_place, heading
from core.house.rules import broken_rules
from core.house.shown import kind_of, shown
from core.house.toml import toml_tables
from core.house.vitolas import read_vitola
from core.nearest import nearest
from core.problems import Problem
from core.say import Said, joined, say

Made = TypeVar("Made")
Entry = Mapping[str, object]
Lists = Mapping[str, list[Entry]]
LISTS = ("leaf", "blend", "vitola", "approved", "bench")


class Read(NamedTuple):
    """What a text came to. `house` is None exactly where there are problems."""

    house: HouseBook | None
    problems: tuple[Problem, ...]
    odd: tuple[Problem, ...]


def read_house(text: bytes | str, file: str) -> Read:
    """The house book in `text`; `file` is what problems call it. Nothing a text holds raises."""
    data = toml_tables(text, file)
    if isinstance(data, Problem):
        return Read(None, (data,), ())
    reading = _Reading(file)
    house = reading.house_book(data)
    if house is None or reading.problems:
        return Read(None, tuple(reading.problems), ())
    if broken := broken_rules(house):
        return Read(None, _in_file(file, broken), ())
    return Read(house, (), _in_file(file, oddities(house)))


def _in_file(file: str, problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    return tuple(Problem(joined(": ", (file, place)), says) for place, says in problems)


class _Reading:
    """One file while it is read: the problems found so far, in its tables' order."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.problems: list[Problem] = []

    def house_book(self, data: Entry) -> HouseBook | None:
        """The house of the tables that could be read; whole only where no problem was noted."""
        self._unknown_tables(data)
        rules = self._house_rules(data)
        excise: Excise | None = self._one("excise", data, read_excise)
        lists = {name: self._entries(data, name) for name in LISTS}
        known = Known(
            leaf=holders(lists["leaf"], "code"),
            blend=holders(lists["blend"], "code"),
            vitola=holders(lists["vitola"], "code"),
            bench=holders(lists["bench"], "number"),
        )
        leaves: tuple[Leaf, ...] = self._each("leaf", lists, known, read_leaf)
        blends = self._each("blend", lists, known, read_blend)
        vitolas = self._each("vitola", lists, known, read_vitola)
        approved = self._each("approved", lists, known, read_approved)
        benches = self._each("bench", lists, known, read_bench)
        if rules is None:
            return None
        return HouseBook(
            house=rules,
            excise=excise,
            leaves=leaves,
            blends=blends,
            vitolas=vitolas,
            approved=approved,
            benches=benches,
        )

    def _unknown_tables(self, data: Entry) -> None:
        tables = (*SINGLE, *LISTS)
        for name, value in data.items():
            if name in tables:
                continue
            near = nearest(name, tables)
            if isinstance(value, dict | list):
                self._wrong(_unknown_table(shown(name), near))
            else:
                self._wrong(
                    say("key {key} stands above every table; put it under [house]", key=shown(name))
                )

    def _house_rules(self, data: Entry) -> HouseRules | None:
        if "house" not in data:
            self._wrong(say("has no [house]; a house book begins with it"))
        return self._one("house", data, read_house_rules)

    def _one(self, name: str, data: Entry, read: Callable[[Fields], Made | None]) -> Made | None:
        """What a table there is only one of says; None where it is not there."""
        value, head = data.get(name), heading(name)
        if value is None:
            return None
        if not isinstance(value, dict):
            self._wrong(
                say(
                    "{head} must be one table headed {head}, not {found}",
                    head=head,
                    found=kind_of(value),
                )
            )
            return None
        fields = Fields(f"{self.file}: {head}", value)
        made = read(fields)
        self.problems += fields.problems
        return made

    def _entries(self, data: Entry, name: str) -> list[Entry]:
        """The tables of one list; whatever stands there instead is noted."""
        value = data.get(name, [])
        if isinstance(value, dict):
            self._wrong(
                say("[{name}] needs two brackets, [[{name}]]: there can be several", name=name)
            )
            return [value]
        if not isinstance(value, list):
            self._wrong(
                say(
                    "{name} must be tables headed [[{name}]], not {found}",
                    name=name,
                    found=kind_of(value),
                )
            )
            return []
        if len(value) > limits.ENTRIES:
            self._wrong(
                say(
                    "[[{name}]]: {entries} entries; at most {most} are read",
                    name=name,
                    entries=len(value),
                    most=limits.ENTRIES,
                )
            )
            return []
        entries: list[Entry] = [entry for entry in value if isinstance(entry, dict)]
        if len(entries) < len(value):
            self._wrong(
                say(
                    "{name} must be tables headed [[{name}]]; other things are among them",
                    name=name,
                )
            )
        return entries

    def _each(
        self,
        name: str,
        lists: Lists,
        known: Known,
        read: Callable[[Fields, Known], Made | None],
    ) -> tuple[Made, ...]:
        made: list[Made] = []
        for number, entry in enumerate(lists[name], start=1):
            code = entry.get("number" if name == "bench" else "code")
            place = entry_place(name, number, None if name == "approved" else code)
            fields = Fields(joined(": ", (self.file, place)), entry, number)
            value = read(fields, known)
            self.problems += fields.problems
            if value is not None:
                made.append(value)
        return tuple(made)

    def _wrong(self, says: Said) -> None:
        self.problems.append(Problem(self.file, says))


def _unknown_table(name: str, near: str | None) -> Said:
    if near:
        return say("unknown table {table}; did you mean {near}?", table=name, near=heading(near))
    return say("unknown table {table}; known are {known}", table=name, known=_headings())


def _headings() -> str:
    return ", ".join(map(heading, (*SINGLE, *LISTS)))
