"""What was tried, written into the house book's own text: a new version of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from core.desk.load import examine
from core.desk.today import Today
from core.house.edit import with_value
from core.house.model import HouseBook
from core.house.stored import store
from core.line.change import Change
from core.line.whatif import changed_house
from core.problems import BadInput

BY_HAND = "change the file by hand and load it: bunchbook house load FILE"


class Written(NamedTuple):
    """A house book with changes, checked, and its text."""

    house: HouseBook
    text: str


def written(
    house: HouseBook, text: str, file: str, blend: str, changes: Sequence[Change]
) -> Written:
    """The text of a house book with the changes in it, and nothing else otherwise.

    The text is read again and must be the changed house exactly. BadInput says what of it
    cannot be kept: moisture, which is measured; a size whose approved bunches were of another;
    a text written otherwise than line by line; a house that breaks a rule.
    """
    _may_be_kept(house, changes)
    wanted = changed_house(house, blend, changes)
    new: str | None = text
    if any(change.field == "parts" for change in changes):
        parts = ", ".join(f'"{p.leaf}" = {p.parts!r}' for p in wanted.blend[blend].parts)
        new = with_value(text, "blend", blend, "parts", f"{{ {parts} }}")
    for change in changes:
        if new is not None and change.field != "parts":
            new = _with_change(new, change)
    if new is None:
        raise BadInput(f"the house book's text is written in a way that hides it; {BY_HAND}")
    return checked(wanted, new, file)


def checked(wanted: HouseBook, text: str, file: str) -> Written:
    """The text, if it is that house book exactly; BadInput says what keeps it from being."""
    read = examine(text, file)
    if read.problems:
        raise BadInput(*read.problems)
    if read.house is None or store(read.house) != store(wanted):
        raise BadInput(f"more than what was asked would change in the house book; {BY_HAND}")
    return Written(read.house, text)


def put_in_force(today: Today, new: Written) -> int:
    """Load it as the next version after the one in force; which that is.

    BadInput where another was loaded meanwhile, StoreUnusable where the disk will not take it.
    """
    shelf, version = today.shelf, today.house_version
    shelf.follow()
    if shelf.version_at(None) != version:
        raise BadInput("another house book was loaded meanwhile; look at it and try again")
    file = str(shelf.source(version)["file"])
    return shelf.load(new.house, new.text, file, today.now()).version


def _may_be_kept(house: HouseBook, changes: Sequence[Change]) -> None:
    approved = {entry.vitola for entry in house.approved}
    for change in changes:
        if change.field == "moisture":
            raise BadInput(f"{change.said}: moisture is measured; enter it as {change.code} 14.2%")
        if change.field in ("ring", "length") and change.code in approved:
            raise BadInput(
                f"{change.said}: the approved bunches of {change.code} were of another size; "
                "give the new size a code of its own"
            )


def _with_change(text: str, change: Change) -> str | None:
    table = "vitola" if change.field in ("ring", "length") else "leaf"
    unit = {"length": "mm", "half_leaf": "g"}.get(change.field)
    value = f'"{change.value!r} {unit}"' if unit else repr(change.value)
    return with_value(text, table, change.code, change.field, value)
