"""The house's leaf: by leaf and lot what is on hand, what is out, how long it lasts."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import NamedTuple

from core.day.ledger import Ledger
from core.day.lots import LEFT_G, LotState, in_use, lots
from core.house.model import HouseBook
from core.stock.benches import OnBench, on_benches
from core.stock.need import CardOf, Plan, added, issued_for_one, known, loss_of, plans


class LeafStock(NamedTuple):
    """One leaf. Grams at standard moisture; issued and returned are today's.

    `on_hand_g` None where the leaf is kept in no lots. `planned_g` is what a day of the
    planned quota takes, `needed_g` what the rest of today's does beside what lies on the
    benches; `short_g` what of that is not on hand. `cover_days` = on hand ÷ planned.
    `out_at` is when a leaf that is short is gone from house and benches by today's pace.
    """

    leaf: str
    leaf_class: str
    moisture: float
    measured: str | None
    lots: tuple[LotState, ...]
    on_hand_g: float | None
    issued_g: float
    returned_g: float
    on_benches_g: float
    planned_g: float
    needed_g: float
    short_g: float
    cover_days: float | None
    out_at: dt.datetime | None

    @property
    def lot(self) -> LotState | None:
        """The lot to be issued."""
        return in_use(self.lots)


class Shortage(NamedTuple):
    """A leaf that runs out: at a bench, or (None) in the whole house."""

    leaf: str
    leaf_class: str
    bench: str | None
    at: dt.datetime | None
    short_g: float | None


class Stock(NamedTuple):
    """Every leaf that is stocked, planned or out; what runs out; benches without a plan.

    `unplanned` are benches that have a quota but nothing that can be rolled.
    """

    leaves: tuple[LeafStock, ...]
    benches: tuple[OnBench, ...]
    shortages: tuple[Shortage, ...]
    quotas: int
    unplanned: tuple[str, ...]

    @property
    def overdrawn(self) -> tuple[LotState, ...]:
        """The lots of which more went out than there was."""
        every = (lot for row in self.leaves for lot in row.lots)
        return tuple(lot for lot in every if lot.on_hand_g <= -LEFT_G)


def stock(
    ledger: Ledger,
    house: HouseBook,
    version: int,
    card: CardOf,
    date: dt.date,
    now: dt.datetime,
) -> Stock:
    """The stock as of `now` on the ledger's `date`, with `version` of the house in force."""
    planned = plans(ledger, house, version)
    benches = on_benches(ledger, house, planned, card, now)
    day_g, unplanned = _day_g(planned, house, card)
    states = lots(ledger, date)
    by_leaf: dict[str, list[OnBench]] = {}
    for bench in benches:
        by_leaf.setdefault(bench.leaf, []).append(bench)
    leaves: list[LeafStock] = []
    for code, leaf in house.leaf.items():
        out, kept = by_leaf.get(code, []), states.get(code, ())
        if not out and not kept and code not in day_g:
            continue
        measured = ledger.moisture(code, version)
        leaf_class = leaf.leaf_class if leaf.use == "filler" else leaf.use
        row = LeafStock(
            code, leaf_class, measured.moisture, measured.at, kept, None,
            0.0, 0.0, 0.0, day_g.get(code, 0.0), 0.0, 0.0, None, None,
        )  # fmt: skip
        leaves.append(_filled(row, out, now))
    shortages = tuple(sorted(_short(leaves, benches), key=_urgency))
    quotas = sum(plan.quota is not None for plan in planned)
    return Stock(tuple(leaves), benches, shortages, quotas, unplanned)


def _day_g(
    planned: Sequence[Plan], house: HouseBook, card: CardOf
) -> tuple[dict[str, float], tuple[str, ...]]:
    """What a day of the quotas takes by leaf, and the benches it cannot be told of."""
    day_g: dict[str, float] = {}
    unplanned: list[str] = []
    for plan in planned:
        if plan.quota is None:
            continue
        rolls = known(card, plan.blend, plan.vitola)
        if rolls is None:
            unplanned.append(plan.bench)
        else:
            added(issued_for_one(rolls, loss_of(house)), plan.quota, day_g)
    return day_g, tuple(unplanned)


def _filled(row: LeafStock, out: Sequence[OnBench], now: dt.datetime) -> LeafStock:
    """The leaf with its sums over lots and benches."""
    on_hand_g = sum(lot.on_hand_g for lot in row.lots) if row.lots else None
    needed_g = sum(max(0.0, (b.needed_g or 0.0) - max(0.0, b.left_g)) for b in out)
    short_g = 0.0 if on_hand_g is None else max(0.0, needed_g - max(0.0, on_hand_g))
    hourly_g = sum(b.hourly_g or 0.0 for b in out)
    left_g = max(0.0, on_hand_g or 0.0) + sum(max(0.0, b.left_g) for b in out)
    cover = on_hand_g is not None and row.planned_g > 0
    return row._replace(
        on_hand_g=on_hand_g,
        issued_g=sum(b.issued_g for b in out),
        returned_g=sum(b.returned_g for b in out),
        on_benches_g=sum(b.left_g for b in out),
        needed_g=needed_g,
        short_g=short_g,
        cover_days=max(0.0, on_hand_g or 0.0) / row.planned_g if cover else None,
        out_at=now + dt.timedelta(hours=left_g / hourly_g) if short_g and hourly_g else None,
    )


def _short(leaves: Sequence[LeafStock], benches: Sequence[OnBench]) -> list[Shortage]:
    classes = {row.leaf: row.leaf_class for row in leaves}
    found = [
        Shortage(row.leaf, row.leaf_class, None, row.out_at, row.short_g)
        for row in leaves
        if row.short_g
    ]
    found += [
        Shortage(row.leaf, classes.get(row.leaf, ""), row.bench, row.out_at, None)
        for row in benches
        if row.out_at is not None
    ]
    return found


def soonest(shortages: Sequence[Shortage]) -> tuple[Shortage, ...]:
    """The house's shortages, and of each bench the leaf that runs out first, by when."""
    benches: dict[str | None, Shortage] = {}
    for short in shortages:
        if short.bench is not None:
            benches.setdefault(short.bench, short)
    return (*(short for short in shortages if short.bench is None), *benches.values())


def _urgency(short: Shortage) -> tuple[bool, float]:
    """The house first, then by when."""
    return short.bench is not None, short.at.timestamp() if short.at else 0.0
