"""A month's daily record: the quantities that 27 CFR 40.181-40.183 name, as far as known.

An aid: the regulation's current text and a licensed adviser decide. Cigars are in thousands,
tobacco in pounds (453.59237 g exactly, NIST SP 811) at the house's standard moisture. Totals
are of unrounded figures, so a column of rounded days may differ from its total in the last
decimal.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple, cast

from core.day.summary import DayOpened, DaySummary
from core.say import say
from core.units import G_PER_LB

CAUTION = say(
    "An aid to the record that 27 CFR 40.181-40.183 ask for, not the record itself: the "
    "current text and a licensed adviser decide."
)
KNOWN = say(
    "Manufactured: cigars that passed and those sold as seconds. Given to the workers and "
    "kept for the panel: as entered. Destroyed: rejects that were not mended, as counted "
    "on the floor. Used: leaf issued less returned, without what was lost. Lost: cuttings, "
    "stem and sweepings as weighed. Adjusted: what counts of the stock changed."
)
BLANK = say(
    "Left blank: what this program does not know. It records no removals. Stock is told "
    "only where leaf is kept by lot, and days summed up by an earlier version of this "
    "program know no lots."
)
ROUNDING = say(
    "Thousands to three decimals, pounds to two, each rounded by itself; totals are of "
    "the unrounded figures."
)


class Quantities(NamedTuple):
    """A day's, or the month's; None is not known. Cigars in thousands, tobacco in pounds."""

    manufactured_thousands: float | None = None
    workers_thousands: float | None = None
    panel_thousands: float | None = None
    destroyed_thousands: float | None = None
    removed_thousands: float | None = None
    start_lb: float | None = None
    received_lb: float | None = None
    used_lb: float | None = None
    lost_lb: float | None = None
    adjusted_lb: float | None = None
    end_lb: float | None = None


class DayRecord(NamedTuple):
    """A day of the month; only a closed one has quantities."""

    date: str
    state: str
    corrected: int
    quantities: Quantities


class Month(NamedTuple):
    """The days that there are, their totals, and the dates still to be closed."""

    days: tuple[DayRecord, ...]
    totals: Quantities
    missing: tuple[str, ...]

    def json(self) -> dict[str, object]:
        """Under the keys of `month --json`."""
        return {
            "days": [_flat(day) for day in self.days],
            "totals": self.totals._asdict(),
            "missing": list(self.missing),
            "notes": [CAUTION, KNOWN, BLANK, ROUNDING],
        }


def _flat(day: DayRecord) -> dict[str, object]:
    facts = day._asdict()
    facts.pop("quantities")
    return facts | day.quantities._asdict()


def month(kept: Mapping[str, DaySummary | DayOpened], unclosed: Iterable[str]) -> Month:
    """The days by their newest summaries; a day that is not closed is missing from the totals."""
    days = [_record(day) for day in kept.values()]
    days += [DayRecord(date, "not closed", 0, Quantities()) for date in unclosed]
    days.sort(key=lambda day: day.date)
    return Month(
        tuple(days),
        _totals([day.quantities for day in days if day.state == "closed"]),
        tuple(day.date for day in days if day.state != "closed"),
    )


def entered_by(date: dt.date) -> dt.date:
    """The close of the next business day (27 CFR 40.181): Saturday and Sunday are none.

    Holidays are not known here.
    """
    later = date + dt.timedelta(1)
    while later.weekday() >= 5:
        later += dt.timedelta(1)
    return later


def _record(day: DaySummary | DayOpened) -> DayRecord:
    if not day["closed"]:
        return DayRecord(day["date"], "open again", day["corrected"], Quantities())
    quantities = Quantities(**_cigars(day), **_tobacco(day))
    return DayRecord(day["date"], "closed", day["corrected"], quantities)


def _cigars(day: DaySummary) -> dict[str, float | None]:
    totals = cast("Mapping[str, int]", day["totals"])
    told = day["summary"] > 1
    return {
        "manufactured_thousands": (totals["good"] + totals.get("second", 0)) / 1000,
        "workers_thousands": totals.get("workers", 0) / 1000 if told else None,
        "panel_thousands": totals.get("panel", 0) / 1000 if told else None,
        "destroyed_thousands": max(0, totals["rejected"] - totals["rework"]) / 1000,
    }


def _tobacco(day: DaySummary) -> dict[str, float | None]:
    """What the leaf's rows and, where the house keeps lots, its stock tell; grams in, pounds out.

    The start is worked back from the end: the day's own moves lie between.
    """
    leaf = cast("Mapping[str, Sequence[float]]", day["leaf"])
    lost_g = math.fsum(
        grams for key in ("cuttings_g", "stem_g", "sweepings_g") for grams in leaf.get(key, ())
    )
    used_g = math.fsum(leaf["used_g"]) - lost_g
    found: dict[str, float | None] = {"used_lb": _lb(used_g), "lost_lb": _lb(lost_g)}
    lots = cast("Mapping[str, Any]", day).get("lots")
    if lots is None:
        return found
    end, received, issued, returned, adjusted = (
        math.fsum(lots[key])
        for key in ("on_hand_g", "received_g", "issued_g", "returned_g", "adjusted_g")
    )
    return found | {
        "start_lb": _lb(end - received + issued - returned - adjusted),
        "received_lb": _lb(received),
        "adjusted_lb": _lb(adjusted),
        "end_lb": _lb(end),
    }


def _lb(grams: float) -> float:
    return grams / G_PER_LB


def _totals(days: Sequence[Quantities]) -> Quantities:
    """Sums of what every day tells; on hand at the first day's start and the last day's end."""
    if not days:
        return Quantities()
    sums = {
        key: _sum([getattr(day, key) for day in days])
        for key in Quantities._fields
        if key not in ("start_lb", "end_lb")
    }
    return Quantities(**sums, start_lb=days[0].start_lb, end_lb=days[-1].end_lb)


def _sum(values: Sequence[float | None]) -> float | None:
    """None where a day does not tell: half a sum would be taken for a whole one."""
    known = [value for value in values if value is not None]
    return math.fsum(known) if len(known) == len(values) else None
