"""The lots of leaf in stock: what came, went out, came back and was found, in standard grams.

A day's opening carries what was on hand, so no earlier day is read. The leaf of a take or a
return that names no lot came from no lot, and is in none of these figures.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from core.day.calendar import local, working_day
from core.recipe.moisture import at_standard

if TYPE_CHECKING:  # a card from the shell reads the lots, but needs no types of entries
    from core.day.entries import CarriedLot, LeafEntry, ReceiveEntry, StocktakeEntry
    from core.day.ledger import Ledger

    StockMove = ReceiveEntry | StocktakeEntry | LeafEntry

LEFT_G = 1.0
"""A lot with less than this is used up: not a half-leaf (common practice, no source)."""


class LotState(NamedTuple):
    """A lot now. Grams at standard moisture; all but `on_hand_g` and `came_g` are the day's own.

    `received` is the day it first came; `came_g` all that ever came of it. By construction
    on hand = what the day began with + received + adjusted − issued + returned.
    """

    leaf: str
    lot: str
    received: dt.date
    crop: int | None = None
    bales: int | None = None
    price_per_kg: float | None = None
    received_g: float = 0.0
    issued_g: float = 0.0
    returned_g: float = 0.0
    adjusted_g: float = 0.0
    on_hand_g: float = 0.0
    came_g: float = 0.0

    @property
    def opening_g(self) -> float:
        """What the day began with."""
        return self.on_hand_g - self.received_g - self.adjusted_g + self.issued_g - self.returned_g

    @property
    def moved(self) -> bool:
        """Whether the day touched it."""
        return any((self.received_g, self.issued_g, self.returned_g, self.adjusted_g))


class LeafLots:
    """A leaf's lots as the day's entries come. It only grows: after a void take another.

    A lot of today stands as received on the last day there is, so that it is the newest.
    """

    def __init__(self, ledger: Ledger, leaf: str) -> None:
        self._leaf = leaf
        self._houses = ledger.houses
        began = (was for was in ledger.opening.get("lots", ()) if was["leaf"] == leaf)
        self._states = {was["lot"]: _opened(was) for was in began}
        for entry in ledger.stock_entries(leaf):
            self.add(entry)

    def add(self, entry: StockMove) -> None:
        """Take in the leaf's next entry; one that names no lot changes none."""
        lot = entry.get("lot")
        if lot is None:
            return
        standard = self._houses[entry["house"]].house.standard_moisture
        grams = at_standard(entry["grams"], standard, entry["moisture"])
        state = self._states.get(lot) or LotState(self._leaf, lot, _TODAY)
        self._states[lot] = _after(state, entry, grams)

    def state(self, lot: str) -> LotState | None:
        """That lot."""
        return self._states.get(lot)

    def oldest_first(self, date: dt.date | None = None) -> tuple[LotState, ...]:
        """By the day they came, then as they were first met; `date` is today's where it counts."""
        states = sorted(self._states.values(), key=_age)
        if date is None:
            return tuple(states)
        return tuple(s._replace(received=date) if s.received == _TODAY else s for s in states)


_TODAY = dt.date.max


def lots(ledger: Ledger, date: dt.date) -> dict[str, tuple[LotState, ...]]:
    """Every lot by leaf, oldest first: by the day it came, then in the journal's order.

    `date` is the ledger's day: that of the lots that first came on it.
    """
    found = ((leaf, ledger.lots(leaf).oldest_first(date)) for leaf in ledger.stocked())
    return {leaf: states for leaf, states in found if states}


def opening_lots(ledger: Ledger) -> dict[str, tuple[LotState, ...]]:
    """Every lot by leaf as the day began, oldest first."""
    by_leaf: dict[str, list[LotState]] = {}
    for was in ledger.opening.get("lots", ()):
        by_leaf.setdefault(was["leaf"], []).append(_opened(was))
    return {leaf: tuple(sorted(each, key=_age)) for leaf, each in by_leaf.items()}


def lots_of(ledger: Ledger, leaf: str) -> tuple[LotState, ...]:
    """One leaf's lots, oldest first; when they came is not told of today's."""
    return ledger.lots(leaf).oldest_first()


def in_use(states: Sequence[LotState]) -> LotState | None:
    """The lot of a leaf to be issued: the oldest with leaf left, else the newest."""
    left = (state for state in states if state.on_hand_g >= LEFT_G)
    return next(left, states[-1] if states else None)


def propose(ledger: Ledger, leaf: str, bench: str, kind: str) -> str | None:
    """The lot of a take or a back that names none; None where the leaf is in no lots.

    A take is of the oldest lot with leaf left, a return of the lot the bench last took.
    """
    if kind == "back":
        taken = last_take(ledger, bench, leaf)
        if taken is not None:
            return taken.get("lot")
    state = in_use(lots_of(ledger, leaf))
    return state.lot if state else None


def last_take(ledger: Ledger, bench: str, leaf: str) -> LeafEntry | None:
    """What the bench last took of the leaf today."""
    moves = reversed(ledger.bench(bench).leaf)
    return next((e for e in moves if e["kind"] == "take" and e["leaf"] == leaf), None)


def short_by(ledger: Ledger, leaf: str, lot: str, grams: float, moisture: float) -> float:
    """Standard grams by which taking `grams` of the lot now would make its stock negative.

    `moisture` is the leaf's, by the house-book version last named in the ledger; 0 where
    there is enough.
    """
    version = max((ledger.opening["house"], *ledger.versions)) or max(ledger.houses)
    asked_g = at_standard(grams, ledger.houses[version].house.standard_moisture, moisture)
    state = ledger.lots(leaf).state(lot)
    return max(0.0, asked_g - (state.on_hand_g if state else 0.0))


def carried(ledger: Ledger) -> list[CarriedLot]:
    """The lots the next day starts with: those with leaf left or short, and those moved today."""
    ordered = lots(ledger, _own_date(ledger))
    kept = (s for states in ordered.values() for s in states if s.moved or _counts(s.on_hand_g))
    return [_carried(state) for state in kept]


def _counts(grams: float) -> bool:
    return abs(grams) >= LEFT_G


def _age(state: LotState) -> dt.date:
    return state.received


def _own_date(ledger: Ledger) -> dt.date:
    """The ledger's day by its first entry; any will do where it has none."""
    first = next(iter(ledger.entries.values()), None)
    if first is None:
        return dt.date.min
    begins = ledger.houses[first["house"]].house.day_begins
    return working_day(local(first["at"], first["offset"]), begins)


def _after(state: LotState, entry: StockMove, grams: float) -> LotState:
    """The lot after the entry, which is of so many standard grams."""
    on_hand_g = state.on_hand_g
    if entry["kind"] == "receive":
        return _received(state, entry, grams)
    if entry["kind"] == "take":
        return state._replace(issued_g=state.issued_g + grams, on_hand_g=on_hand_g - grams)
    if entry["kind"] == "back":
        return state._replace(returned_g=state.returned_g + grams, on_hand_g=on_hand_g + grams)
    found_g = state.adjusted_g + grams - on_hand_g
    return state._replace(adjusted_g=found_g, on_hand_g=grams)


def _received(state: LotState, entry: ReceiveEntry, grams: float) -> LotState:
    """More of a lot adds to its bales; its price is then the mean of both, by weight."""
    bales = entry.get("bales")
    return state._replace(
        crop=entry.get("crop", state.crop),
        bales=state.bales if bales is None else bales + (state.bales or 0),
        price_per_kg=_price(state, entry, grams),
        received_g=state.received_g + grams,
        on_hand_g=state.on_hand_g + grams,
        came_g=state.came_g + grams,
    )


def _price(state: LotState, entry: ReceiveEntry, grams: float) -> float | None:
    new, was = entry.get("price_per_kg"), state.price_per_kg
    if new is None or was is None or not state.came_g + grams:
        return was if new is None else new
    return (was * state.came_g + new * grams) / (state.came_g + grams)


def _opened(was: CarriedLot) -> LotState:
    return LotState(
        leaf=was["leaf"],
        lot=was["lot"],
        received=dt.date.fromisoformat(was["received"]),
        crop=was.get("crop"),
        bales=was.get("bales"),
        price_per_kg=was.get("price_per_kg"),
        on_hand_g=was["on_hand_g"],
        came_g=was["received_g"],
    )


def _carried(state: LotState) -> CarriedLot:
    lot: CarriedLot = {
        "leaf": state.leaf,
        "lot": state.lot,
        "received": state.received.isoformat(),
        "received_g": state.came_g,
        "on_hand_g": state.on_hand_g,
    }
    if state.crop is not None:
        lot["crop"] = state.crop
    if state.bales is not None:
        lot["bales"] = state.bales
    if state.price_per_kg is not None:
        lot["price_per_kg"] = state.price_per_kg
    return lot
