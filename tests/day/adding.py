"""A written day added up, with what its vitolas pack."""

from __future__ import annotations

import datetime as dt

from core.day.bench import RunKey
from core.day.report import DayReport, LeafPart
from core.day.tally import Added, add_up
from tests.day.book import Writer

FILLER_G = {"toro": 10.0, "corona": 6.0}
DATE = dt.date(2026, 5, 4)
COLUMNS = (
    "used_standard_g", "in_good_g", "in_seconds_g", "rejects_g", "heavy_g", "cuttings_g",
    "stem_g", "sweepings_g", "unexplained_g",
)  # fmt: skip
"""What adds up over the parts of a leaf."""


def packed(run: RunKey) -> float:
    return FILLER_G[run.vitola]


def added(day: Writer) -> Added:
    house = day.ledger.houses[1]
    return add_up(day.ledger, house=house, date=DATE, version=1, packed=packed)


def told(day: Writer) -> DayReport:
    return added(day).report


def part(report: DayReport, bench: int | None, vitola: str, leaf: str) -> LeafPart:
    """The one row of a bench, vitola and leaf."""
    (found,) = (p for p in report.split if (p.bench, p.vitola, p.leaf) == (bench, vitola, leaf))
    return found
