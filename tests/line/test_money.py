"""Loss, excise, and what a bench's time earns."""

from __future__ import annotations

import pytest

from core.house.model import Approved, Bench, Excise, HouseBook, Vitola
from core.line.earning import pieces_a_day
from core.line.excise import excise_due
from core.line.loss import loss_of
from core.line.sheet import LineSheet, line_sheet
from core.units import G_PER_LB
from tests.recipe.workshop import RULES, workshop

PUBLISHED = Excise(rate=0.5275, cap_per_1000=402.60, above_g=3 * G_PER_LB / 1000)
"""26 U.S.C. 5701(a)(2), as published: 52.75 % of the price sold for, at most 40.26 cents each,
for cigars of more than 3 lb per thousand. An aid only; the current text decides."""


@pytest.mark.parametrize(
    ("price", "due"), [(500, 263.75), (1000, 402.60), (763.222, 402.60), (700, 369.25)]
)
def test_excise_as_published(price: float, due: float) -> None:
    """27 CFR 41.31: the cap is reached at 763.222 per thousand."""
    assert excise_due(PUBLISHED, price, 15.0) == pytest.approx(due, abs=0.0005)


def test_the_weight_threshold_as_published() -> None:
    """26 U.S.C. 5701(a): large cigars weigh more than 3 lb per thousand, 1.36077711 g each."""
    assert pytest.approx(1.36077711, abs=5e-9) == PUBLISHED.above_g
    assert excise_due(PUBLISHED, 500, 1.3607) is None
    assert excise_due(PUBLISHED, 500, 1.3608) == pytest.approx(263.75)


def test_nothing_is_due_by_a_house_that_gives_no_rate_or_no_price() -> None:
    assert excise_due(None, 500, 15.0) is None
    assert excise_due(PUBLISHED, None, 15.0) is None
    assert excise_due(Excise(rate=0.10), 5000, 15.0) == pytest.approx(500)


def house(
    *, allowance: float = 0, hours_min: float | None = None, excise: Excise | None = None
) -> HouseBook:
    plain = workshop(
        Vitola(code="robusto", ring=50, length_mm=127, piece_rate=60, box=36, price=1000),
        Vitola(code="figura", ring=52, length_mm=140, piece_rate=100, box=36, price=1100),
        Vitola(code="unsold", ring=44, length_mm=140, piece_rate=60, box=36),
        approved=[Approved(vitola="robusto", filler_g=12.0)],
        rules=RULES._replace(loss_allowance=allowance, hours_min=hours_min),
    )
    seats = (("1", "robusto", 300), ("2", "robusto", 340), ("3", "figura", 200), ("4", "unsold", 9))
    return plain._replace(
        excise=excise,
        benches=tuple(Bench(number=n, blend="B1", vitola=v, quota=q) for n, v, q in seats),
    )


def sheet(of: HouseBook, leaf_yield: float | None = None) -> LineSheet:
    return line_sheet(of, "B1", {}, leaf_yield=leaf_yield)


def test_a_measured_yield_comes_before_the_houses_allowance() -> None:
    assert loss_of(house(), None) is None
    assert loss_of(house(allowance=0.08), None) == (0.92, "house")
    assert loss_of(house(allowance=0.08), 0.9) == (0.9, "measured")
    assert loss_of(house(), 1.02) == (1.0, "measured")


def test_lost_filler_is_paid_for() -> None:
    """At a yield of 80 %, 12 kg in 1,000 good cigars are 15 kg used: 3 kg more, at 20.6 a kg."""
    without, lossy = (sheet(house(), y).vitolas[0].cost for y in (None, 0.8))
    assert without.loss is None
    assert lossy.filler == without.filler == pytest.approx(12 * 20.6)
    assert lossy.loss == pytest.approx(3 * 20.6)
    assert lossy.total is not None
    assert without.total is not None
    assert lossy.total - without.total == pytest.approx(3 * 20.6)


def test_excise_comes_off_the_margin_and_is_no_cost() -> None:
    plain, taxed = (sheet(house(excise=e)).vitolas[0].cost for e in (None, PUBLISHED))
    assert (plain.excise, plain.after_excise) == (None, None)
    assert taxed.total == plain.total
    assert taxed.excise == pytest.approx(402.60)
    assert taxed.margin is not None
    assert taxed.after_excise == pytest.approx(taxed.margin - 402.60)


def test_pieces_a_day_are_the_mean_quota() -> None:
    assert pieces_a_day(house(), "B1", "robusto") == 320
    assert pieces_a_day(house(), "other", "robusto") == 320
    assert pieces_a_day(house(), "B1", "toro") is None


def test_what_earns_most_for_a_benchs_time_comes_first() -> None:
    found = sheet(house(hours_min=480)).earnings
    assert [each.vitola for each in found] == ["robusto", "figura"]
    robusto = found[0]
    margin = sheet(house()).vitolas[0].cost.margin
    assert margin is not None
    assert robusto.per_1000 == margin
    assert robusto.per_bench_day == pytest.approx(margin * 0.32)
    assert robusto.per_bench_hour == pytest.approx(margin * 0.32 / 8)


def test_without_hours_it_is_told_by_the_day() -> None:
    found = sheet(house(excise=PUBLISHED)).earnings
    assert found[0].per_bench_hour is None
    assert found[1].per_1000 == sheet(house(excise=PUBLISHED)).vitolas[0].cost.after_excise
