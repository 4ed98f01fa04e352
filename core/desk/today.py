"""Today at one house: the house book in force, the day's book, and the cards that follow.

Apart from the desk so that a card asked for from the shell loads nothing of the entry line
or the day's report.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from core.day.calendar import Clock, stamp, working_day
from core.day.ledger import Ledger
from core.desk.daybook import DayBook
from core.desk.shelf import Shelf
from core.house.model import HouseBook
from core.house.numbering import bench_order
from core.problems import BadInput
from core.records.folder import Folder
from core.say import say

if TYPE_CHECKING:
    from core.day.bench import RunKey
    from core.recipe.card import Card
    from core.recipe.packing import Law

NO_HOUSE = say(
    "no house book is loaded yet; make one with: bunchbook house start, or load one with: "
    "bunchbook house load FILE"
)


class Today:
    """A working day on records that terminals write to, and what is rolled on it.

    `clock` gives aware local time. `date` holds it to one day's book; without it the next
    working day is turned to by itself. With `as_of` questions are answered as of the clock's
    time: later entries and house books are left out.
    """

    def __init__(
        self, folder: Path, clock: Clock, *, date: dt.date | None = None, as_of: bool = False
    ) -> None:
        self.now = clock
        self.folder = Folder(folder)
        self.shelf = Shelf(self.folder)
        self._date = date
        self._as_of = as_of
        self._unseen: set[str] = set()
        self._settle()

    # -- the house and the day ------------------------------------------------------------

    @property
    def house(self) -> HouseBook | None:
        """The house book in force, None before one is loaded."""
        return self.shelf[self.house_version] if self.house_version else None

    @property
    def loaded(self) -> HouseBook:
        """The house book in force; BadInput says how to load one where there is none."""
        if self.house is None:
            raise BadInput(NO_HOUSE)
        return self.house

    @property
    def day(self) -> dt.date:
        return self._book.date

    @property
    def data_folder(self) -> Path:
        """Where the records are."""
        return self.folder.path

    @property
    def ledger(self) -> Ledger:
        """The day's entries."""
        return self._book.ledger

    @property
    def closed(self) -> bool:
        return self.ledger.closed

    @property
    def damaged(self) -> int:
        """Lines of the day's book and of the house's records that cannot be read."""
        return self._book.damaged + self.shelf.damaged

    @property
    def division_g(self) -> float:
        """The division of the bench scales."""
        return self.loaded.house.scale_division_g

    def _today(self) -> dt.date:
        if self._date is not None:
            return self._date
        return self.day_of(self.now())

    def day_of(self, moment: dt.datetime) -> dt.date:
        """The house's working day at a moment."""
        begins = self.house.house.day_begins if self.house else "00:00"
        return working_day(moment, begins)

    def _version(self) -> int:
        return self.shelf.version_at(self.now() if self._as_of else None)

    def _settle(self) -> None:
        """Take the house version in force and the day's book, as of now."""
        self._laws: dict[tuple[int, str], Law] = {}
        self._packed: dict[RunKey, float] = {}
        self.house_version = self._version()
        until = stamp(self.now())[0] if self._as_of else None
        self._book = DayBook(self.folder, self._today(), self.shelf, until)
        if self.house_version:
            self._book.carry_in(self.house_version)
        self._forget()

    def _forget(self) -> None:
        """Let go of every figure that followed from the house, the day or its moistures."""
        self._cards: dict[tuple[str, str], Card] = {}

    def _forget_bench(self, number: str) -> None:
        """Let go of what was worked out for one bench; nothing here."""

    def follow(self) -> frozenset[str] | None:
        """Take in what other terminals recorded: the benches touched, "" for the whole day.

        What this terminal recorded since last asked is among them; None if nothing is new.
        """
        self._turn()
        self._book.follow()
        self._take_note()
        news = frozenset(self._unseen)
        self._unseen.clear()
        return news or None

    def _turn(self) -> None:
        """Turn to the house book and the working day in force."""
        loaded = self.shelf.follow() or self._version() != self.house_version
        if loaded or self._today() != self.day:
            self._settle()
            self._unseen.add("")

    def _take_note(self) -> None:
        """Forget the figures of benches with new entries; all of them when the day is touched."""
        touched = self._book.touched()
        if "" in touched:
            self._forget()
        for bench in touched:
            self._forget_bench(bench)
        self._unseen |= touched

    # -- what is rolled -------------------------------------------------------------------

    def card(self, number: str) -> Card:
        """The bench's card at today's moistures; BadInput says why there is none."""
        number = self.bench_number(number)
        seat = self.ledger.seat(number, self.house_version)
        return self.card_of(seat.blend, seat.vitola).at_bench(number)

    def bench_number(self, number: str) -> str:
        """The bench as the house book spells it; BadInput where there is none such."""
        house = self.loaded
        if number in house.bench:
            return number
        number = spelt(number, house.bench)
        if number not in house.bench:
            known = sorted(house.bench, key=bench_order)
            if not known:
                raise BadInput(
                    say("there is no bench {number} in the house book: it has none", number=number)
                )
            raise BadInput(
                say(
                    "there is no bench {number} in the house book; its benches: {first} to {last}",
                    number=number,
                    first=known[0],
                    last=known[-1],
                )
            )
        return number

    def card_of(self, blend: str, vitola: str) -> Card:
        """The card of a vitola in a blend at today's moistures, for no bench."""
        card = self._cards.get((blend, vitola))
        if card is None:
            from core.recipe.card import recipe_card  # noqa: PLC0415 - the Board shows none

            card = recipe_card(
                self.loaded,
                blend=blend,
                vitola=vitola,
                moistures=self.moistures(),
                law=self.law(blend),
            )
            self._cards[blend, vitola] = card
        return card

    def moistures(self) -> dict[str, float]:
        """Every leaf's moisture in force."""
        return self.ledger.moistures(self.house_version)

    def moisture_age(self, leaf: str) -> tuple[float, dt.datetime | None]:
        """The leaf's moisture in force, and when it was measured (None: the house book's)."""
        measured = self.ledger.moisture(leaf, self.house_version)
        when = dt.datetime.fromisoformat(measured.at) if measured.at else None
        return measured.moisture, when.astimezone(self.now().tzinfo) if when else None

    def law(self, blend: str, version: int | None = None) -> Law:
        """The blend's packing law, by the house book in force or an earlier version."""
        version = self.house_version if version is None else version
        if (version, blend) not in self._laws:
            from core.recipe.packing import fit  # noqa: PLC0415 - as above

            self._laws[version, blend] = fit(self.shelf[version], blend)
        return self._laws[version, blend]

    def filler_g(self, run: RunKey) -> float:
        """Filler per bunch, standard grams, of what was rolled."""
        if run not in self._packed:
            house = self.shelf[run.house]
            vitola = house.vitola.get(run.vitola)
            if vitola is None or run.blend not in house.blend:
                return 0.0  # damage took the house book that had it; the report says so
            from core.recipe.packing import packed  # noqa: PLC0415 - as above

            law = self.law(run.blend, run.house)
            self._packed[run] = packed(house, run.blend, vitola, law).filler_standard_g
        return self._packed[run]


def spelt(code: str, known: Iterable[str]) -> str:
    """The code as the house spells it; itself where the house has none like it."""
    return next((each for each in known if each.casefold() == code.casefold()), code)
