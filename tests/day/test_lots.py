"""Lots: what came, went out, came back and was found; the oldest first; no leaf out of thin air."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.day.entries import CarriedLot
from core.day.ledger import Ledger
from core.day.lots import LotState, carried, in_use, lots, propose, short_by
from tests.day.book import HOUSE
from tests.stock.shelf import DATE, Shelf

OLD: CarriedLot = {
    "leaf": "SE-1",
    "lot": "24-118",
    "received": "2026-04-02",
    "received_g": 36_000.0,
    "on_hand_g": 1_200.0,
    "crop": 2023,
    "bales": 3,
    "price_per_kg": 24.0,
}


def of(shelf: Shelf, lot: str = "24-118") -> LotState:
    return next(state for state in lots(shelf.ledger, DATE)["SE-1"] if state.lot == lot)


def test_a_lot_goes_on_from_what_the_day_before_left() -> None:
    shelf = Shelf(lots=[OLD])
    shelf.take("24-118", 450.0)
    shelf.back("24-118", 60.0)
    lot = of(shelf)
    moved = (lot.issued_g, lot.returned_g, lot.on_hand_g, lot.opening_g)
    assert moved == pytest.approx((450.0, 60.0, 810.0, 1_200.0))
    assert (lot.came_g, lot.received) == (36_000.0, dt.date(2026, 4, 2))
    assert (lot.crop, lot.bales, lot.price_per_kg) == (2023, 3, 24.0)


def test_grams_are_those_at_standard_moisture() -> None:
    """1,000 g at 20 % hold 800 g of dry leaf, which at 13 % weigh 800 / 0.87 g."""
    shelf = Shelf()
    shelf.receive("24-120", 1_000.0, moisture=0.20)
    assert of(shelf, "24-120").on_hand_g == pytest.approx(800 / 0.87)


def test_a_count_of_the_shelf_is_what_stock_goes_on_from() -> None:
    shelf = Shelf(lots=[OLD])
    shelf.take("24-118", 450.0)
    shelf.found("24-118", 700.0)
    shelf.take("24-118", 100.0)
    assert (of(shelf).adjusted_g, of(shelf).on_hand_g) == pytest.approx((-50.0, 600.0))


def test_a_voided_entry_counts_no_more_and_a_later_count_stands() -> None:
    shelf = Shelf(lots=[OLD])
    taken = shelf.take("24-118", 450.0)
    shelf.undo(taken)
    assert of(shelf).on_hand_g == 1_200.0
    taken = shelf.take("24-118", 450.0)
    shelf.found("24-118", 700.0)
    shelf.undo(taken)
    assert (of(shelf).adjusted_g, of(shelf).on_hand_g) == pytest.approx((-500.0, 700.0))


def test_the_oldest_lot_with_leaf_left_is_issued_first() -> None:
    shelf = Shelf(lots=[OLD])
    shelf.receive("24-131", 20_000.0)
    assert propose(shelf.ledger, "SE-1", "7", "take") == "24-118"
    shelf.take("24-118", 1_199.5)
    assert propose(shelf.ledger, "SE-1", "7", "take") == "24-131"
    shelf.take("24-131", 20_000.0)
    assert propose(shelf.ledger, "SE-1", "7", "take") == "24-131"


def test_leaf_goes_back_to_the_lot_the_bench_last_took() -> None:
    shelf = Shelf(lots=[OLD])
    shelf.receive("24-131", 20_000.0)
    assert propose(shelf.ledger, "SE-1", "7", "back") == "24-118"
    shelf.take("24-131", 400.0)
    assert propose(shelf.ledger, "SE-1", "7", "back") == "24-131"
    assert propose(shelf.ledger, "SE-1", "8", "back") == "24-118"


def test_leaf_in_no_lots_has_none_proposed() -> None:
    shelf = Shelf(lots=[OLD])
    shelf.take(None, 400.0, leaf="LI-1")
    assert propose(shelf.ledger, "LI-1", "7", "take") is None
    assert propose(shelf.ledger, "LI-1", "7", "back") is None
    assert list(lots(shelf.ledger, DATE)) == ["SE-1"]


def test_what_a_take_would_lack_is_known_before_it_is_recorded() -> None:
    shelf = Shelf(lots=[OLD])
    assert short_by(shelf.ledger, "SE-1", "24-118", 1_200.0, 0.13) == 0.0
    assert short_by(shelf.ledger, "SE-1", "24-118", 1_450.0, 0.13) == pytest.approx(250.0)
    assert short_by(shelf.ledger, "SE-1", "24-999", 100.0, 0.13) == pytest.approx(100.0)
    assert shelf.take("24-118", 1_450.0)
    assert short_by(shelf.ledger, "SE-1", "24-118", 10.0, 0.13) == pytest.approx(260.0)


def test_the_very_first_take_of_a_house_is_judged_too() -> None:
    ledger = Ledger({1: HOUSE})
    assert short_by(ledger, "SE-1", "24-118", 100.0, 0.13) == pytest.approx(100.0)


def test_more_of_a_lot_keeps_its_day_and_means_its_price() -> None:
    shelf = Shelf(lots=[OLD])
    shelf.receive("24-118", 12_000.0, bales=1, price_per_kg=28.0)
    lot = of(shelf)
    assert (lot.received, lot.bales, lot.came_g) == (dt.date(2026, 4, 2), 4, 48_000.0)
    assert lot.price_per_kg == pytest.approx((36 * 24 + 12 * 28) / 48)


def test_the_next_day_starts_with_what_is_left_and_what_moved() -> None:
    empty: CarriedLot = {**OLD, "lot": "23-77", "on_hand_g": 0.0}
    shelf = Shelf(lots=[empty, OLD])
    shelf.receive("24-131", 20_000.0, crop=2024)
    after = carried(shelf.ledger)
    assert after[0] == OLD
    assert after[1] == {
        "leaf": "SE-1", "lot": "24-131", "received": "2026-05-04", "received_g": 20_000.0,
        "on_hand_g": 20_000.0, "crop": 2024,
    }  # fmt: skip
    assert len(after) == 2
    assert Shelf(lots=after).ledger.opening["lots"] == carried(Shelf(lots=after).ledger)


def test_a_house_without_lots_carries_none() -> None:
    shelf = Shelf()
    shelf.take(None, 400.0)
    assert carried(shelf.ledger) == []
    assert in_use(()) is None


GRAMS = st.floats(1.0, 50_000.0)
MOVES = st.lists(
    st.tuples(
        st.sampled_from(["receive", "take", "back", "found", "undo"]),
        st.sampled_from(["A", "B"]),
        GRAMS,
        st.floats(0.08, 0.4),
    ),
    max_size=40,
)


@settings(deadline=None, max_examples=40)
@given(MOVES, st.floats(0.0, 50_000.0))
def test_on_hand_is_opening_received_and_adjusted_less_issued_with_returned(
    moves: list[tuple[str, str, float, float]], opening_g: float
) -> None:
    shelf = Shelf(lots=[{**OLD, "lot": "A", "on_hand_g": opening_g}])
    for kind, lot, grams, moisture in moves:
        more: dict[str, Any] = {"moisture": moisture}
        if kind == "receive":
            shelf.receive(lot, grams, **more)
        elif kind == "found":
            shelf.found(lot, grams)
        elif kind == "undo":
            shelf.undo(1 + int(grams) % max(1, len(shelf.ledger.entries)))
        elif kind == "take":
            wanted = short_by(shelf.ledger, "SE-1", lot, grams, moisture)
            shelf.take(lot, grams, **more)
            after = of(shelf, lot).on_hand_g
            assert wanted == pytest.approx(max(0.0, -after), abs=1e-6)
        else:
            shelf.back(lot, grams, **more)
    overdrawn = shelf.stock().overdrawn
    for state in lots(shelf.ledger, DATE)["SE-1"]:
        began = opening_g if state.lot == "A" else 0.0
        flows = state.received_g + state.adjusted_g - state.issued_g + state.returned_g
        assert state.on_hand_g == pytest.approx(began + flows, abs=1e-6)
        assert (state in overdrawn) == (state.on_hand_g <= -1.0)
    left = {lot["lot"]: lot["on_hand_g"] for lot in carried(shelf.ledger)}
    for state in lots(shelf.ledger, DATE)["SE-1"]:
        assert left.get(state.lot, 0.0) == pytest.approx(state.on_hand_g, abs=1.0)
