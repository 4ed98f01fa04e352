"""Are the records sound? Every book of the data folder, line by line and entry by entry."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

from core.day.verify import examine
from core.desk.daybook import ENTRIES
from core.desk.shelf import Shelf
from core.house.model import Value
from core.problems import Problem
from core.records.folder import Folder
from core.records.verify import verify_journal


class Audit(Value):
    """The keys of `verify --json`.

    `repaired`: lines not written to their end and passed over, as a power cut leaves them
    before their entry is acknowledged. `problems`: lines damaged, edited or removed, and
    entries that do not fit.
    """

    sound: bool
    days: int
    entries: int
    repaired: tuple[str, ...]
    problems: tuple[str, ...]


def audit(path: Path) -> Audit:
    """Read everything, change nothing. StoreUnusable where the folder cannot be read."""
    folder = Folder(path)
    shelf = Shelf(folder)
    repaired: list[str] = []
    problems: list[Problem] = []
    _lines(folder.house().path, repaired, problems)
    days = folder.days()
    entries = 0
    for day in days:
        book = folder.day(day)
        _lines(book.path, repaired, problems)
        documents = _entries(folder, day)
        entries += len(documents)
        problems += examine(book.path.name, documents, set(shelf))
    return Audit(
        sound=not problems,
        days=len(days),
        entries=entries,
        repaired=tuple(repaired),
        problems=tuple(map(str, problems)),
    )


def _lines(path: Path, repaired: list[str], problems: list[Problem]) -> None:
    for damage in verify_journal(path).damage:
        if damage.kind == "torn":
            repaired.append(f"{path.name}: line {damage.line}: {damage.says}")
        else:
            problems.append(Problem(f"{path.name}: line {damage.line}", damage.says))


def _entries(folder: Folder, day: dt.date) -> list[tuple[int, dict[str, Any]]]:
    return [
        (number, document)
        for table, number, document in folder.day(day).news().changes
        if table == ENTRIES and document is not None
    ]
