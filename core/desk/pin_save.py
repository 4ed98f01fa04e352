"""The house's PIN set, changed or taken away: a new version of the house book."""

from __future__ import annotations

import os

from core.day.calendar import Clock
from core.desk.line_save import BY_HAND, checked, put_in_force
from core.desk.permission import CHANGES_HOUSE, NO_PIN, Permission
from core.desk.today import Today
from core.house.edit import with_house_key
from core.house.pin import hashed, is_pin
from core.problems import BadInput
from core.say import say


def set_pin(today: Today, real: Clock, new: str | None, pin: str | None) -> int:
    """Set the house's PIN, or take it away, in a new version of the house book; which that is.

    `pin` is the one in force. BadInput where that is wrong, where `new` is no PIN, and where
    the house book's text hides its [house].
    """
    if new is not None and not is_pin(new):
        raise BadInput(NO_PIN)
    house = today.loaded
    if new is None and house.house.pin is None:
        raise BadInput(say("the house has no PIN"))
    kept = None if new is None else hashed(new, os.urandom(16))
    source = today.shelf.source(today.house_version)
    wanted = house._replace(house=house.house._replace(pin=kept))
    text = with_house_key(source["toml"], "pin", None if kept is None else f'"{kept}"')
    if text is None:
        raise BadInput(
            say("the house book's text is written in a way that hides it; {how}", how=BY_HAND)
        )
    made = checked(wanted, text, source["file"])
    Permission(today.folder, today.shelf, real).check(pin, CHANGES_HOUSE)
    return put_in_force(today, made)
