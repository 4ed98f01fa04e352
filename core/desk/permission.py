"""Who may do what: what asks for the house's PIN, where the house has one.

It keeps hands off; it is no safe. Whoever may write the data folder can get round it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from core.day.calendar import Clock
from core.day.room import Stamp
from core.desk.pin_tries import count, forgive, wrong_says
from core.desk.shelf import Shelf
from core.house.pin import LEAST_DIGITS, MOST_DIGITS, is_pin, is_right
from core.problems import BadInput, UserError
from core.records.folder import Folder
from core.say import say


class PinNeeded(UserError):
    """It was not done: it asks for the house's PIN, and none was given.

    `line` is what to enter with it where that is not the line as it was typed.
    """

    line = ""


class Permission:
    """The PIN of the house book in force, whatever time is asked about, and tries at it.

    `real` is the time it is: a wait must not be over because somebody asks as of later.
    """

    def __init__(self, folder: Folder, shelf: Shelf, real: Clock) -> None:
        self._folder = folder
        self._shelf = shelf
        self._real = real

    def needed(self) -> bool:
        """Whether the house has a PIN."""
        return self._kept() is not None

    def check(self, pin: str | None, says: str) -> None:
        """Go on, or raise: PinNeeded with `says` without a PIN, BadInput for a wrong one.

        StoreUnusable where the disk cannot count the try.
        """
        kept = self._kept()
        if kept is None:
            return
        if pin is None:
            raise PinNeeded(says)
        if not is_pin(pin):
            raise BadInput(NO_PIN)
        tries = count(self._folder, self._real().timestamp())
        if not is_right(pin, kept):
            raise BadInput(wrong_says(tries, self._real().timestamp()))
        forgive(self._folder)

    def _kept(self) -> str | None:
        newest = self._shelf.version_at(None)
        return self._shelf[newest].house.pin if newest else None


NO_PIN = say("a PIN is {least} to {most} digits", least=LEAST_DIGITS, most=MOST_DIGITS)
CHANGES_HOUSE = say("to change the house book")
CLOSES = say("to close the day")
REOPENS = say("to open the day again")


def is_anothers(entry: Mapping[str, Any], stamp: Stamp) -> bool:
    """Whether an entry is another's: of other initials, or of another terminal without them."""
    who = entry.get("who")
    if who and stamp.who:
        return bool(str(who).casefold() != stamp.who.casefold())
    return bool(entry["terminal"] != stamp.terminal)
