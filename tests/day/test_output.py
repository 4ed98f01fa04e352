"""What was made and the leaf it took, by run, bench, vitola and buncher."""

from __future__ import annotations

import pytest

from core.day.report import DayReport
from core.day.yields import first_pass_yield
from core.house.model import Bench
from tests.day.adding import told
from tests.day.book import HOUSE, Writer

SHARED = HOUSE._replace(
    benches=(
        Bench(number="7", buncher="P-07", blend="B1", vitola="toro"),
        Bench(number="8", buncher="P-07", blend="B1", vitola="toro"),
        Bench(number="9", buncher="P-09", blend="B1", vitola="corona"),
    )
)


@pytest.fixture
def worked() -> DayReport:
    """P-07 works two benches; bench 7 goes from toros of 10 g to coronas of 6 g."""
    day = Writer(SHARED)
    day("take", leaf="SE-1", grams=900.0, moisture=0.13)
    day("take", leaf="LI-1", grams=600.0, moisture=0.13)
    day("take", leaf="BI-1", grams=500.0, moisture=0.13)
    day("made", n=60)
    day("good", n=50)
    day("second", n=3)
    day("fail", faults={"torn": 7})
    day("rework", n=2)
    day("hold", n=25, reason="too wet")
    day("release", n=10)
    day("workers", n=4)
    day("panel", n=5)
    day("roll", vitola="corona")
    day("good", n=45, vitola="corona")
    day("fail", faults={"torn": 5}, vitola="corona")
    day("good", "8", n=20)
    day("take", "9", leaf="SE-1", grams=300.0, moisture=0.13)
    day("take", "9", leaf="LI-1", grams=200.0, moisture=0.13)
    day("good", "9", n=40)
    return told(day)


def test_a_second_was_inspected_and_did_not_pass(worked: DayReport) -> None:
    """50 good, 2 of them mended, 7 rejected, 3 seconds: 48 of 58 passed first time."""
    toros = worked.benches[0].runs[0]
    assert (toros.good, toros.second) == (50, 3)
    assert toros.first_pass_yield == pytest.approx(48 / 58)
    assert first_pass_yield(0, 0, 0, 3) == 0


def test_hold_workers_and_panel_change_no_yield(worked: DayReport) -> None:
    bench = worked.benches[0]
    assert (bench.held, bench.workers, bench.panel) == (15, 4, 5)
    assert bench.good == 95
    assert worked.totals.held == 15
    assert worked.totals.first_pass_yield == pytest.approx(153 / 168)


def test_filler_for_a_thousand_good_against_the_standard(worked: DayReport) -> None:
    """
    Bench 7 took 1500 g of filler, and packed 60 × 10 g in toros and 50 × 6 g in coronas: two
    thirds of it are the toros', 1000/50 = 20 g each; the binder is none of it.
    """
    toros, coronas = worked.benches[0].runs
    assert toros.filler_kg_per_1000_good == pytest.approx(20.0)
    assert toros.standard_kg_per_1000 == pytest.approx(10.0)
    assert coronas.filler_kg_per_1000_good == pytest.approx(500 / 45)
    assert worked.benches[0].standard_kg_per_1000 == pytest.approx((500 + 270) / 95)
    assert worked.benches[0].leaf_yield == pytest.approx(770 / 1500)


def test_pounds_are_those_kilograms(worked: DayReport) -> None:
    """20 kg are 44.092 lb: NIST SP 811, appendix B.8, 1 lb = 0.45359237 kg."""
    toros = worked.benches[0].runs[0]
    assert toros.filler_lb_per_1000_good == pytest.approx(44.092, abs=5e-4)
    assert toros.standard_lb_per_1000 == pytest.approx(22.046, abs=5e-4)


def test_by_vitola(worked: DayReport) -> None:
    """Coronas: 500 g at bench 7 and 500 g at bench 9, for 85 good."""
    toro, corona = worked.by_vitola
    assert (toro.vitola, toro.good, corona.vitola, corona.good) == ("toro", 70, "corona", 85)
    assert corona.filler_kg_per_1000_good == pytest.approx(1000 / 85)
    assert corona.standard_kg_per_1000 == pytest.approx(6.0)
    assert corona.rejected == {"torn": 5}


def test_by_buncher(worked: DayReport) -> None:
    first, second = worked.by_buncher
    assert (first.buncher, first.good, second.buncher, second.good) == ("P-07", 115, "P-09", 40)
    assert first.rejected == {"torn": 12}
    assert first.filler_kg_per_1000_good == pytest.approx(1500 / 115)


def test_nothing_is_said_of_leaf_that_was_not_issued(worked: DayReport) -> None:
    bench = worked.benches[1]
    assert bench.good == 20
    assert bench.filler_kg_per_1000_good is None
    assert bench.leaf_yield is None
    assert bench.standard_kg_per_1000 == pytest.approx(10.0)


def test_parts_are_the_whole(worked: DayReport) -> None:
    for name in ("made", "good", "rework", "second", "workers", "panel", "filler_used_kg"):
        whole = getattr(worked.totals, name)
        assert sum(getattr(bench, name) for bench in worked.benches) == pytest.approx(whole)
        assert sum(getattr(part, name) for part in worked.by_vitola) == pytest.approx(whole)
        assert sum(getattr(part, name) for part in worked.by_buncher) == pytest.approx(whole)
        runs = [run for bench in worked.benches for run in bench.runs]
        assert sum(getattr(run, name) for run in runs) == pytest.approx(whole)
