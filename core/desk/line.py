"""The Line at one desk: the blend looked at, what is tried on it, and the figures of both."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from core.desk.leaf_yield import measured_yield
from core.desk.line_stock import Stocked, plan_says, short, stocked
from core.desk.today import Today, spelt
from core.entry.tokens import fold
from core.entry.words import WITHOUT
from core.house.model import Blend, HouseBook
from core.line.change import Change, read_changes
from core.line.curve import Drawn, filler_drawn
from core.line.keeping import Keeping, keeping, keeping_says
from core.line.leaf_limits import Band
from core.line.new_parts import NewParts, NoParts, new_parts, not_in
from core.line.plan import Plan, read_plan
from core.line.sheet import LineSheet, line_sheet
from core.line.whatif import WhatIf, what_if
from core.problems import BadInput
from core.recipe.influence import Influence, influences
from core.say import Said, joined, say

if TYPE_CHECKING:
    from core.desk.line_save import Written

SAVE = frozenset({"save", "guarda"})
"""Typed after the word that tries: what is tried is to be kept."""
AS = frozenset({"as", "como"})
"""Before the code under which a changed size is to be saved."""

Found = NewParts | NoParts | BadInput
"""What a search for new parts ends with; a BadInput says why it cannot be begun."""


class Trial(NamedTuple):
    """What is tried on a blend: changes, and leaf to do without. `said` as it was typed.

    `stock` is what there was for the plan as it was typed; `code` is what a changed size is to
    be saved as, None where nobody says.
    """

    said: str
    version: int
    house: HouseBook
    blend: str
    changes: tuple[Change, ...]
    without: tuple[str, ...]
    stock: Stocked
    code: str | None

    def seek(self) -> Found:
        """New parts without that leaf; slow the first time, for SciPy is imported then."""
        try:
            found = new_parts(self.house, self.blend, self.without, self.stock.within(Band()))
        except BadInput as problem:
            return problem
        return found._replace(notes=(*found.notes, *self.stock.notes))


class LineShown(NamedTuple):
    """The sheet of the blend looked at, and beside it what is tried.

    `found` are the new parts without some leaf, None while `trial` waits for them; `tried` is
    None with nothing to try, and where there are no new parts. `plan` says for how much
    production stock is told, None where for none; `short` of which leaf the blend, as it is
    tried where it is, has less than that needs. New parts are short of none.
    """

    sheet: LineSheet
    influence: tuple[Influence, ...]
    drawn: Drawn
    trial: Trial | None
    found: Found | None
    tried: WhatIf | None
    plan: Said | None
    short: tuple[Said, ...]


class _Base(NamedTuple):
    """Today's sheet with what it was worked out from."""

    version: int
    moistures: dict[str, float]
    leaf_yield: float | None
    sheet: LineSheet
    influence: tuple[Influence, ...]
    drawn: Drawn


class _Tried(NamedTuple):
    """What is tried with its figures, and the picture of both."""

    sheets: WhatIf
    drawn: Drawn


class Line:
    """Which blend a desk looks at, and what it tries; nothing of it is recorded."""

    def __init__(self, today: Today) -> None:
        self._today = today
        self._blend = ""
        self._trial: Trial | None = None
        self._found: Found | None = None
        self._yield: tuple[dt.date, float | None] | None = None
        self._base: _Base | None = None
        self._tried: tuple[_Base, Trial, Found | None, _Tried | None] | None = None

    @property
    def blend(self) -> str:
        """The blend looked at; BadInput where the house has none."""
        house = self._today.loaded
        return self._blend if self._blend in house.blend else _most_rolled(self._today, house)

    def look_at(self, blend: str = "") -> str:
        """Look at a blend, the one that most benches roll where none is told; its code."""
        self._blend = blend
        self._blend = self.blend
        self._yield = None
        self.drop()
        return self._blend

    def drop(self) -> bool:
        """Go back to the blend as it is today; whether anything was tried."""
        tried = self._trial is not None
        self._trial = self._found = self._tried = None
        return tried

    def is_to_save(self, text: str) -> bool:
        """Whether what is tried is to be kept, rather than something to be tried."""
        return fold(text) in SAVE

    def would(self, text: str) -> str:
        """What there is to try in a text, in words; BadInput says why it cannot be."""
        if self.is_to_save(text):
            return self.saving()
        trial = self._read(text)
        said: list[str] = []
        if trial.without:
            said.append(say("without {leaf}", leaf=joined(", ", trial.without)))
        said += [change.said for change in trial.changes]
        if (plan := plan_says(trial.stock)) is not None and trial.stock.plan != Plan():
            said.append(plan)
        if trial.code is not None:
            said.append(say("to be saved as {code}", code=trial.code))
        return say(
            "try in {blend}: {changes}; nothing is saved",
            blend=trial.blend,
            changes=joined(", ", said),
        )

    def try_out(self, text: str) -> None:
        """Try what the text says, in place of what was tried; BadInput says why it cannot be."""
        trial = self._read(text)
        before = self._trial, self._found
        self._trial, self._found = trial, None
        try:
            self.shown()
        except BadInput:
            self._trial, self._found = before
            raise
        self._blend = trial.blend

    def to_save(self) -> Written:
        """The house book with what is tried, checked; BadInput says why it cannot be saved."""
        from core.desk.line_save import written  # noqa: PLC0415 - a floor saves seldom

        blend, keep = self._keeping()
        source = self._today.shelf.source(self._today.house_version)
        return written(self._today.loaded, source["toml"], source["file"], blend, keep)

    def saving(self) -> str:
        """What saving would do, in words."""
        self.to_save()
        return keeping_says(self._today.loaded, self._keeping()[1])

    def _keeping(self) -> tuple[str, Keeping]:
        """The blend, and what of the changes tried on it a house book can keep."""
        shown = self.shown()
        if shown.tried is None or shown.trial is None:
            raise BadInput(
                say("nothing is tried that could be saved; try something, as try LI-2=1.5")
            )
        house, changes = self._today.loaded, shown.tried.changes
        return shown.trial.blend, keeping(house, changes, shown.trial.code)

    def settle(self, trial: Trial, found: Found) -> None:
        """Take what a search ended with, unless something else is tried by now."""
        if trial is self._trial:
            self._found = found

    def shown(self) -> LineShown:
        """The figures as of now; BadInput says why there are none."""
        base = self._based()
        trial = self._trial
        if trial is not None and trial.version != base.version:
            self._trial = self._found = None
            trial = self._trial = self._read(trial.said)
        tried = None if trial is None else self._tried_out(base, trial)
        stock = stocked(self._today, self.blend, Plan() if trial is None else trial.stock.plan)
        blend = self._today.loaded.blend[self.blend] if tried is None else tried.sheets.blend
        return LineShown(
            base.sheet,
            base.influence,
            base.drawn if tried is None else tried.drawn,
            trial,
            self._found,
            None if tried is None else tried.sheets,
            plan_says(stock),
            () if trial is not None and trial.without else short(stock, blend.shares),
        )

    def _based(self) -> _Base:
        today, blend = self._today, self.blend
        key = (today.house_version, today.moistures(), self._leaf_yield())
        base = self._base
        if base is None or base[:3] != key or base.sheet.blend != blend:
            house = today.loaded
            sheet = line_sheet(house, blend, key[1], law=today.law(blend), leaf_yield=key[2])
            found = influences(house, blend, sheet.law)
            base = self._base = _Base(*key, sheet, found, filler_drawn(house, sheet))
        return base

    def _leaf_yield(self) -> float | None:
        day = self._today.day
        if self._yield is None or self._yield[0] != day:
            self._yield = (day, measured_yield(self._today))
        return self._yield[1]

    def _tried_out(self, base: _Base, trial: Trial) -> _Tried | None:
        if self._tried is None or self._tried[:3] != (base, trial, self._found):
            self._tried = (base, trial, self._found, self._what_if(base, trial))
        return self._tried[3]

    def _what_if(self, base: _Base, trial: Trial) -> _Tried | None:
        changes = trial.changes
        if not changes and not trial.without:
            return None
        if trial.without:
            if not isinstance(self._found, NewParts):
                return None
            changes = (*changes, *self._found.changes())
        sheets = what_if(
            trial.house,
            trial.blend,
            changes,
            base.moistures,
            law=base.sheet.law,
            leaf_yield=base.leaf_yield,
            today=base.sheet,
        )
        return _Tried(sheets, filler_drawn(trial.house, base.sheet, sheets.changed))

    def _read(self, text: str) -> Trial:
        house, blend = self._today.loaded, self.blend
        words, code = _named(text.split())
        words, plan = read_plan(words)
        out: tuple[str, ...] = ()
        if words and fold(words[0]) in WITHOUT:
            out = _leaves(
                [word for word in words[1:] if "=" not in word], house, house.blend[blend]
            )
            words = tuple(word for word in words[1:] if "=" in word)
        changes = read_changes(words, house)
        if out and any(change.field == "parts" for change in changes):
            raise BadInput(say("new parts are found for it; leave out changes of parts"))
        if not out and not changes and plan == Plan():
            raise BadInput(say("nothing to try; say what, as LI-2=1.5 or without LI-2"))
        if code is not None:
            keeping(house, changes, code)
        stock = stocked(self._today, blend, plan)
        return Trial(text, self._today.house_version, house, blend, changes, out, stock, code)


def _named(words: Sequence[str]) -> tuple[tuple[str, ...], str | None]:
    """The words without a code at their end that a changed size is to be saved as, and that."""
    if len(words) > 1 and fold(words[-2]) in AS:
        return tuple(words[:-2]), words[-1]
    return tuple(words), None


def _leaves(words: Iterable[str], house: HouseBook, blend: Blend) -> tuple[str, ...]:
    codes = " ".join(words).replace(",", " ").split()
    if not codes:
        raise BadInput(
            say(
                "expected leaf of {blend} to do without: {leaf}",
                blend=blend.code,
                leaf=joined(", ", blend.shares),
            )
        )
    leaves = tuple(dict.fromkeys(spelt(code, house.filler) for code in codes))
    if strangers := [leaf for leaf in leaves if leaf not in blend.shares]:
        raise BadInput(not_in(blend, strangers))
    return leaves


def _most_rolled(today: Today, house: HouseBook) -> str:
    """The blend that most benches roll now, the house book's first of equals."""
    if not house.blend:
        raise BadInput(
            say("the house book has no blend; enter one as a [[blend]] and load it again")
        )
    seats = (today.ledger.seat(number, today.house_version).blend for number in house.bench)
    times = Counter(seats)
    return max(house.blend, key=lambda code: times[code])
