"""What 1,000 pieces cost, and the price facts of the trade."""

from __future__ import annotations

import pytest

from core.house.model import Approved, HouseBook, Vitola
from core.line.cost import Cost
from core.line.sheet import line_sheet
from tests.recipe.workshop import (
    BINDER,
    FIVE_BY_FIFTY,
    LB_PER_1000,
    LIGERO,
    SECO,
    SIX_BY_SIXTY,
    VOLADO,
    WRAPPER,
    workshop,
)


def two_sizes(first_price: float, second_price: float) -> HouseBook:
    """5 in × 50 from 35 lb of filler per 1,000, 6 in × 60 from 70 lb: common practice."""
    return workshop(
        FIVE_BY_FIFTY._replace(price=first_price, piece_rate=60, box=35),
        SIX_BY_SIXTY._replace(price=second_price, piece_rate=70, box=40),
        approved=[
            Approved(vitola="5x50", filler_g=35 * LB_PER_1000),
            Approved(vitola="6x60", filler_g=70 * LB_PER_1000),
        ],
    )


def costs(house: HouseBook, reference: str | None = None) -> dict[str, Cost]:
    sheet = line_sheet(house, "B1", {}, reference=reference)
    return {row.vitola: row.cost for row in sheet.vitolas}


def test_covers_cost_the_same_in_both_sizes() -> None:
    """Common practice, no source: binder and wrapper cost per cigar do not change."""
    small, large = costs(two_sizes(700, 950)).values()
    assert (small.binder, small.wrapper) == (large.binder, large.wrapper)
    assert small.filler is not None
    assert large.filler == pytest.approx(2 * small.filler)


def test_a_price_that_followed_the_filler_would_double() -> None:
    """Common practice, no source: where the first sells at 7, the second sells at 9 to 10."""
    small, large = costs(two_sizes(7000, 9500)).values()
    assert small.price_by_filler == pytest.approx(7000)
    assert large.price_by_filler == pytest.approx(14000)
    assert large.price == 9500
    assert costs(two_sizes(7000, 9500), "6x60")["5x50"].price_by_filler == pytest.approx(4750)


def test_costs_worked_by_hand() -> None:
    """35 lb are 15.87573 kg: 3 parts at 18, 5 at 20, 2 at 26 = 20.6 a kg, 327.04 per 1,000.

    Binder 2 × 2.4 g = 4.8 kg at 24 = 115.20; wrapper 2.0 kg at 70 = 140.00.
    """
    small = costs(two_sizes(900, 1200))["5x50"]
    assert small.filler == pytest.approx(327.04, abs=0.005)
    assert small.binder == pytest.approx(115.20)
    assert small.wrapper == pytest.approx(140.00)
    assert (small.labour, small.box) == (60, 35)
    assert small.total == pytest.approx(677.24, abs=0.005)
    assert small.margin == pytest.approx(222.76, abs=0.005)
    assert small.left_out == ()


def test_lines_without_a_figure_are_left_out_and_named() -> None:
    unpriced = SECO._replace(price_per_kg=None)
    house = workshop(
        Vitola(code="toro", ring=52, length_mm=150, box=30),
        approved=[Approved(vitola="toro", filler_g=16)],
        leaves=(VOLADO, unpriced, LIGERO, BINDER, WRAPPER),
    )
    found = costs(house)["toro"]
    assert (found.filler, found.labour, found.price, found.margin) == (None, None, None, None)
    assert found.price_by_filler is None
    assert found.total == pytest.approx(115.20 + 140.00 + 30)
    assert found.left_out == ("filler", "labour")


def test_a_house_without_any_figure_has_no_total() -> None:
    leaves = tuple(
        leaf._replace(price_per_kg=None) for leaf in (VOLADO, SECO, LIGERO, BINDER, WRAPPER)
    )
    house = workshop(
        Vitola(code="toro", ring=52, length_mm=150, price=300),
        approved=[Approved(vitola="toro", filler_g=16)],
        leaves=leaves,
    )
    found = costs(house)["toro"]
    assert (found.total, found.margin) == (None, None)
    assert found.left_out == ("filler", "binder", "wrapper", "labour", "box")
