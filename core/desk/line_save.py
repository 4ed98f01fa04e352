"""What was tried, written into the house book's own text: a new version of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from core.desk.load import examine
from core.desk.today import Today
from core.house.edit import with_copy, with_value
from core.house.model import HouseBook, Vitola
from core.house.stored import store
from core.line.change import Change
from core.line.keeping import Keeping, kept_house, resized_of
from core.problems import BadInput
from core.say import say

BY_HAND = say("change the file by hand and load it: bunchbook house load FILE")


class Written(NamedTuple):
    """A house book with changes, checked, and its text."""

    house: HouseBook
    text: str


def written(house: HouseBook, text: str, file: str, blend: str, keep: Keeping) -> Written:
    """The text of a house book with what is kept in it, and nothing else otherwise.

    The text is read again and must be the changed house exactly. BadInput for a text written
    otherwise than line by line, and for a house that breaks a rule.
    """
    wanted = kept_house(house, blend, keep)
    new: str | None = text
    if any(change.field == "parts" for change in keep.changes):
        parts = ", ".join(f'"{p.leaf}" = {_number(p.parts)}' for p in wanted.blend[blend].parts)
        new = with_value(text, "blend", blend, "parts", f"{{ {parts} }}")
    for change in keep.changes:
        if new is not None and change.field in ("half_leaf", "piece"):
            new = _with_leaf(new, change)
    for vitola in resized_of(keep.changes):
        if new is not None:
            new = _with_size(new, house.vitola[vitola], wanted.vitola[keep.new.get(vitola, vitola)])
    if new is None:
        raise BadInput(
            say("the house book's text is written in a way that hides it; {how}", how=BY_HAND)
        )
    return checked(wanted, new, file)


def checked(wanted: HouseBook, text: str, file: str) -> Written:
    """The text, if it is that house book exactly; BadInput says what keeps it from being."""
    read = examine(text, file)
    if read.problems:
        raise BadInput(*read.problems)
    if read.house is None or store(read.house) != store(wanted):
        raise BadInput(
            say("more than what was asked would change in the house book; {how}", how=BY_HAND)
        )
    return Written(read.house, text)


def put_in_force(today: Today, new: Written) -> int:
    """Load it as the next version after the one in force; which that is.

    BadInput where another was loaded meanwhile, StoreUnusable where the disk will not take it.
    """
    shelf, version = today.shelf, today.house_version
    shelf.follow()
    if shelf.version_at(None) != version:
        raise BadInput(say("another house book was loaded meanwhile; look at it and try again"))
    file = str(shelf.source(version)["file"])
    return shelf.load(new.house, new.text, file, today.now()).version


def _with_leaf(text: str, change: Change) -> str | None:
    value = _number(change.value)
    return with_value(
        text,
        "leaf",
        change.code,
        change.field,
        f'"{value} g"' if change.field == "half_leaf" else value,
    )


def _with_size(text: str, was: Vitola, of: Vitola) -> str | None:
    """The vitola with its new size; a copy of it where that has a code of its own."""
    values: list[tuple[str, str]] = []
    if of.ring != was.ring:
        values.append(("ring", _number(of.ring)))
    if of.length_mm != was.length_mm:
        values.append(("length", f'"{_number(of.length_mm)} mm"'))
    if of.profile != was.profile:
        values.append(("profile", _profile(of)))
    if of.code != was.code:
        return with_copy(text, "vitola", was.code, of.code, values)
    new: str | None = text
    for key, value in values:
        new = None if new is None else with_value(new, "vitola", was.code, key, value)
    return new


def _profile(of: Vitola) -> str:
    stations: Sequence[str] = [
        f'["{_number(station.at_mm)} mm", {_number(station.ring)}]' for station in of.profile
    ]
    return f"[{', '.join(stations)}]"


def _number(value: float) -> str:
    """The shortest text that is that number again."""
    return str(int(value)) if value == int(value) else repr(value)
