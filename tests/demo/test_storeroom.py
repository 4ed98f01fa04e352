"""The demo's storeroom: all leaf comes from a lot, oldest first, until one runs low."""

from __future__ import annotations

import datetime as dt
from itertools import pairwise
from pathlib import Path

import pytest

from core.day.lots import LEFT_G, lots
from core.desk.desk import Desk
from core.desk.stock import stock_of
from core.entry import requests as ask
from core.house.model import HouseBook
from demo import story
from demo.habits import ISSUED
from demo.house import in_use
from demo.shift import WORKING_DAYS
from demo.today import Typed

Built = tuple[Path, dt.datetime]
ROUNDED_G = 1.0
"""The clerk's scale has whole grams: a lot is used up to the gram."""


@pytest.fixture(scope="module")
def desks(built: Built) -> list[Desk]:
    folder, moment = built
    return [Desk(folder, lambda: moment, "T9", date=date) for date in WORKING_DAYS]


def test_every_leaf_in_use_has_two_or_three_lots_and_all_but_one_are_there_at_the_start(
    house: HouseBook, days: list[tuple[Typed, ...]]
) -> None:
    came = [
        (day, line)
        for day, lines in enumerate(days)
        for line in lines
        if isinstance(line.request, ask.Receive)
    ]
    late = [(day, line) for day, line in came if day > 0 or line.at >= ISSUED]
    assert len(late) == 1
    for code in in_use(house):
        mine = [line.request.lot for _, line in came if line.request.leaf == code]  # type: ignore[union-attr]
        assert len(mine) == len(set(mine)) in (2, 3)


def test_no_lot_is_overdrawn_when_a_day_ends(desks: list[Desk]) -> None:
    for desk in desks:
        for states in lots(desk.ledger, desk.day).values():
            assert all(state.on_hand_g >= -1e-6 for state in states)


def test_all_leaf_is_of_a_lot_and_the_oldest_is_used_up_first(desks: list[Desk]) -> None:
    for desk in desks:
        began = {lot["lot"]: lot["on_hand_g"] for lot in desk.ledger.opening.get("lots", ())}
        for leaf in desk.ledger.stocked():
            moves = [e for e in desk.ledger.stock_entries(leaf) if e["kind"] in ("take", "back")]
            assert all("lot" in move for move in moves)
            states = desk.ledger.lots(leaf).oldest_first()
            touched = [s for s in states if s.issued_g]
            for older, newer in pairwise(touched):
                # All that the older one had was issued before the newer was begun.
                first = next(m["id"] for m in moves if m.get("lot") == newer.lot)
                last = max(
                    m["id"] for m in moves if m.get("lot") == older.lot and m["kind"] == "take"
                )
                assert last < first
                assert older.issued_g > began[older.lot] - LEFT_G - ROUNDED_G


def test_each_leaf_in_use_changes_its_lot_in_the_fortnight(
    house: HouseBook, desks: list[Desk]
) -> None:
    for leaf in in_use(house):
        used = {
            state.lot
            for d in desks
            for state in d.ledger.lots(leaf).oldest_first()
            if state.issued_g
        }
        assert len(used) >= 2


def test_ligero_runs_low_on_the_last_day_and_nothing_else_does(desks: list[Desk]) -> None:
    stock = stock_of(desks[-1])
    house_wide = [short for short in stock.shortages if short.bench is None]
    assert [short.leaf for short in house_wide] == ["LI-2"]
    row = next(row for row in stock.leaves if row.leaf == "LI-2")
    assert row.on_hand_g is not None
    assert 0 < row.on_hand_g < row.needed_g
    others = [row.cover_days for row in stock.leaves if row.planned_g and row.leaf != "LI-2"]
    assert all(cover is not None and cover > 1 for cover in others)
    assert not stock.overdrawn


def test_the_count_sets_the_records_a_little_lower(desks: list[Desk]) -> None:
    ((day, counted),) = story.COUNTED.items()
    states = lots(desks[day].ledger, desks[day].day)[counted.leaf]
    (adjusted,) = (state for state in states if state.adjusted_g)
    expected_g = (counted.found - 1) * (adjusted.on_hand_g - adjusted.adjusted_g)
    assert adjusted.adjusted_g == pytest.approx(expected_g, abs=6)  # weighed to 10 g


def test_what_is_put_on_hold_is_carried_until_it_is_let_go(desks: list[Desk]) -> None:
    held = [{b: n for b in ("8", "14", "19") if (n := desk.ledger.held(b))} for desk in desks]
    assert held[2:6] == [{}, {"19": 50}, {"19": 50}, {}]
    assert held[-2:] == [{"8": 40}, {"8": 25, "14": 25}]
