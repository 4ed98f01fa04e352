"""Late corrections: what was recorded after a day was first closed."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import takewhile
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from core.day.entries import Entry
    from core.day.ledger import Ledger


def is_late(entry: Entry, ledger: Ledger) -> bool:
    """Whether the entry corrects a day that had been closed; its closings and openings do not."""
    return 0 < ledger.first_closed < entry["id"] and entry["kind"] not in ("close", "reopen")


def since_close(ledger: Ledger) -> tuple[Entry, ...]:
    """All entries after the first close in their order, with closings and openings again."""
    first = ledger.first_closed
    if not first:
        return ()
    newest_first: Iterable[Entry] = reversed(ledger.entries.values())
    found = list(takewhile(lambda entry: entry["id"] > first, newest_first))
    return tuple(reversed(found))
