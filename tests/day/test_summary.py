"""What is kept of a closed day, against its report and against the checks themselves."""

from __future__ import annotations

from statistics import fmean
from typing import Any, cast

import pytest

from core.day.report import DayReport
from core.day.summary import BookEnd, DaySummary, Runs, as_kept, as_text, bench_leaf_of, runs_of
from core.day.summing import summary
from core.day.trend import trend
from core.day.yields import COVERS
from tests.day.adding import added
from tests.day.book import Writer

END = BookEnd(40, "e" * 32)


def summed(day: Writer) -> tuple[DaySummary, DayReport]:
    """The day's summary, and the report it must agree with."""
    day("close")
    whole = added(day)
    return summary(whole, day.ledger, version=1, book=END), whole.report


@pytest.fixture
def worked() -> Writer:
    """Three benches; 7 changes from toro to corona on the way, 8 takes leaf and makes nothing."""
    day = Writer()
    for leaf, grams in (("SE-1", 900.333), ("LI-1", 600.125), ("WR-1", 120.0)):
        day("take", leaf=leaf, grams=grams, moisture=0.15)
    day("made", n=60)
    day("good", n=52)
    day.check(12.0, 12.2)
    day.check(12.9, 12.4)  # its first reading is out
    day("fail", faults={"torn": 3, "plugged": 2})
    day("rework", n=2)
    day("roll", vitola="corona")
    day("made", n=50, vitola="corona")
    day("good", n=45, vitola="corona")
    day("fail", faults={"torn": 1}, vitola="corona")
    day("back", leaf="SE-1", grams=61.7, moisture=0.15)
    day("take", "8", leaf="SE-1", grams=10.0, moisture=0.13)
    day("good", "9", n=30)
    day.check(7.1, 7.4, 6.9, bench="9", target=7.0)
    day("check", "9", measure="length", readings=[140.0], target=140.0, low=138.5, high=141.5)
    day("undo", voids=day("made", "9", n=500))
    day("scrap", grams=35.0, moisture=0.13)
    return day


def test_its_totals_are_the_reports(worked: Writer) -> None:
    kept, report = summed(worked)
    totals, mine = report.totals, kept["totals"]
    assert (mine["made"], mine["good"]) == (totals.made, totals.good)
    assert (mine["rejected"], mine["rework"]) == (totals.rejected, totals.rework)
    assert mine["checks"] == sum(bench.checks for bench in report.benches) == 4
    assert mine["out"] == sum(bench.out for bench in report.benches) == 1
    assert kept["faults"] == report.faults() == {"torn": 4, "plugged": 2}
    assert (kept["entries"], kept["voided"]) == (report.entries, report.voided)
    assert kept["leaf_yield"] == pytest.approx(report.leaf_yield, abs=1e-6)


def test_its_leaf_is_the_reports_to_the_hundredth_of_a_gram(worked: Writer) -> None:
    kept, report = summed(worked)
    leaf = cast("dict[str, list[Any]]", kept["leaf"])
    assert leaf["code"] == [row.leaf for row in report.leaf]
    assert leaf["class"] == [row.leaf_class for row in report.leaf]
    assert leaf["beyond"] == [row.beyond for row in report.leaf]
    for key in ("issued_g", "returned_g", "in_good_g", "rejects_g", "heavy_g", "cuttings_g"):
        expected = [getattr(row, key) for row in report.leaf]
        assert leaf[key] == pytest.approx(expected, abs=0.00501)
    assert leaf["used_g"] == pytest.approx([r.used_standard_g for r in report.leaf], abs=0.00501)
    assert leaf["unexplained_g"] == pytest.approx([r.unexplained_g for r in report.leaf], abs=0.01)


def test_what_passed_as_seconds_and_went_to_workers_and_panel(worked: Writer) -> None:
    worked("second", n=3)
    worked("workers", n=4)
    worked("panel", "9", n=5)
    worked("stem", grams=8.0, moisture=0.13)
    worked("sweepings", grams=21.0, moisture=0.13)
    kept, report = summed(worked)
    runs = runs_of(kept)
    assert (runs["second"], runs["workers"]) == ([3, 0, 0, 0], [4, 0, 0, 0])
    assert runs["panel"] == [0, 0, 0, 5]
    assert (kept["totals"]["second"], kept["totals"]["panel"]) == (3, 5)
    leaf = cast("dict[str, list[float]]", kept["leaf"])
    for key in ("in_seconds_g", "stem_g", "sweepings_g"):
        assert leaf[key] == pytest.approx([getattr(r, key) for r in report.leaf], abs=0.00501)
    assert sum(leaf["stem_g"]) == pytest.approx(8.0, abs=0.02)


def test_a_runs_filler_is_that_of_its_parts(worked: Writer) -> None:
    kept, report = summed(worked)
    runs = runs_of(kept)
    for name, column in (
        ("used_standard_g", "filler_g"), ("in_good_g", "in_good_g"),
        ("unexplained_g", "unexplained_g"),
    ):  # fmt: skip
        of_runs = dict.fromkeys(zip(runs["bench"], runs["vitola"], strict=True), 0.0)
        for part in report.split:
            if part.leaf_class not in COVERS and part.bench is not None:
                of_runs[part.bench, part.vitola] += getattr(part, name)
        assert list(of_runs.values()) == pytest.approx(runs[column], abs=0.00501)  # type: ignore[literal-required]


def test_the_days_lots_in_columns() -> None:
    """1,000 g came, 300 g went to a bench and 50 g came back; all at the standard 13 %."""
    day = Writer()
    day("receive", leaf="SE-1", lot="24-118", grams=1000.0, moisture=0.13)
    day("take", leaf="SE-1", lot="24-118", grams=300.0, moisture=0.13)
    day("back", leaf="SE-1", lot="24-118", grams=50.0, moisture=0.13)
    kept, _ = summed(day)
    assert kept["lots"] == {
        "leaf": ["SE-1"],
        "lot": ["24-118"],
        "received_g": [1000.0],
        "issued_g": [300.0],
        "returned_g": [50.0],
        "adjusted_g": [0.0],
        "on_hand_g": [750.0],
    }
    assert kept["leaf"]["used_g"] == [250.0]


def test_a_house_without_lots_has_none_in_its_summary(worked: Writer) -> None:
    assert "lots" not in summed(worked)[0]


def as_format_1(kept: DaySummary) -> dict[str, Any]:
    """The summary as this program wrote it before it knew seconds, stem and sweepings."""
    old: dict[str, Any] = {**kept, "summary": 1}
    new = {"second", "workers", "panel", "in_good_g", "unexplained_g"}
    old["totals"] = {k: v for k, v in kept["totals"].items() if k not in new}
    runs = runs_of(kept)
    old["runs"] = as_text(cast("Runs", {k: v for k, v in runs.items() if k not in new}))
    gone = {"in_seconds_g", "stem_g", "sweepings_g"}
    old["leaf"] = {k: v for k, v in kept["leaf"].items() if k not in gone}
    return old


def test_a_summary_of_format_1_is_still_read(worked: Writer) -> None:
    kept, _ = summed(worked)
    read = as_kept(as_format_1(kept))
    assert read is not None
    assert read["closed"]
    assert read["totals"] == kept["totals"]
    assert read["leaf"]["stem_g"] == [0.0] * len(kept["leaf"]["code"])
    assert read["leaf"]["used_g"] == kept["leaf"]["used_g"]
    runs = runs_of(read)
    assert runs["second"] == runs["panel"] == [0, 0, 0, 0]
    assert runs["filler_g"] == runs_of(kept)["filler_g"]
    assert "unexplained_g" not in runs


def test_days_of_both_formats_are_added_up(worked: Writer) -> None:
    kept, _ = summed(worked)
    old = as_kept(as_format_1(kept) | {"date": "2026-05-01"})
    assert old is not None
    assert old["closed"]
    whole = trend({"2026-05-01": old, "2026-05-04": kept}, ())
    assert whole.closed == 2
    assert whole.totals is not None
    assert whole.totals.figures.good == 2 * kept["totals"]["good"]


def test_what_is_no_summary_is_none(worked: Writer) -> None:
    kept, _ = summed(worked)
    assert as_kept(cast("dict[str, Any]", kept)) == kept
    assert as_kept({**kept, "summary": 0}) is None
    assert as_kept({**kept, "summary": "2"}) is None
    assert as_kept({key: kept[key] for key in ("summary", "closed", "date")}) is None


def test_a_row_for_each_thing_a_bench_rolled(worked: Writer) -> None:
    runs = runs_of(summed(worked)[0])
    rows = list(zip(runs["bench"], runs["vitola"], runs["made"], runs["good"], strict=True))
    assert rows == [
        (7, "toro", 60, 52),
        (7, "corona", 50, 45),
        (8, "toro", 0, 0),
        (9, "corona", 0, 30),
    ]
    assert runs["buncher"] == ["P-07", "P-07", "", ""]
    assert runs["rejected"] == [5, 1, 0, 0]


def test_sums_and_squares_are_of_check_means_less_target(worked: Writer) -> None:
    kept, report = summed(worked)
    runs = runs_of(kept)
    off = [fmean((12.0, 12.2)) - 12.0, fmean((12.9, 12.4)) - 12.0]
    assert runs["n_dev"] == [2, 0, 0, 1]  # a length tells nothing of filler
    assert runs["checks"] == [2, 0, 0, 2]
    assert runs["sum_dev_g"][0] == pytest.approx(sum(off), abs=1e-4)
    assert runs["sum_sq_dev_g2"][0] == pytest.approx(sum(x * x for x in off), abs=1e-6)
    mean = runs["sum_dev_g"][0] / runs["n_dev"][0]
    assert mean == pytest.approx(report.benches[0].mean_deviation_g, abs=1e-4)


def test_a_benchs_filler_is_shared_by_what_its_runs_packed(worked: Writer) -> None:
    """
    Bench 7 used (900.333 - 61.7 + 600.125) × 0.85/0.87 of filler; its toro packed
    60 × 10 g, its corona 50 × 6 g. The wrapper it took is no filler.
    """
    used_g = (900.333 - 61.7 + 600.125) * 0.85 / 0.87
    runs = runs_of(summed(worked)[0])
    assert runs["filler_g"] == pytest.approx(
        [used_g * 600 / 900, used_g * 300 / 900, 10.0, 0.0], abs=0.005
    )


def test_grams_by_bench_and_leaf_add_up_to_the_leaf(worked: Writer) -> None:
    kept, _ = summed(worked)
    by_bench, leaf = bench_leaf_of(kept), kept["leaf"]
    assert by_bench["bench"] == [7, 8]
    used = dict(zip(leaf["code"], leaf["used_g"], strict=True))
    for code, grams in zip(by_bench["leaf"], by_bench["used_g"], strict=True):
        assert sum(grams) == pytest.approx(used[code], abs=0.01 * len(grams))
    assert by_bench["used_g"][by_bench["leaf"].index("SE-1")][1] == 10.0


def test_it_says_which_book_it_sums_up_and_how_often_that_was_opened_again(
    worked: Writer,
) -> None:
    worked("close")
    worked("reopen", reason="bundle found")
    worked("good", n=3)
    kept, report = summed(worked)
    assert (kept["lines"], kept["end"]) == END
    assert kept["corrected"] == 1
    assert kept["at"] == worked.ledger.entries[worked.ledger.latest]["at"]
    assert kept["totals"]["good"] == report.totals.good == 52 + 45 + 30 + 3


def test_a_day_without_an_entry_is_summed_up_too() -> None:
    kept, _ = summed(Writer())
    assert kept["totals"]["made"] == 0
    assert kept["leaf_yield"] is None
    assert runs_of(kept)["bench"] == []
