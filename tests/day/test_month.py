"""The month's record: quantities that 27 CFR 40.181-40.183 name, worked by hand."""

from __future__ import annotations

import datetime as dt
from typing import Any, cast

import pytest

from core.day.month import Quantities, entered_by, month
from core.day.summary import DayOpened, DaySummary

LB = 453.59237  # NIST SP 811, appendix B.8


def day(date: str, *, end_lb: float | None = None, **changes: Any) -> DaySummary:
    """1,000 lb at the start, 40 received, 62 issued, 2 returned, 1 found missing by count."""
    made = {"good": 950, "second": 50, "workers": 20, "panel": 5, "rejected": 30, "rework": 10}
    leaf = {"used_g": [60 * LB], "cuttings_g": [3 * LB], "stem_g": [1 * LB], "sweepings_g": [LB]}
    kept: dict[str, Any] = {
        "date": date, "closed": True, "corrected": 0, "summary": 2, "totals": made, "leaf": leaf,
    }  # fmt: skip
    if end_lb is not None:
        kept["lots"] = {
            "on_hand_g": [end_lb * LB], "received_g": [40 * LB], "issued_g": [62 * LB],
            "returned_g": [2 * LB], "adjusted_g": [-1 * LB],
        }  # fmt: skip
    return cast("DaySummary", kept | changes)


def record(*days: DaySummary | DayOpened) -> tuple[Quantities, ...]:
    told = month({day["date"]: day for day in days}, ())
    return (*(line.quantities for line in told.days), told.totals)


def test_a_days_cigars_are_thousands_and_its_tobacco_pounds() -> None:
    one, _ = record(day("2026-05-04", end_lb=979.0))
    assert one.manufactured_thousands == pytest.approx(1.0)
    assert (one.workers_thousands, one.panel_thousands) == (0.02, 0.005)
    assert one.destroyed_thousands == pytest.approx(0.02)
    assert [one.used_lb, one.lost_lb] == pytest.approx([55.0, 5.0])
    assert [one.start_lb, one.received_lb] == pytest.approx([1000.0, 40.0])


def test_the_stock_balances() -> None:
    """Start + received + adjusted - used - lost = end."""
    one, _ = record(day("2026-05-04", end_lb=979.0))
    told = cast("dict[str, float]", one._asdict())
    out = told["used_lb"] + told["lost_lb"]
    assert told["start_lb"] + told["received_lb"] + told["adjusted_lb"] - out == pytest.approx(
        told["end_lb"]
    )


def test_totals_begin_with_the_first_day_and_end_with_the_last() -> None:
    *_, totals = record(day("2026-05-04", end_lb=979.0), day("2026-05-05", end_lb=958.0))
    assert [totals.start_lb, totals.end_lb] == pytest.approx([1000.0, 958.0])
    assert totals.used_lb == pytest.approx(110.0)
    assert totals.manufactured_thousands == pytest.approx(2.0)


def test_removals_are_not_known_and_without_lots_no_stock_is() -> None:
    one, totals = record(day("2026-05-04"))
    assert one.removed_thousands is None
    assert (one.start_lb, one.received_lb, one.end_lb, totals.received_lb) == (None,) * 4


def test_an_earlier_summary_leaves_blank_what_it_does_not_know() -> None:
    early = day("2026-05-04", summary=1)
    one, totals = record(early, day("2026-05-05"))[0], record(early, day("2026-05-05"))[-1]
    assert (one.workers_thousands, one.panel_thousands, totals.panel_thousands) == (None,) * 3


def test_days_that_are_not_closed_are_missing_and_in_no_total() -> None:
    opened = cast("DayOpened", {"date": "2026-05-05", "closed": False, "corrected": 1})
    told = month({"2026-05-04": day("2026-05-04"), "2026-05-05": opened}, ["2026-05-06"])
    assert told.missing == ("2026-05-05", "2026-05-06")
    assert told.totals.manufactured_thousands == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("day", "by"), [("2026-05-04", "2026-05-05"), ("2026-05-08", "2026-05-11")]
)
def test_the_record_is_entered_by_the_close_of_the_next_business_day(day: str, by: str) -> None:
    """27 CFR 40.181; 2026-05-08 was a Friday."""
    assert entered_by(dt.date.fromisoformat(day)) == dt.date.fromisoformat(by)
