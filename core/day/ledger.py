"""The day's entries in the journal's order, with voids applied, ready to be asked.

What a bench rolls and how wet its leaf is can be asked without adding anything up, so what
adds up is imported with the first tally: a card from the shell asks for none.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, NamedTuple, cast

from core.house.model import HouseBook

if TYPE_CHECKING:
    from core.day.bench import BenchTally
    from core.day.entries import (
        BenchEntry,
        CarriedSeat,
        Entry,
        LeafEntry,
        MoistureEntry,
        Opening,
        ReadingEntry,
        RollEntry,
        StockEntry,
        SweepEntry,
        UndoEntry,
    )
    from core.day.lots import LeafLots


class Seat(NamedTuple):
    """What a bench rolls."""

    blend: str
    vitola: str
    quota: int | None


class Measured(NamedTuple):
    """A leaf's moisture in force; `at` None when it is the house book's own figure."""

    moisture: float
    at: str | None


class Ledger:
    """Entries of one working day as they are recorded, here or at another terminal.

    A bench's tally, or a leaf's, is made when first asked for, grows with its entries, and is
    made anew when one of them is voided. `houses` holds every house-book version that an
    entry may name, `versions` those that the entries do name; `notes` are the notes' numbers.
    """

    def __init__(self, houses: Mapping[int, HouseBook], opening: Opening | None = None) -> None:
        self.houses = houses
        self.opening: Opening = opening or {"house": 0, "seats": {}, "moistures": {}}
        self.entries: dict[int, Entry] = {}
        self.undone: dict[int, UndoEntry] = {}
        self.closed = False
        self.reopened = 0
        self.first_closed = 0
        self.notes: list[int] = []
        self.versions: set[int] = set()
        self._bench: dict[str, list[int]] = {}
        self._tallies: dict[str, BenchTally] = {}
        self._rolls: dict[str, list[int]] = {}
        self._moistures: dict[str, list[int]] = {}
        self._mine: dict[str, list[int]] = {}
        self._readings: dict[int, list[int]] = {}
        self._stock: dict[str, list[int]] = {}
        self._lots: dict[str, LeafLots] = {}
        self._swept: list[int] = []
        self._held: set[str] = set()

    def add(self, entry: Entry) -> str:
        """Take in the next entry; returns the bench it touches, or "" for the whole day."""
        number = entry["id"]
        self.entries[number] = entry
        self.versions.add(entry["house"])
        if entry["kind"] == "undo":
            return self._void(entry)
        if entry["kind"] == "close" or entry["kind"] == "reopen":
            self.closed = entry["kind"] == "close"
            self.reopened += not self.closed
            self.first_closed = self.first_closed or number
            return ""
        self._mine.setdefault(entry["terminal"], []).append(number)
        if entry["kind"] == "moisture":
            self._moistures.setdefault(entry["leaf"], []).append(number)
            return ""
        if entry["kind"] == "note":
            self.notes.append(number)
            return entry.get("bench", "")
        if entry["kind"] == "receive" or entry["kind"] == "stocktake":
            self._add_to_stock(entry)
            return ""
        if entry["kind"] == "sweepings":
            self._swept.append(number)
            return ""
        return self._add_at_bench(entry)

    def _add_at_bench(self, entry: BenchEntry) -> str:
        number, bench = entry["id"], entry["bench"]
        self._bench.setdefault(bench, []).append(number)
        if bench in self._tallies:
            self._tallies[bench].add(entry)
        if entry["kind"] == "roll":
            self._rolls.setdefault(bench, []).append(number)
        elif entry["kind"] == "take" or entry["kind"] == "back":
            self._add_to_stock(entry)
        elif entry["kind"] == "hold":
            self._held.add(bench)
        elif entry["kind"] == "reading":
            self._readings.setdefault(entry["check"], []).append(number)
        return bench

    def _add_to_stock(self, entry: StockEntry | LeafEntry) -> None:
        leaf = entry["leaf"]
        self._stock.setdefault(leaf, []).append(entry["id"])
        if leaf in self._lots:
            self._lots[leaf].add(entry)

    def _void(self, undo: UndoEntry) -> str:
        voided = self.entries.get(undo["voids"])
        if voided is None or voided["kind"] in ("undo", "close", "reopen"):
            return ""
        self.undone.setdefault(undo["voids"], undo)
        bench = cast(str, voided.get("bench", ""))
        self._tallies.pop(bench, None)
        self._lots.pop(cast(str, voided.get("leaf", "")), None)
        return bench

    @property
    def latest(self) -> int:
        """The number of the last entry; 0 before the first."""
        return next(reversed(self.entries), 0)

    def live(self, number: int) -> bool:
        """Whether the day has this entry and nothing voids it."""
        return number in self.entries and number not in self.undone

    def benches(self) -> tuple[str, ...]:
        """The benches with entries today, in the order they first had one."""
        return tuple(self._bench)

    def bench(self, number: str) -> BenchTally:
        """What the bench's live entries add up to."""
        found = self._tallies.get(number)
        if found is None:
            from core.day.bench import BenchTally

            ids = self._bench.get(number, ())
            live = (self.entries[i] for i in ids if i not in self.undone)
            found = BenchTally(self.houses, cast("Iterable[BenchEntry]", live))
            self._tallies[number] = found
        return found

    def sweepings(self) -> list[SweepEntry]:
        """The room's sweepings that stand."""
        live = (self.entries[i] for i in self._swept if i not in self.undone)
        return cast("list[SweepEntry]", list(live))

    def stock_entries(self, leaf: str) -> list[StockEntry | LeafEntry]:
        """What stands of the leaf received, found on hand, issued and returned, in order."""
        live = (self.entries[i] for i in self._stock.get(leaf, ()) if i not in self.undone)
        return cast("list[StockEntry | LeafEntry]", list(live))

    def stocked(self) -> tuple[str, ...]:
        """The leaves that the day began with in lots or has moved since, as first met."""
        began = (lot["leaf"] for lot in self.opening.get("lots", ()))
        return tuple(dict.fromkeys((*began, *self._stock)))

    def lots(self, leaf: str) -> LeafLots:
        """What the leaf's live entries make of its lots."""
        found = self._lots.get(leaf)
        if found is None:
            from core.day.lots import LeafLots

            found = self._lots[leaf] = LeafLots(self, leaf)
        return found

    def held(self, bench: str) -> int:
        """Cigars of the bench on hold, those of earlier days with them."""
        today = sum([run.held for run in self.bench(bench).runs.values()])
        return max(0, self.opening.get("held", {}).get(bench, 0) + today)

    def nth(self, reading: ReadingEntry) -> int:
        """The reading's place in its check, from 1."""
        earlier = self._readings.get(reading["check"], ())
        return 1 + sum(i < reading["id"] and i not in self.undone for i in earlier)

    def last_of(self, terminal: str) -> int | None:
        """The terminal's last entry that can be undone."""
        mine = self._mine.get(terminal, ())
        return next((i for i in reversed(mine) if i not in self.undone), None)

    def seat(self, bench: str, version: int) -> Seat:
        """What the bench rolls under house-book `version`: its last roll, else the book.

        A roll stands until a later house book says something else of that bench than the
        one it was made under.
        """
        book = self.houses[version].bench[bench]
        seat = Seat(book.blend, book.vitola, book.quota)
        carried = self.opening["seats"].get(bench)
        if carried and self._stands(bench, carried, version):
            seat = Seat(carried["blend"], carried["vitola"], carried["quota"])
        for number in self._rolls.get(bench, ()):
            roll = cast("RollEntry", self.entries[number])
            if number not in self.undone and self._stands(bench, roll, version):
                seat = Seat(roll["blend"], roll["vitola"], roll.get("quota", seat.quota))
        return seat

    def moisture(self, leaf: str, version: int) -> Measured:
        """The leaf's moisture in force under `version`: last measured, else the book's."""
        for number in reversed(self._moistures.get(leaf, ())):
            entry = cast("MoistureEntry", self.entries[number])
            if number not in self.undone and self._same_leaf(leaf, entry["house"], version):
                return Measured(entry["moisture"], entry["at"])
        carried = self.opening["moistures"].get(leaf)
        if carried and self._same_leaf(leaf, carried["house"], version):
            return Measured(carried["moisture"], carried["at"])
        return Measured(self.houses[version].leaf[leaf].moisture, None)

    def moistures(self, version: int) -> dict[str, float]:
        """Every leaf's moisture in force."""
        return {leaf: self.moisture(leaf, version).moisture for leaf in self.houses[version].leaf}

    def _stands(self, bench: str, roll: RollEntry | CarriedSeat, now: int) -> bool:
        """Whether a roll made under an earlier house book still holds under this one."""
        if roll["house"] == now:
            return True
        was, house = self.houses.get(roll["house"]), self.houses[now]
        return (
            was is not None
            and was.bench.get(bench) == house.bench[bench]
            and roll["vitola"] in house.vitola
            and roll["blend"] in house.blend
        )

    def _same_leaf(self, leaf: str, then: int, now: int) -> bool:
        if then == now:
            return True
        was = self.houses.get(then)
        known = was.leaf.get(leaf) if was else None
        return known is not None and known.moisture == self.houses[now].leaf[leaf].moisture

    def carry(self, version: int) -> Opening:
        """What the next day starts from."""
        house = self.houses[version]
        opening: Opening = {"house": version, "seats": {}, "moistures": {}}
        for bench in house.bench:
            seat = self.seat(bench, version)
            book = house.bench[bench]
            if seat != Seat(book.blend, book.vitola, book.quota):
                opening["seats"][bench] = {**seat._asdict(), "house": version}  # type: ignore[typeddict-item]
        for leaf in house.leaf:
            measured = self.moisture(leaf, version)
            if measured.at is not None:
                opening["moistures"][leaf] = {
                    "moisture": measured.moisture,
                    "at": measured.at,
                    "house": version,
                }
        self._carry_stock(opening)
        return opening

    def _carry_stock(self, opening: Opening) -> None:
        """The lots on hand and the cigars on hold, where there are any."""
        if self._stock or "lots" in self.opening:
            from core.day.lots import carried

            opening["lots"] = carried(self)
        held = {bench: self.held(bench) for bench in self._may_hold()}
        if any(held.values()):
            opening["held"] = {bench: n for bench, n in held.items() if n}

    def _may_hold(self) -> set[str]:
        return {*self.opening.get("held", {}), *self._held}
