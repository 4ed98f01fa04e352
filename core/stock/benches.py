"""What leaf lies on each bench now, how fast it goes, and when it runs out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import NamedTuple, cast

from core.day.bench import BenchTally
from core.day.books import bunches
from core.day.calendar import local
from core.day.ledger import Ledger
from core.house.model import HouseBook
from core.recipe.moisture import at_standard
from core.stock.need import CardOf, Plan, added, in_one, issued_for_one, known, loss_of

LEAST_PACE = dt.timedelta(minutes=15)
"""A bench that began later than this has no pace yet (common practice, no source)."""
NEAR = dt.timedelta(hours=4)
"""Without a quota a bench is told of what runs out within half a shift (common practice)."""
SLACK_G = 1e-6


class OnBench(NamedTuple):
    """A leaf at a bench, standard grams. `left_g` = issued − returned − used by bunches made.

    `hourly_g` is what the bench uses by its pace today, `needed_g` what the rest of its quota
    needs; None where unknown. `out_at` is when the leaf runs out, where that is too early.
    """

    bench: str
    leaf: str
    issued_g: float
    returned_g: float
    left_g: float
    hourly_g: float | None
    needed_g: float | None
    out_at: dt.datetime | None


def on_benches(
    ledger: Ledger, house: HouseBook, plans: tuple[Plan, ...], card: CardOf, now: dt.datetime
) -> tuple[OnBench, ...]:
    """Every leaf that moved at a bench today, or that its quota needs, in the plans' order."""
    began = _began(ledger)
    found: list[OnBench] = []
    for plan in plans:
        found += _at(plan, ledger, house, card, began.get(plan.bench), now)
    return tuple(found)


def _began(ledger: Ledger) -> dict[str, dt.datetime]:
    """When each bench had its first live entry today."""
    first: dict[str, dt.datetime] = {}
    for number, entry in ledger.entries.items():
        bench = cast(str, entry.get("bench", ""))
        if bench and bench not in first and ledger.live(number):
            first[bench] = local(entry["at"], entry["offset"])
    return first


def _at(
    plan: Plan,
    ledger: Ledger,
    house: HouseBook,
    card: CardOf,
    began: dt.datetime | None,
    now: dt.datetime,
) -> list[OnBench]:
    tally = ledger.bench(plan.bench)
    issued_g, returned_g = _moved(tally, ledger.houses)
    used_g: dict[str, float] = {}
    for key, run in tally.runs.items():
        rolled = known(card, key.blend, key.vitola)
        added(in_one(rolled) if rolled else {}, bunches(run), used_g)
    made = sum(map(bunches, tally.runs.values()))
    rolls = known(card, plan.blend, plan.vitola)
    for_one = issued_for_one(rolls, loss_of(house)) if rolls else {}
    hourly = _pace(made, began, now)
    rest = None if plan.quota is None else max(0, plan.quota - made)
    rows: list[OnBench] = []
    for leaf in dict.fromkeys((*for_one, *issued_g, *returned_g)):
        out_g, back_g = issued_g.get(leaf, 0.0), returned_g.get(leaf, 0.0)
        one_g, moved = for_one.get(leaf, 0.0), leaf in issued_g or leaf in returned_g
        row = OnBench(
            plan.bench,
            leaf,
            out_g,
            back_g,
            out_g - back_g - used_g.get(leaf, 0.0) if moved else 0.0,
            None if hourly is None else hourly * one_g,
            None if rest is None else rest * one_g,
            None,
        )
        rows.append(row._replace(out_at=_out_at(row, now)) if moved else row)
    return rows


def had_today(ledger: Ledger) -> dict[tuple[str, str], float]:
    """What each bench has had of each leaf, issued less returned, standard grams."""
    had: dict[tuple[str, str], float] = {}
    for bench in ledger.benches():
        issued_g, returned_g = _moved(ledger.bench(bench), ledger.houses)
        for leaf in {**issued_g, **returned_g}:
            had[bench, leaf] = issued_g.get(leaf, 0.0) - returned_g.get(leaf, 0.0)
    return had


def _moved(
    tally: BenchTally, houses: Mapping[int, HouseBook]
) -> tuple[dict[str, float], dict[str, float]]:
    """Issued to the bench and returned from it, by leaf, standard grams."""
    issued_g: dict[str, float] = {}
    returned_g: dict[str, float] = {}
    for entry in tally.leaf:
        standard = houses[entry["house"]].house.standard_moisture
        grams = at_standard(entry["grams"], standard, entry["moisture"])
        added({entry["leaf"]: grams}, 1.0, issued_g if entry["kind"] == "take" else returned_g)
    return issued_g, returned_g


def _pace(made: int, began: dt.datetime | None, now: dt.datetime) -> float | None:
    """Bunches an hour since the bench's first entry; None where it is too early to tell."""
    if began is None or not made or now - began < LEAST_PACE:
        return None
    return made / ((now - began) / dt.timedelta(hours=1))


def _out_at(row: OnBench, now: dt.datetime) -> dt.datetime | None:
    """When the bench has none left by its pace, where its quota, or half a shift, needs more."""
    enough = row.needed_g is not None and row.left_g >= row.needed_g - SLACK_G
    if enough or not row.hourly_g:
        return None
    at = now + dt.timedelta(hours=max(0.0, row.left_g) / row.hourly_g)
    return None if row.needed_g is None and at - now > NEAR else at
