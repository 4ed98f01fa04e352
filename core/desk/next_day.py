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
from core.say import joined, say

NAMED = 3
"""Lots and benches named before only their number is told."""

_MORE_LEAF = say("{grams:.0f} g more of {lot}")
_LESS_LEAF = say("{grams:.0f} g less of {lot}")
_MORE_HELD = say("{n} more on hold at bench {bench}")
_LESS_HELD = say("{n} less on hold at bench {bench}")
_RELEASE = say("{bench} release {n}")
_HOLD = say("{bench} hold {n} REASON")

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
    began: list[str] = [
        (_MORE_LEAF if grams > 0 else _LESS_LEAF).format(grams=abs(grams), lot=" ".join(lot))
        for lot, grams in lots
    ]
    right: list[str] = [say("stock {lot} WEIGHT", lot=" ".join(lot)) for lot, _ in lots]
    for number, n in found.held.items():
        held, typed = (_MORE_HELD, _RELEASE) if n > 0 else (_LESS_HELD, _HOLD)
        began.append(held.format(n=abs(n), bench=number))
        right.append(typed.format(n=abs(n), bench=number))
    if not began:
        return ""
    return say(
        "{date} began with {began}: set it right, once, with {right}",
        date=date,
        began=_first(began),
        right=_first(right),
    )


def _first(told: list[str]) -> str:
    names = joined(", ", told[:NAMED])
    if len(told) <= NAMED:
        return names
    return say("{names} and {n} more", names=names, n=len(told) - NAMED)
