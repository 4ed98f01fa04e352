"""Did the next day begin with what this one, corrected since, leaves behind?

A day's opening is written once, with its first entry: a late correction does not reach it.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import NamedTuple

from core.day.entries import Opening
from core.day.ledger import Ledger
from core.day.lots import LEFT_G
from core.desk.daybook import DayBook
from core.house.model import HouseBook
from core.house.numbering import bench_order
from core.records.folder import Folder

NAMED = 3
"""Lots and benches named before only their number is told."""

Lot = tuple[str, str]
"""A leaf and one of its lots."""


class Apart(NamedTuple):
    """What a day began with beyond what the day before leaves it (negative: short of it).

    Standard grams by leaf and lot, cigars on hold by bench.
    """

    lots: dict[Lot, float]
    held: dict[str, int]


def next_day_words(
    folder: Folder, date: dt.date, ledger: Ledger, houses: Mapping[int, HouseBook], version: int
) -> str:
    """In one sentence what the next day began with that is no longer so; empty where all is.

    A lot that was weighed on the next day stands as it was found, whatever that day began with.
    """
    following = min((day for day in folder.days() if day > date), default=None)
    if following is None:
        return ""
    after = DayBook(folder, following, houses).ledger
    if not after.opening["house"]:  # lost to damage: it is carried over anew when it is asked for
        return ""
    found = apart(ledger.carry(version), after.opening)
    open_lots = {lot: grams for lot, grams in found.lots.items() if not _weighed(after, lot)}
    return _words(following, Apart(open_lots, found.held))


def apart(left: Opening, began: Opening) -> Apart:
    """The lots and holds of an opening against those that the day before now leaves."""
    now, then = _lots(left), _lots(began)
    lots = {lot: then.get(lot, 0.0) - now.get(lot, 0.0) for lot in (now | then)}
    holds, held = left.get("held", {}), began.get("held", {})
    cigars = {n: held.get(n, 0) - holds.get(n, 0) for n in sorted(holds | held, key=bench_order)}
    return Apart(
        {lot: grams for lot, grams in lots.items() if abs(grams) >= LEFT_G},
        {number: n for number, n in cigars.items() if n},
    )


def _lots(opening: Opening) -> dict[Lot, float]:
    return {(lot["leaf"], lot["lot"]): lot["on_hand_g"] for lot in opening.get("lots", ())}


def _weighed(ledger: Ledger, lot: Lot) -> bool:
    leaf, name = lot
    entries = ledger.stock_entries(leaf)
    return any(e["kind"] == "stocktake" and e["lot"] == name for e in entries)


def _words(date: dt.date, found: Apart) -> str:
    lots = sorted(found.lots.items(), key=lambda one: -abs(one[1]))
    began = [f"{abs(grams):.0f} g {_than(grams)} of {' '.join(lot)}" for lot, grams in lots]
    right = [f"stock {' '.join(lot)} WEIGHT" for lot, _ in lots]
    for number, n in found.held.items():
        began.append(f"{abs(n)} {_than(n)} on hold at bench {number}")
        right.append(f"{number} release {n}" if n > 0 else f"{number} hold {-n} REASON")
    if not began:
        return ""
    return f"{date} began with {_first(began)}: set it right, once, with {_first(right)}"


def _than(n: float) -> str:
    return "more" if n > 0 else "less"


def _first(told: list[str]) -> str:
    more = f" and {len(told) - NAMED} more" if len(told) > NAMED else ""
    return ", ".join(told[:NAMED]) + more
