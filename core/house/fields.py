"""One table of a house book while it is read: each key asked for by kind, every fault noted."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping
from typing import Any, TypeVar

from core.house import limits
from core.house.amounts import SHARE, WEIGHT, Kind, Unreadable, parse, show
from core.house.codes import Holder, Holders, code_fault, code_key
from core.house.limits import Range
from core.house.model import Tolerance, Value
from core.house.shown import kind_of, shown
from core.house.written import Written, take_apart
from core.nearest import nearest
from core.problems import Problem

Choice = TypeVar("Choice", bound=str)
Made = TypeVar("Made", bound=Value)

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

    def wrong(self, says: str) -> None:
        """Note a problem of this table."""
        self.problems.append(Problem(self.place, says))

    def has(self, key: str) -> bool:
        return key in self._data

    def raw(self, key: str, *, need: bool = False, like: str = "") -> object:
        """What stands there, as TOML gives it (it has no null); None if nothing does."""
        if need and key not in self._data:
            self.wrong(f"{key} is missing; expected {like}")
        return self._data.get(key)

    def only(self, known: Iterable[str]) -> None:
        """Note every key that is not `known`."""
        known = tuple(known)
        for key in self._data:
            if key not in known:
                near = nearest(key, known)
                hint = f"did you mean {near}?" if near else f"known are {', '.join(known)}"
                self.wrong(f"unknown key {shown(key)}; {hint}")

    def make(self, model: type[Made], **values: object) -> Made | None:
        """The model of `values`, its own defaults for those that are None; None after a problem."""
        if self.problems:
            return None
        given: dict[str, Any] = {key: value for key, value in values.items() if value is not None}
        return model(**given)

    def text(
        self, key: str, longest: int, *, need: bool = False, like: str = "text in quotes"
    ) -> str | None:
        """Text of one printable line, blanks around it dropped."""
        value = self.raw(key, need=need, like=like)
        if value is None:
            return None
        if not isinstance(value, str):
            self.wrong(f"{key} must be text in quotes, not {kind_of(value)} ({shown(value)})")
            return None
        text = unicodedata.normalize("NFC", value).strip()
        if not text:
            self.wrong(f"{key} is empty; give it or leave it out")
        elif len(text) > longest:
            self.wrong(f"{key} is longer than {longest} characters")
        elif not text.isprintable():
            self.wrong(f"{key} {shown(text)} has characters that cannot be shown")
        else:
            return text
        return None

    def choice(self, key: str, options: tuple[Choice, ...], *, need: bool = False) -> Choice | None:
        """One of `options`, exactly."""
        listed = " | ".join(options)
        value = self.raw(key, need=need, like=f"one of {listed}")
        if value is None:
            return None
        for option in options:
            if option == value:
                return option
        near = nearest(value, options) if isinstance(value, str) else None
        hint = f"; did you mean {shown(near)}?" if near else ""
        self.wrong(f"{key} must be {listed}, not {shown(value)}{hint}")
        return None

    def number(self, key: str, within: Range, *, need: bool = False) -> float | None:
        """A plain number, without a unit."""
        value = self.raw(key, need=need, like="a number")
        return None if value is None else self.as_number(key, value, within)

    def as_number(self, name: str, value: object, within: Range) -> float | None:
        """`value`, called `name` in messages, as a finite number in range."""
        if isinstance(value, bool) or not isinstance(value, int | float):
            self.wrong(f"{name} must be a number without quotes or unit, not {shown(value)}")
        elif not within.low <= value <= within.high:
            self.wrong(f"{name} {shown(value)} is outside {within.low:g} to {within.high:g}")
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
            self.wrong(f"{key} must be a whole number, not {shown(value)}")
            return None
        return None if number is None else int(number)

    def amount(self, key: str, kind: Kind, within: Range, *, need: bool = False) -> float | None:
        """An amount with a unit, in the unit of the model."""
        value = self.raw(key, need=need, like=f"{kind.name} such as {kind.example}")
        return None if value is None else self.as_amount(key, value, kind, within)

    def as_amount(self, name: str, value: object, kind: Kind, within: Range) -> float | None:
        """`value`, called `name` in messages, as an amount in range."""
        amount = parse(value, kind)
        if isinstance(amount, Unreadable):
            self.wrong(f"{name} {amount.says}")
            return None
        if within.low <= amount <= within.high:
            return amount
        bare = f" (a bare number is in {kind.unit})" if not isinstance(value, str) else ""
        low, high = show(within.low, kind), show(within.high, kind)
        found = show(amount, kind)
        typed = f" ({shown(value)})" if isinstance(value, str) and value != found else ""
        self.wrong(f"{name} {found}{typed} is outside {low} to {high}{bare}")
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
        value = self.raw("code", need=True, like="text in quotes")
        if value is None:
            return None
        if not isinstance(value, str):
            self.wrong(f"code must be text in quotes, not {kind_of(value)} ({shown(value)})")
            return None
        code = unicodedata.normalize("NFC", value)
        if fault := code_fault(code):
            self.wrong(f"code {shown(code)} {fault}")
            return None
        return code if self.is_first(f"the code {shown(code)}", code, taken) else None

    def is_first(self, name: str, code: str, taken: Holders) -> bool:
        """Whether no earlier entry of the list has `code`; noted if one has."""
        holder = taken.get(code_key(code))
        if holder is None or holder.place == self.entry:
            return True
        self.wrong(f"{name} is taken by entry {holder.place}; each must have its own")
        return False

    def reference(self, key: str, known: Holders, table: str, *, need: bool = True) -> str | None:
        """A code that one of the `[[table]]`s has, as it is spelled there."""
        value = self.raw(key, need=need, like=f"the code of a [[{table}]]")
        if value is None:
            return None
        holder = self.as_reference(key, value, known, table)
        return holder.code if holder else None

    def as_reference(self, name: str, value: object, known: Holders, table: str) -> Holder | None:
        """Who has the code `value`, called `name` in messages."""
        if not isinstance(value, str):
            self.wrong(f"{name} must be the code of a [[{table}]] in quotes, not {shown(value)}")
            return None
        holder = known.get(code_key(value))
        if holder is None:
            near = nearest(value, (other.code for other in known.values()))
            hint = f"; did you mean {shown(near)}?" if near else ""
            self.wrong(f"{name} {shown(value)}: no [[{table}]] has that code{hint}")
        return holder
