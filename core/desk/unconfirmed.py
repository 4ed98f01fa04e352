"""Lines that the disk did not confirm, and the event each may be recorded under all the same."""

from __future__ import annotations

import datetime as dt
import os
from typing import NamedTuple

RETRY_WITHIN = dt.timedelta(minutes=2)
"""How long the same line is the same entry tried again, and not a second one like it."""


class Try(NamedTuple):
    """The event a line is recorded under; `failed` when it was first not confirmed, if it was."""

    event: str
    failed: dt.datetime | None = None

    def late(self, now: dt.datetime) -> bool:
        """Whether the line, come again now, may as well be meant as another entry."""
        return self.failed is not None and abs(now - self.failed) > RETRY_WITHIN


class Unconfirmed:
    """One terminal's lines, each with the bench it was typed at, that were not confirmed."""

    def __init__(self) -> None:
        self._tries: dict[tuple[str, str | None], Try] = {}

    def next_try(self, line: str, at: str | None) -> Try:
        """The event to record the line under: its own where it was not confirmed before."""
        return self._tries.get((line, at)) or Try(os.urandom(8).hex())

    def keep(self, line: str, at: str | None, event: str, now: dt.datetime) -> None:
        """Remember the event of a line that was not confirmed, from when it first was not."""
        self._tries.setdefault((line, at), Try(event, now))

    def settle(self, line: str, at: str | None) -> None:
        """The line's event is safe on the disk: the same line is another from here on."""
        self._tries.pop((line, at), None)
