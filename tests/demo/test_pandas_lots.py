"""The lots of the demo's fortnight, counted again by pandas from the raw lines of its books."""

from __future__ import annotations

import pandas as pd
import pytest

from core.day.lots import LEFT_G
from core.day.summary import DaySummary
from tests.demo.frames import Frame

LOT = ["leaf", "lot"]
MOVED = ["received_g", "issued_g", "returned_g", "adjusted_g"]
HUNDREDTH = 0.0051
"""A summary keeps hundredths of a gram."""


@pytest.fixture(scope="session")
def stock(raw: Frame) -> Frame:
    """Every move of a lot with what was then on hand: a count sets it, the others add to it."""
    moves = raw[raw["lot"].notna()].copy()
    kind, grams = moves["kind"], moves["standard_g"]
    moves["received_g"] = grams.where(kind == "receive", 0.0)
    moves["issued_g"] = grams.where(kind == "take", 0.0)
    moves["returned_g"] = grams.where(kind == "back", 0.0)
    lot = [moves["leaf"], moves["lot"]]
    since_count = (kind == "stocktake").groupby(lot).cumsum()
    flow = grams.where(kind != "take", -grams)
    moves["on_hand_g"] = flow.groupby([*lot, since_count]).cumsum()
    before = moves["on_hand_g"].groupby(lot).shift(fill_value=0.0)
    moves["adjusted_g"] = (moves["on_hand_g"] - before).where(kind == "stocktake", 0.0)
    return moves


def test_no_lot_is_ever_short(stock: Frame) -> None:
    assert set(stock["kind"]) == {"receive", "take", "back", "stocktake"}
    assert stock["on_hand_g"].min() > -1e-6


def test_lots_on_hand_and_moved_each_day(stock: Frame, kept: list[DaySummary]) -> None:
    for day in kept:
        found = pd.DataFrame(dict(day["lots"])).set_index(LOT)
        on_hand = stock[stock["date"] <= day["date"]].groupby(LOT)["on_hand_g"].last()
        assert (on_hand.drop(found.index) < LEFT_G).all()  # used up, and carried no further
        mine = on_hand.loc[found.index].to_numpy()
        assert found["on_hand_g"].to_numpy() == pytest.approx(mine, abs=HUNDREDTH)
        today = stock[stock["date"] == day["date"]].groupby(LOT)[MOVED].sum()
        moved = today.reindex(found.index, fill_value=0.0).to_numpy()
        assert found[MOVED].to_numpy() == pytest.approx(moved, abs=HUNDREDTH)


def test_only_the_count_adjusts_and_all_that_came_is_on_hand_or_used(
    stock: Frame, kept: list[DaySummary]
) -> None:
    (adjusted_g,) = stock.loc[stock["kind"] == "stocktake", "adjusted_g"]
    assert adjusted_g < 0
    used_g = stock["issued_g"].sum() - stock["returned_g"].sum()
    on_hand_g = stock.groupby(LOT)["on_hand_g"].last().sum()
    assert stock["received_g"].sum() + adjusted_g == pytest.approx(used_g + on_hand_g)
    told_g = sum(sum(day["leaf"]["used_g"]) for day in kept)
    assert used_g == pytest.approx(told_g, abs=1)
