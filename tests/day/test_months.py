"""A month's sums, against the days that they were told from."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, cast

import orjson
import pytest

from core.day.figures import Figures
from core.day.months import MonthSums, as_month, by_month, holds, is_told_by, lacking, sums_of
from core.day.parts import Parts, parts
from core.day.summary import DayOpened, DaySummary
from core.problems import StoreUnusable
from tests.bench.year import year

DAYS = list(year(days=73, benches=9))
KEPT: dict[str, DaySummary | DayOpened] = {day["date"]: day for day in DAYS}
MONTHS = {sums["month"]: sums for sums in lacking(KEPT, {})}


def same(found: Parts, other: Parts) -> None:
    """The same names in the same order, with the same figures but for the last digit."""
    for these, those in zip(found, other, strict=True):
        assert list(these) == list(those)
        for name in these:
            agree(these[name], those[name])


def agree(these: Figures, those: Figures) -> None:
    for mine, other in zip(these, those, strict=True):
        if other is None:
            assert mine is None
        else:
            assert mine == pytest.approx(other, rel=1e-9, abs=1e-9)


def test_all_months_are_kept_but_the_last_which_is_not_over() -> None:
    assert list(MONTHS) == [f"2026-{month:02}" for month in range(1, 12)]
    assert lacking(KEPT, MONTHS) == []
    assert lacking({}, {}) == []


def test_a_year_by_its_months_is_a_year_by_its_days() -> None:
    same(parts(DAYS, MONTHS), parts(DAYS, {}))


def test_the_figures_come_from_the_months_where_they_hold() -> None:
    march = cast("Any", dict(MONTHS["2026-03"]))
    columns = orjson.loads(march["runs"])
    columns["made"] = [made + 1000 for made in columns["made"]]
    march["runs"] = orjson.dumps(columns).decode()
    made = sum(part.made for part in parts(DAYS, MONTHS | {"2026-03": march}).by_vitola.values())
    true = sum(part.made for part in parts(DAYS, MONTHS).by_vitola.values())
    assert made == true + 1000 * len(columns["made"])
    assert not is_told_by(march, by_month(DAYS)["2026-03"])
    assert is_told_by(MONTHS["2026-03"], by_month(DAYS)["2026-03"])


def corrected(day: DaySummary) -> DaySummary:
    """As closed again after more was entered."""
    totals = {**day["totals"], "made": day["totals"]["made"] + 5}
    runs = orjson.loads(day["runs"])
    runs["made"][0] += 5
    ends = {"end": "f" * 32, "corrected": 1}
    return cast(
        "DaySummary", {**day, **ends, "totals": totals, "runs": orjson.dumps(runs).decode()}
    )


def test_a_day_corrected_since_is_counted_as_it_is_now() -> None:
    days = [corrected(day) if day["date"] == "2026-03-02" else day for day in DAYS]
    assert days != DAYS
    same(parts(days, MONTHS), parts(days, {}))
    (anew,) = lacking({day["date"]: day for day in days}, MONTHS)
    assert anew["month"] == "2026-03"
    same(parts(days, MONTHS | {"2026-03": anew}), parts(days, {}))


@pytest.mark.parametrize("left_out", [0, 2, -1])
def test_a_part_of_a_month_is_added_up_from_its_days(left_out: int) -> None:
    march = list(by_month(DAYS)["2026-03"])
    del march[left_out]
    assert not holds(MONTHS["2026-03"], march)
    same(parts(march, MONTHS), parts(march, {}))


def test_a_day_opened_again_takes_its_month_with_it() -> None:
    opened: DayOpened = {
        "summary": 2, "date": "2026-03-02", "closed": False, "at": "2027-01-02T08:00:00.000Z",
        "lines": 9, "end": "0" * 32, "corrected": 1, "reason": "bundle found",
    }  # fmt: skip
    assert "2026-03-02" in KEPT
    (anew,) = lacking(KEPT | {"2026-03-02": opened}, MONTHS)
    assert (anew["month"], "2026-03-02" in anew["days"]) == ("2026-03", False)


def test_a_month_that_does_not_know_leaf_by_run_says_so() -> None:
    def without_leaf(day: DaySummary) -> DaySummary:
        runs = orjson.loads(day["runs"])
        del runs["in_good_g"], runs["unexplained_g"]
        return cast("DaySummary", {**day, "runs": orjson.dumps(runs).decode()})

    january = [without_leaf(day) for day in by_month(DAYS)["2026-01"]]
    sums = sums_of("2026-01", january)
    assert not sums["told"]
    found = parts(january, {"2026-01": sums})
    assert all(part.leaf_yield is None for part in found.by_bench.values())
    same(found, parts(january, {}))


def test_what_a_year_book_keeps_reads_back_bit_by_bit() -> None:
    sums = MONTHS["2026-02"]
    read = as_month(orjson.loads(orjson.dumps(sums)))
    assert read == sums
    assert all(map(math.isfinite, orjson.loads(sums["runs"])["sum_dev_g"]))


@pytest.mark.parametrize(
    "wrong",
    [
        {"month_sums": 2},
        {"month_sums": None},
        {"days": ...},
        {"days": []},
        {"runs": ...},
        {"runs": {}},
        {"month": [1]},
        {"told": 1},
    ],
)
def test_sums_of_another_format_are_passed_over(wrong: dict[str, object]) -> None:
    document = {**MONTHS["2026-02"], **wrong}
    assert as_month({key: value for key, value in document.items() if value is not ...}) is None


def changed_rows(sums: MonthSums, change: Callable[[dict[str, Any]], object]) -> MonthSums:
    rows = orjson.loads(sums["runs"])
    change(rows)
    return cast("MonthSums", {**sums, "runs": orjson.dumps(rows).decode()})


@pytest.mark.parametrize(
    "change",
    [
        lambda rows: rows.pop("made"),
        lambda rows: rows.pop("bench"),
        lambda rows: rows.update(made=[]),
        lambda rows: rows.update(made=[True] * len(rows["made"])),
        lambda rows: rows.update(made=["4"] * len(rows["made"])),
        lambda rows: rows.update(made=None),
        lambda rows: rows.update(vitola=7),
        lambda rows: rows["bench"].pop(),
    ],
)
def test_sums_whose_rows_are_none_are_passed_over(
    change: Callable[[dict[str, Any]], object],
) -> None:
    broken = changed_rows(MONTHS["2026-03"], change)
    assert broken["runs"] != MONTHS["2026-03"]["runs"]
    same(parts(DAYS, MONTHS | {"2026-03": broken}), parts(DAYS, {}))


@pytest.mark.parametrize("runs", ["{", "[]", "5", '{"bench": [1]}'])
def test_sums_that_are_no_rows_at_all_are_passed_over(runs: str) -> None:
    broken = cast("MonthSums", {**MONTHS["2026-03"], "runs": runs})
    same(parts(DAYS, MONTHS | {"2026-03": broken}), parts(DAYS, {}))


@pytest.mark.parametrize("column", [["4"] * 9, [4], None])
def test_a_day_whose_rows_are_none_is_named_and_its_month_has_no_sums(column: object) -> None:
    day = by_month(DAYS)["2026-03"][1]
    runs = orjson.dumps(orjson.loads(day["runs"]) | {"made": column}).decode()
    days = [cast("DaySummary", {**each, "runs": runs}) if each is day else each for each in DAYS]
    with pytest.raises(StoreUnusable, match=f"summary of {day['date']} cannot be read"):
        parts(days, {})
    kept = [sums["month"] for sums in lacking({each["date"]: each for each in days}, {})]
    assert kept == [month for month in MONTHS if month != "2026-03"]


def test_a_month_without_a_closed_day_adds_up_to_nothing() -> None:
    sums: MonthSums = sums_of("2026-02", [])
    assert sums["days"] == {}
    assert parts([], {"2026-02": sums}) == ({}, {}, {})
