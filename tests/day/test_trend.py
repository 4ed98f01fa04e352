"""Days added up, against the same rows counted again one by one."""

from __future__ import annotations

import json
import math
import random
from collections import Counter
from collections.abc import Callable, Iterator
from statistics import fmean, stdev
from typing import Any, cast

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.day.figures import Figures, mean_and_error
from core.day.parts import parts
from core.day.summary import DayOpened, DaySummary, as_text
from core.day.trend import DayFigures, closed_days, trend
from tests.bench.year import year

DAYS = list(year(days=9, benches=7))
KEPT: dict[str, DaySummary | DayOpened] = {day["date"]: day for day in DAYS}
OPENED: DayOpened = {
    "summary": 1, "date": DAYS[3]["date"], "closed": False, "at": "2027-01-02T08:00:00.000Z",
    "lines": 9, "end": "0" * 32, "corrected": 1, "reason": "bundle found",
}  # fmt: skip


def rows(days: list[DaySummary]) -> Iterator[dict[str, Any]]:
    """Every run as a row of its own."""
    for day in days:
        columns: dict[str, list[Any]] = json.loads(day["runs"])
        for values in zip(*columns.values(), strict=True):
            yield dict(zip(columns, values, strict=True))


def counted(rows: list[dict[str, Any]], key: str) -> Any:
    total = 0
    for row in rows:
        total += row[key]
    return total


def agrees(found: DayFigures | Figures, mine: list[dict[str, Any]]) -> None:
    """The part is what the rows count to, by the definitions of the day's report."""
    part = found.figures if isinstance(found, DayFigures) else found
    made, good, rejected, rework = (
        counted(mine, key) for key in ("made", "good", "rejected", "rework")
    )
    assert (part.made, part.good, part.rejected, part.rework) == (made, good, rejected, rework)
    inspected = good - rework + rejected + counted(mine, "second")
    assert part.first_pass_yield == pytest.approx((good - rework) / inspected)
    n, total, squares = (counted(mine, key) for key in ("n_dev", "sum_dev_g", "sum_sq_dev_g2"))
    assert part.mean_deviation_g == pytest.approx(total / n, abs=1e-6)
    error = math.sqrt((squares - total**2 / n) / (n - 1) / n)
    assert part.deviation_se_g == pytest.approx(error, rel=1e-3)
    assert part.filler_used_kg == pytest.approx(counted(mine, "filler_g") / 1000)
    assert part.filler_kg_per_1000_good == pytest.approx(counted(mine, "filler_g") / good)


def test_the_span_is_the_sum_of_its_rows() -> None:
    told = trend(KEPT, ())
    assert told.totals is not None
    agrees(told.totals, list(rows(DAYS)))
    assert told.closed == len(told.days) == 9


def test_each_day_is_the_sum_of_its_rows() -> None:
    for line, day in zip(trend(KEPT, ()).days, DAYS, strict=True):
        assert line.figures is not None
        agrees(line.figures, list(rows([day])))


@pytest.mark.parametrize(
    ("by", "key"), [("by_vitola", "vitola"), ("by_bench", "bench"), ("by_buncher", "buncher")]
)
def test_each_part_is_the_sum_of_its_rows(by: str, key: str) -> None:
    found: dict[str, Figures] = getattr(parts(DAYS, {}), by)
    assert set(found) == {str(row[key]) for row in rows(DAYS)}
    for name, part in found.items():
        agrees(part, [row for row in rows(DAYS) if str(row[key]) == name])


def test_a_long_span_is_the_sum_of_its_rows_too() -> None:
    long = list(year(days=120, benches=2))
    for name, part in parts(long, {}).by_bench.items():
        agrees(part, [row for row in rows(long) if str(row["bench"]) == name])


def test_each_week_is_the_sum_of_its_days() -> None:
    """2026-01-01 was a Thursday of week 1 (ISO 8601: the week with the year's first Thursday)."""
    long = list(year(days=120, benches=2))
    weeks = trend({day["date"]: day for day in long}, ()).weeks
    assert (weeks[0].week, weeks[0].first, weeks[0].days) == ("2026-W01", "2026-01-01", 2)
    assert sum(week.days for week in weeks) == 120
    for week in weeks:
        agrees(week.figures, list(rows([d for d in long if week.first <= d["date"] <= week.last])))


def test_the_turn_of_a_year_stands_in_one_week() -> None:
    day = cast("DaySummary", {**DAYS[0], "date": "2027-01-02"})
    (week,) = trend({"2027-01-02": day}, ()).weeks
    assert week.week == "2026-W53"


def test_benches_stand_in_the_order_of_their_numbers() -> None:
    assert list(parts(list(year(days=2, benches=12)), {}).by_bench)[8:] == ["9", "10", "11", "12"]


def test_a_day_open_again_has_no_figures_and_is_in_no_total() -> None:
    kept = KEPT | {OPENED["date"]: OPENED}
    told = trend(kept, ())
    line = told.days[3]
    assert (line.state, line.figures, line.corrected) == ("open again", None, 1)
    assert (line.open_since, line.reason) == ("2027-01-02T08:00:00.000Z", "bundle found")
    assert told.totals is not None
    agrees(told.totals, list(rows([*DAYS[:3], *DAYS[4:]])))
    assert len(closed_days(kept)) == 8


def test_days_that_are_not_closed_stand_in_their_places() -> None:
    told = trend(KEPT, ["2026-01-02", "2026-12-30"])
    assert [line.date for line in told.days] == sorted(line.date for line in told.days)
    assert told.days[1].state == told.days[-1].state == "not closed"
    assert told.closed == 9


def test_no_day_has_no_totals() -> None:
    assert trend({}, ()) == ((), 0, None, ())
    assert parts([], {}) == ({}, {}, {})


def changed(day: DaySummary, change: Callable[[dict[str, Any]], None]) -> DaySummary:
    leaf = {key: list(values) for key, values in cast("dict[str, list[Any]]", day["leaf"]).items()}
    change(leaf)
    return cast("DaySummary", {**day, "leaf": leaf})


def test_days_without_leaf_issued_are_left_out_of_what_leaf_is_told_by() -> None:
    def none_issued(leaf: dict[str, Any]) -> None:
        leaf["used_g"] = [0.0] * len(leaf["code"])

    blind = changed(DAYS[0], none_issued)
    told = trend({day["date"]: day for day in (blind, DAYS[1])}, ())
    nothing = changed(DAYS[0], lambda leaf: leaf.update({key: [] for key in leaf}))
    alone_told = trend({nothing["date"]: nothing}, ()).totals
    assert alone_told is not None
    assert type(alone_told.figures.unexplained_g) is float
    alone = trend({DAYS[1]["date"]: DAYS[1]}, ())
    assert told.days[0].figures is not None
    assert told.days[0].figures.figures.leaf_yield is None
    assert told.totals is not None
    assert alone.totals is not None
    assert (
        told.totals.figures.filler_kg_per_1000_good == alone.totals.figures.filler_kg_per_1000_good
    )
    assert told.totals.figures.good > alone.totals.figures.good
    both, one = parts([blind, DAYS[1]], {}).by_bench["3"], parts([DAYS[1]], {}).by_bench["3"]
    assert both.filler_kg_per_1000_good == pytest.approx(one.filler_kg_per_1000_good)


def test_binders_and_wrappers_are_in_no_leaf_figure() -> None:
    def a_wrapper(leaf: dict[str, Any]) -> None:
        leaf["class"][0] = "wrapper"

    leaf = DAYS[0]["leaf"]
    told = trend({DAYS[0]["date"]: changed(DAYS[0], a_wrapper)}, ())
    assert told.totals is not None
    assert told.totals.figures.filler_used_kg == pytest.approx(sum(leaf["used_g"][1:]) / 1000)
    assert told.totals.figures.unexplained_g == pytest.approx(sum(leaf["unexplained_g"][1:]))


@settings(deadline=None, max_examples=60)
@given(st.lists(st.floats(-2, 2), min_size=2, max_size=60))
def test_the_mean_and_its_error_are_those_of_the_deviations(off: list[float]) -> None:
    mean, error = mean_and_error(len(off), sum(off), sum(x * x for x in off))
    assert mean == pytest.approx(fmean(off), abs=1e-9)
    assert error == pytest.approx(stdev(off) / math.sqrt(len(off)), abs=1e-6)


def test_one_check_has_no_error_and_none_has_no_mean() -> None:
    assert mean_and_error(1, 0.2, 0.04) == (0.2, None)
    assert mean_and_error(0, 0.0, 0.0) == (None, None)


def test_parts_of_days_whose_benches_change_add_up_as_one_by_one() -> None:
    """Against a plain sum over every row, whatever is rolled where and by whom."""
    dice = random.Random(3)
    days, plain = [], Counter[tuple[str, str]]()
    for nth in range(12):
        rows = [
            (dice.choice(["7", "8", "7-A"]), dice.choice("ab"), dice.choice(["P-1", "P-2"]))
            for _ in range(6)
        ]
        rows = rows if nth % 3 else [("7", "a", "P-1"), ("7", "a", "P-1"), ("8", "b", "P-2")]
        good = [dice.randrange(100) for _ in rows]
        days.append(_day_of_runs(nth, rows, good))
        for (bench, vitola, buncher), n in zip(rows, good, strict=True):
            for part in (("bench", bench), ("vitola", vitola), ("buncher", buncher)):
                plain[part] += n
    found = parts(days, {})
    told = {
        (kind, name): figures.good
        for kind, by in zip(("vitola", "bench", "buncher"), found, strict=True)
        for name, figures in by.items()
    }
    assert told == plain


def _day_of_runs(nth: int, rows: list[tuple[str, str, str]], good: list[int]) -> DaySummary:
    zeros = [0] * len(rows)
    counts = ("made", "rework", "rejected", "n_dev", "sum_dev_g", "sum_sq_dev_g2", "filler_g")
    runs: Any = {
        "bench": [bench for bench, _, _ in rows],
        "vitola": [vitola for _, vitola, _ in rows],
        "buncher": [buncher for _, _, buncher in rows],
        "good": good,
        **dict.fromkeys(counts, zeros),
    }
    leaf: dict[str, list[float]] = {"class": [], "used_g": []}
    day = {"closed": True, "date": f"2026-05-{nth + 1:02}", "runs": as_text(runs), "leaf": leaf}
    return cast("DaySummary", day)
