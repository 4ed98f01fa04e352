"""One table of a house book while it is read: each key asked for by kind, every fault noted."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping
from typing import Any, TypeVar

from core.house import limits
from core.house.amounts import SHARE, WEIGHT, Kind, Unreadable, parse, show
from core.house.codes import Holder, Holders, code_fault, code_key
from core.house.limits import Range
from core.house.model import Tolerance
from core.house.shown import kind_of, shown
from core.house.written import Written, take_apart
from core.nearest import nearest
from core.problems import Problem
from core.say import Said, joined, say

Choice = TypeVar("Choice", bound=str)
Made = TypeVar("Made", bound=tuple[object, ...])

QUOTED_TEXT = say("text in quotes")
NUMBER = say("a number")
ONE_OF = say("one of {known}")
SUCH_AS = say("{kind} such as {example}")
CODE_OF = say("the code of a [[{table}]]")
CODE_TAKEN = say('the code "{code}" is taken by entry {entry}; each must have its own')

LONGEST_NAME = 60
LONGEST_SHORT = 16
"""Codes of bunchers and rollers: what a column of the Board has room for."""


class Fields:
    """The keys of one table. A key that is absent or wrong reads as None, wrong ones noted."""

    def __init__(self, place: str, data: Mapping[str, object], entry: int = 1) -> None:
        """`place` begins the lines of problems; `entry` counts from 1 in a list of tables."""
        self.place = place
        self.entry = entry
        self.problems: list[Problem] = []
        self._data = data

    def wrong(self, says: Said) -> None:
        """Note a problem of this table."""
        self.problems.append(Problem(self.place, says))

    def has(self, key: str) -> bool:
        return key in self._data

    def raw(
        self, key: str, *, need: bool = False, like: Said = QUOTED_TEXT, **blanks: object
    ) -> object:
        """What stands there, as TOML gives it (it has no null); None if nothing does.

        `like` is what is expected where it must be there, to be filled in with the blanks.
        """
        if need and key not in self._data:
            expected = like.format(**blanks) if blanks else like
            self.wrong(say("{key} is missing; expected {like}", key=key, like=expected))
        return self._data.get(key)

    def only(self, known: Iterable[str]) -> None:
        """Note every key that is not `known`."""
        known = tuple(known)
        for key in self._data:
            if key not in known:
                self.wrong(_unknown_key(key, known))

    def make(self, model: type[Made], **values: object) -> Made | None:
        """The model of `values`, its own defaults for those that are None; None after a problem."""
        if self.problems:
            return None
        given: dict[str, Any] = {key: value for key, value in values.items() if value is not None}
        return model(**given)

    def text(
        self, key: str, longest: int, *, need: bool = False, like: Said = QUOTED_TEXT
    ) -> str | None:
        """Text of one printable line, blanks around it dropped."""
        value = self.raw(key, need=need, like=like)
        if value is None:
            return None
        if not isinstance(value, str):
            self.wrong(_no_text(key, value))
            return None
        text = unicodedata.normalize("NFC", value).strip()
        if not text:
            self.wrong(say("{key} is empty; give it or leave it out", key=key))
        elif len(text) > longest:
            self.wrong(say("{key} is longer than {longest} characters", key=key, longest=longest))
        elif not text.isprintable():
            self.wrong(
                say("{key} {text} has characters that cannot be shown", key=key, text=shown(text))
            )
        else:
            return text
        return None

    def choice(self, key: str, options: tuple[Choice, ...], *, need: bool = False) -> Choice | None:
        """One of `options`, exactly."""
        known = " | ".join(options)
        value = self.raw(key, need=need, like=ONE_OF, known=known)
        if value is None:
            return None
        for option in options:
            if option == value:
                return option
        near = nearest(value, options) if isinstance(value, str) else None
        self.wrong(_no_choice(key, known, shown(value), near))
        return None

    def number(self, key: str, within: Range, *, need: bool = False) -> float | None:
        """A plain number, without a unit."""
        value = self.raw(key, need=need, like=NUMBER)
        return None if value is None else self.as_number(key, value, within)

    def as_number(self, name: str, value: object, within: Range) -> float | None:
        """`value`, called `name` in messages, as a finite number in range."""
        if isinstance(value, bool) or not isinstance(value, int | float):
            self.wrong(
                say(
                    "{name} must be a number without quotes or unit, not {found}",
                    name=name,
                    found=shown(value),
                )
            )
        elif not within.low <= value <= within.high:
            low, high = f"{within.low:g}", f"{within.high:g}"
            self.wrong(_outside(name, shown(value), low, high))
        else:
            return float(value)
        return None

    def whole(self, key: str, within: Range) -> int | None:
        """A whole number."""
        value = self.raw(key)
        if value is None:
            return None
        number = self.as_number(key, value, within)
        if number is not None and number != int(number):
            self.wrong(
                say("{key} must be a whole number, not {found}", key=key, found=shown(value))
            )
            return None
        return None if number is None else int(number)

    def amount(self, key: str, kind: Kind, within: Range, *, need: bool = False) -> float | None:
        """An amount with a unit, in the unit of the model."""
        value = self.raw(key, need=need, like=SUCH_AS, kind=kind.name, example=kind.example)
        return None if value is None else self.as_amount(key, value, kind, within)

    def as_amount(self, name: str, value: object, kind: Kind, within: Range) -> float | None:
        """`value`, called `name` in messages, as an amount in range."""
        amount = parse(value, kind)
        if isinstance(amount, Unreadable):
            self.wrong(say("{name} {fault}", name=name, fault=amount.says))
            return None
        if within.low <= amount <= within.high:
            return amount
        low, high = show(within.low, kind), show(within.high, kind)
        found = show(amount, kind)
        if not isinstance(value, str):
            self.wrong(_bare_outside(name, found, low, high, kind.unit))
        else:
            typed = found if value == found else joined("", (found, " (", shown(value), ")"))
            self.wrong(_outside(name, typed, low, high))
        return None

    def tolerance(self, key: str) -> Tolerance | None:
        """A percentage of the target, or a weight: `"4 %"`, `"0.5 g"`."""
        value = self.raw(key)
        if value is None:
            return None
        written = take_apart(value) if isinstance(value, str) else None
        if not isinstance(written, Written) or written.unit in {"", "%"}:
            share = self.as_amount(key, value, SHARE, limits.TOLERANCE_SHARE)
            return None if share is None else Tolerance(share=share)
        grams = self.as_amount(key, value, WEIGHT, limits.TOLERANCE_G)
        return None if grams is None else Tolerance(grams=grams)

    def code(self, taken: Holders) -> str | None:
        """The table's own code: one the entry line can take, and the first to have it."""
        value = self.raw("code", need=True)
        if value is None:
            return None
        if not isinstance(value, str):
            self.wrong(_no_text("code", value))
            return None
        code = unicodedata.normalize("NFC", value)
        if fault := code_fault(code):
            self.wrong(say("code {code} {fault}", code=shown(code), fault=fault))
            return None
        return code if self.is_first(code, taken, CODE_TAKEN) else None

    def is_first(self, code: str, taken: Holders, says: Said) -> bool:
        """Whether no earlier entry of the list has `code`; `says` is noted if one has."""
        holder = taken.get(code_key(code))
        if holder is None or holder.place == self.entry:
            return True
        self.wrong(says.format(code=code, entry=holder.place))
        return False

    def reference(self, key: str, known: Holders, table: str, *, need: bool = True) -> str | None:
        """A code that one of the `[[table]]`s has, as it is spelled there."""
        value = self.raw(key, need=need, like=CODE_OF, table=table)
        if value is None:
            return None
        holder = self.as_reference(key, value, known, table)
        return holder.code if holder else None

    def as_reference(self, name: str, value: object, known: Holders, table: str) -> Holder | None:
        """Who has the code `value`, called `name` in messages."""
        if not isinstance(value, str):
            self.wrong(
                say(
                    "{name} must be the code of a [[{table}]] in quotes, not {found}",
                    name=name,
                    table=table,
                    found=shown(value),
                )
            )
            return None
        holder = known.get(code_key(value))
        if holder is None:
            near = nearest(value, (other.code for other in known.values()))
            self.wrong(_no_such_code(name, shown(value), table, near))
        return holder


def _unknown_key(key: str, known: tuple[str, ...]) -> Said:
    near = nearest(key, known)
    if near:
        return say("unknown key {key}; did you mean {near}?", key=shown(key), near=near)
    return say("unknown key {key}; known are {known}", key=shown(key), known=", ".join(known))


def _no_text(key: str, value: object) -> Said:
    return say(
        "{key} must be text in quotes, not {kind} ({found})",
        key=key,
        kind=kind_of(value),
        found=shown(value),
    )


def _no_choice(key: str, known: str, found: str, near: str | None) -> Said:
    if near:
        return say(
            "{key} must be {known}, not {found}; did you mean {near}?",
            key=key,
            known=known,
            found=found,
            near=shown(near),
        )
    return say("{key} must be {known}, not {found}", key=key, known=known, found=found)


def _outside(name: str, found: str, low: str, high: str) -> Said:
    return say(
        "{name} {found} is outside {low} to {high}", name=name, found=found, low=low, high=high
    )


def _bare_outside(name: str, found: str, low: str, high: str, unit: str) -> Said:
    return say(
        "{name} {found} is outside {low} to {high} (a bare number is in {unit})",
        name=name,
        found=found,
        low=low,
        high=high,
        unit=unit,
    )


def _no_such_code(name: str, code: str, table: str, near: str | None) -> Said:
    if near:
        return say(
            "{name} {code}: no [[{table}]] has that code; did you mean {near}?",
            name=name,
            code=code,
            table=table,
            near=shown(near),
        )
    return say("{name} {code}: no [[{table}]] has that code", name=name, code=code, table=table)
