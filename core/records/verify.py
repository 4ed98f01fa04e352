"""A journal read once from end to end, to say how sound it is."""

from __future__ import annotations

import time
from pathlib import Path
from typing import NamedTuple

from core.records.folder import open_book
from core.records.latch import Latch
from core.records.lines import Damage
from core.records.slices import Change

_WRITE_ENDS_S = 0.05


class JournalReport(NamedTuple):
    """What stands in a journal: lines, documents recorded or removed, what is damaged.

    `chain_sound` is false where lines were edited, removed, put in or put elsewhere.
    """

    lines: int
    records: int
    damage: tuple[Damage, ...]
    chain_sound: bool


def verify_journal(path: Path) -> JournalReport:
    """Read the journal at `path` (none reads as empty), changing nothing; StoreUnusable."""
    report, _ = read_journal(path)
    return report


def read_journal(path: Path) -> tuple[JournalReport, list[Change]]:
    """The same, with all its changes in its order."""
    book = open_book(path, Latch(path.parent / "latch"))
    changes = book.news().changes
    if any(each.kind == "torn" for each in book.damage):
        time.sleep(_WRITE_ENDS_S)  # another terminal may be in the middle of a write
        changes = book.news().changes
    broken = any(each.kind == "chain broken" for each in book.damage)
    report = JournalReport(book.lines, len(changes), book.damage, not broken)
    book.close()
    return report, changes
