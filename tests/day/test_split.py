"""Where the leaf went, against a day worked out by hand."""

from __future__ import annotations

import pytest

from core.day.report import LeafDay
from core.day.yields import first_pass_yield
from tests.day.adding import told
from tests.day.book import Writer


def row(day: Writer, leaf: str) -> LeafDay:
    return next(r for r in told(day).leaf if r.leaf == leaf)


@pytest.fixture
def worked() -> Writer:
    """Bench 7 rolls a toro of 10 g filler, six parts seco to four of ligero, all at 13 %."""
    day = Writer()
    day("take", leaf="SE-1", grams=1000.0, moisture=0.13)
    day("back", leaf="SE-1", grams=100.0, moisture=0.13)
    day("take", leaf="LI-1", grams=600.0, moisture=0.13)
    day("made", n=100)
    day("good", n=90)
    day("fail", faults={"torn": 5, "plugged": 5})
    day("rework", n=4)
    day.check(12.0, 12.2)  # mean 12.1, 0.1 g over target
    day.check(12.2, 12.4)  # mean 12.3, 0.3 g over
    day("scrap", grams=35.0, moisture=0.13)
    return day


def test_the_split_of_a_day_worked_by_hand(worked: Writer) -> None:
    """
    seco:   used 1000 - 100            = 900
            in good  10 x 0.6 x 90     = 540
            rejects  10 x 0.6 x (10-4) = 36
            heavy    100 x 0.6 x 0.2   = 12    (mean of 0.1 and 0.3)
            cuttings 35 x 900/1500     = 21
            rest     900-540-36-12-21  = 291
    ligero: used 600; in good 360; rejects 24; heavy 8; cuttings 14; rest 194
    The mean's error is sd(0.1, 0.3)/sqrt 2 = 0.1 g, so 100 x 0.6 x 0.1 = 6 g of seco.
    """
    seco, ligero = row(worked, "SE-1"), row(worked, "LI-1")
    assert seco.used_standard_g == pytest.approx(900)
    assert seco.in_good_g == pytest.approx(540)
    assert seco.rejects_g == pytest.approx(36)
    assert seco.heavy_g == pytest.approx(12)
    assert seco.heavy_se_g == pytest.approx(6)
    assert seco.cuttings_g == pytest.approx(21)
    assert seco.unexplained_g == pytest.approx(291)
    assert not seco.beyond  # it may still lie on the bench
    worked("close")
    assert row(worked, "SE-1").beyond
    assert ligero.in_good_g == pytest.approx(360)
    assert ligero.rejects_g == pytest.approx(24)
    assert ligero.heavy_g == pytest.approx(8)
    assert ligero.cuttings_g == pytest.approx(14)
    assert ligero.unexplained_g == pytest.approx(194)


def test_leaf_yield_and_first_pass_yield(worked: Writer) -> None:
    day = told(worked)
    assert day.leaf_yield == pytest.approx((540 + 360) / 1500)
    # 90 good, 4 of them mended: 86 passed first time of 86 + 10 inspected.
    assert day.totals.first_pass_yield == pytest.approx(86 / 96)


def test_wet_leaf_is_used_at_standard_moisture() -> None:
    """IRRI Rice Knowledge Bank: 1,000 kg at 25 % wet basis is 872.093 kg at 14 %."""
    day = Writer()
    house = day.ledger.houses[1]
    rules = house.house._replace(standard_moisture=0.14)
    day.ledger.houses = {1: house._replace(house=rules)}
    day("take", leaf="SE-1", grams=1_000_000.0, moisture=0.25)
    assert row(day, "SE-1").used_standard_g == pytest.approx(872_093, abs=1)


def test_what_lies_within_two_errors_is_not_beyond() -> None:
    day = Writer()
    day("take", leaf="SE-1", grams=600.0 + 10.0, moisture=0.13)
    day("take", leaf="LI-1", grams=400.0, moisture=0.13)
    day("made", n=100)
    day("good", n=100)
    day.check(11.8, 12.0)
    day.check(12.0, 12.2)  # means -0.1 and +0.1: 0 over target, error 0.1 g a bunch
    seco = row(day, "SE-1")
    assert seco.heavy_se_g == pytest.approx(6)
    day("close")
    assert row(day, "SE-1").unexplained_g == pytest.approx(10)
    assert not row(day, "SE-1").beyond


def test_more_in_cigars_than_was_issued_is_beyond_at_once() -> None:
    day = Writer()
    day("take", leaf="SE-1", grams=500.0, moisture=0.13)
    day("good", n=100)
    day.check(12.0, 12.0, 12.0)
    day.check(12.0, 12.0, 12.1)
    assert row(day, "SE-1").unexplained_g < -90
    assert row(day, "SE-1").beyond


def test_what_rounding_of_portions_can_do_is_not_beyond() -> None:
    """300 bunches of a portion rounded by up to half of 0.1 g: 8.7 g is one deviation."""
    day = Writer()
    day("take", leaf="SE-1", grams=1800.0 + 15.0, moisture=0.13)
    day("good", n=300)
    day.check(12.0, 12.0)
    day.check(12.0, 12.0)
    day("close")
    assert row(day, "SE-1").heavy_se_g == pytest.approx(0)
    assert not row(day, "SE-1").beyond


def test_a_bench_without_a_check_uses_its_vitolas_mean_and_says_so() -> None:
    """Bench 8 borrows bench 7's 0.2 g; both errors are one error, so they add before squaring."""
    day = Writer()
    day("made", n=100)
    day("made", bench="8", n=50)
    day("good", n=100)
    day("good", bench="8", n=50)
    day.check(12.0, 12.2)
    day.check(12.2, 12.4)
    seco = row(day, "SE-1")
    assert seco.heavy_g == pytest.approx(0.6 * 150 * 0.2)
    assert seco.heavy_se_g == pytest.approx(0.6 * 150 * 0.1)
    assert any("vitola's mean" in w and "8" in w for w in told(day).warnings)


def test_a_vitola_without_any_check_is_said_to_be_unknown() -> None:
    day = Writer()
    day("made", bench="9", n=100)
    day("good", bench="9", n=100)
    assert row(day, "SE-1").heavy_g == 0
    assert row(day, "SE-1").heavy_se_g is None
    assert not row(day, "SE-1").beyond
    assert any("corona" in w for w in told(day).warnings)


def test_a_voided_entry_counts_for_nothing(worked: Writer) -> None:
    before = told(worked).totals
    wrong = worked("made", n=999)
    worked("undo", voids=wrong)
    assert told(worked).totals == before


def test_cuttings_of_a_named_leaf_are_that_leafs() -> None:
    day = Writer()
    day("scrap", grams=30.0, leaf="LI-1", moisture=0.13)
    assert row(day, "LI-1").cuttings_g == pytest.approx(30)
    assert [r.leaf for r in told(day).leaf] == ["LI-1"]


def test_a_binder_goes_by_its_pieces() -> None:
    day = Writer()
    day("take", leaf="BI-1", grams=600.0, moisture=0.13)
    day("good", n=100)
    binder = row(day, "BI-1")
    assert binder.in_good_g == pytest.approx(100 * 2 * 2.4)
    assert binder.unexplained_g == pytest.approx(600 - 480)
    assert not binder.beyond


def test_more_returned_than_issued_is_told() -> None:
    day = Writer()
    day("back", leaf="SE-1", grams=50.0, moisture=0.13)
    assert any("SE-1" in w and "returned" in w for w in told(day).warnings)


def test_first_pass_yield_of_nothing_is_nothing() -> None:
    assert first_pass_yield(0, 0, 0) is None
    assert first_pass_yield(3, 0, 5) is None
