"""Have I leaf enough: days of cover, what lies on the benches, what runs out when.

A toro of the small house takes 6 g of SE-1, 4 g of LI-1, two binder pieces of 2.4 g, one
wrapper piece of 2 g; bench 7 is to make 300 a day, benches 8 and 9 have no quota.
"""

from __future__ import annotations

import datetime as dt

import pytest

from core.stock.benches import OnBench
from core.stock.stock import LeafStock, Stock, soonest
from core.stock.written import STOCK_HEAD, stock_json, stock_table
from tests.day.book import HOUSE
from tests.stock.shelf import MORNING, Shelf


def leaf(stock: Stock, code: str) -> LeafStock:
    return next(row for row in stock.leaves if row.leaf == code)


def bench(stock: Stock, number: str, code: str) -> OnBench:
    return next(row for row in stock.benches if (row.bench, row.leaf) == (number, code))


def working() -> Shelf:
    """Bench 7 took leaf for 150 cigars at 8:00 and has made 50 by 10:00: 25 an hour."""
    shelf = Shelf()
    shelf.receive("24-118", 9_000.0)
    shelf.take("24-118", 900.0)
    shelf.take(None, 600.0, leaf="LI-1")
    shelf.now += dt.timedelta(hours=2)
    shelf.at_bench("made", n=50)
    return shelf


def test_days_of_cover_are_what_is_on_hand_by_the_planned_quota() -> None:
    shelf = Shelf()
    shelf.receive("24-118", 9_000.0)
    row = leaf(shelf.stock(), "SE-1")
    assert row.planned_g == pytest.approx(1_800.0)
    assert row.cover_days == pytest.approx(5.0)
    assert leaf(shelf.stock(), "LI-1").cover_days is None
    assert leaf(shelf.stock(), "LI-1").on_hand_g is None


def test_more_is_planned_where_the_house_allows_for_loss() -> None:
    rules = HOUSE.house._replace(loss_allowance=0.10)
    shelf = Shelf(HOUSE._replace(house=rules))
    assert leaf(shelf.stock(), "SE-1").planned_g == pytest.approx(1_800.0 / 0.9)
    assert leaf(shelf.stock(), "BI-1").planned_g == pytest.approx(300 * 4.8)


def test_on_a_bench_lies_what_it_took_less_what_its_bunches_used() -> None:
    shelf = working()
    shelf.back("24-118", 100.0)
    row = bench(shelf.stock(), "7", "SE-1")
    assert (row.issued_g, row.returned_g) == pytest.approx((900.0, 100.0))
    assert row.left_g == pytest.approx(900 - 100 - 50 * 6)
    assert leaf(shelf.stock(), "SE-1").on_benches_g == pytest.approx(500.0)


def test_bunches_nobody_counted_are_told_by_what_was_inspected() -> None:
    shelf = working()
    shelf.at_bench("good", n=60)
    shelf.at_bench("fail", faults={"torn": 5})
    assert bench(shelf.stock(), "7", "SE-1").left_g == pytest.approx(900 - 65 * 6)


def test_a_bench_runs_out_by_its_pace_today() -> None:
    """600 g of SE-1 left at 150 g an hour last four hours; the quota needs 1,500 g more."""
    found = working().stock()
    assert bench(found, "7", "SE-1").hourly_g == pytest.approx(150.0)
    assert bench(found, "7", "SE-1").out_at == MORNING + dt.timedelta(hours=6)
    assert bench(found, "7", "LI-1").out_at == MORNING + dt.timedelta(hours=6)
    assert [(s.leaf_class, s.bench) for s in found.shortages] == [("seco", "7"), ("ligero", "7")]
    assert [short.leaf for short in soonest(found.shortages)] == ["SE-1"]


def test_a_bench_with_leaf_for_its_quota_runs_out_of_none() -> None:
    shelf = working()
    shelf.take("24-118", 900.0)
    shelf.take(None, 600.0, leaf="LI-1")
    assert shelf.stock().shortages == ()


def test_a_bench_that_used_more_than_it_took_is_out_now() -> None:
    shelf = working()
    shelf.at_bench("made", n=150)
    assert bench(shelf.stock(), "7", "SE-1").left_g == pytest.approx(-300.0)
    assert bench(shelf.stock(), "7", "SE-1").out_at == shelf.now


def test_no_pace_is_told_before_a_quarter_of_an_hour() -> None:
    shelf = Shelf()
    shelf.take(None, 100.0)
    shelf.now += dt.timedelta(minutes=14)
    shelf.at_bench("made", n=10)
    assert bench(shelf.stock(), "7", "SE-1").hourly_g is None
    assert shelf.stock().shortages == ()


def test_leaf_that_no_one_took_down_is_not_said_to_run_out() -> None:
    shelf = Shelf()
    shelf.at_bench("made", n=1)
    shelf.now += dt.timedelta(hours=1)
    shelf.at_bench("made", n=50)
    assert shelf.stock().shortages == ()


def test_without_a_quota_only_what_is_near_is_told() -> None:
    """Bench 8 rolls 20 an hour, 120 g of SE-1."""
    shelf = Shelf()
    shelf.take(None, 240.0 + 479.0, bench="8")
    shelf.now += dt.timedelta(hours=2)
    shelf.at_bench("made", bench="8", n=40)
    assert [short.bench for short in shelf.stock().shortages] == ["8"]
    shelf.take(None, 2.0, bench="8")
    assert shelf.stock().shortages == ()


def test_the_house_is_short_where_the_rest_of_the_quotas_needs_more_than_there_is() -> None:
    """800 g on hand and 600 g at the bench; 250 cigars still need 1,500 g at 150 g an hour."""
    shelf = working()
    shelf.found("24-118", 800.0)
    row = leaf(shelf.stock(), "SE-1")
    assert row.needed_g == pytest.approx(1_500 - 600)
    assert row.short_g == pytest.approx(100.0)
    first = shelf.stock().shortages[0]
    assert (first.bench, first.leaf) == (None, "SE-1")
    assert first.at == shelf.now + dt.timedelta(hours=1_400 / 150)


def test_a_lot_that_went_below_nothing_is_told() -> None:
    shelf = working()
    shelf.take("24-118", 9_000.0)
    assert [lot.lot for lot in shelf.stock().overdrawn] == ["24-118"]
    assert leaf(shelf.stock(), "SE-1").cover_days == 0.0


def test_the_json_and_the_table_have_a_row_a_lot() -> None:
    shelf = working()
    shelf.receive("24-131", 5_000.0, crop=2024)
    found = stock_json(shelf.stock())
    assert isinstance(found["leaf"], list)
    seco = found["leaf"][0]
    assert (seco["leaf"], seco["class"], seco["lot"]) == ("SE-1", "seco", "24-118")
    assert [lot["lot"] for lot in seco["lots"]] == ["24-118", "24-131"]
    assert seco["on_hand_g"] == pytest.approx(13_100.0)
    head, first, second, *rest = stock_table(shelf.stock())
    assert head == STOCK_HEAD
    assert (*first[:3], first[-1]) == ("SE-1", "seco", "24-118", "yes")
    assert (*second[:3], second[-1]) == ("SE-1", "seco", "24-131", "no")
    assert all(len(row) == len(head) for row in rest)
