"""A ledger asked after every entry says what one says that reads them all at once."""

from __future__ import annotations

import datetime as dt
from typing import Any, cast

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.day.entries import Opening
from core.day.ledger import Ledger
from core.day.lots import lots
from tests.day.book import HOUSE, Writer

DATE = dt.date(2026, 5, 4)
BENCHES = ("7", "8")
LEAVES = ("SE-1", "LI-1")
LOTS = ("L1", "L2", None)
OPENING = cast(
    Opening,
    {
        "house": 1,
        "seats": {},
        "moistures": {},
        "held": {"7": 40},
        "lots": [
            {
                "leaf": "SE-1",
                "lot": "L1",
                "received": "2026-04-02",
                "received_g": 36_000.0,
                "on_hand_g": 1_200.0,
            }
        ],
    },
)

Line = tuple[str, str, dict[str, Any]]

benches = st.sampled_from(BENCHES)
grams = st.integers(1, 5_000).map(float)
moistures = st.sampled_from([0.11, 0.13, 0.15])


def _of_leaf(kinds: list[str], named: tuple[str | None, ...]) -> st.SearchStrategy[Line]:
    def line(kind: str, bench: str, leaf: str, lot: str | None, weight: float, wet: float) -> Line:
        of = {"leaf": leaf, "grams": weight, "moisture": wet}
        return kind, bench, of if lot is None else of | {"lot": lot}

    parts = (st.sampled_from(kinds), benches, st.sampled_from(LEAVES), st.sampled_from(named))
    return st.builds(line, *parts, grams, moistures)


counted = st.tuples(
    st.sampled_from(["made", "good", "second", "hold", "release", "workers", "panel"]),
    benches,
    st.integers(1, 60).map(lambda n: {"n": n}),
)
undone = st.tuples(
    st.just("undo"), benches, st.integers(1, 25).map(lambda number: {"voids": number})
)
days = st.lists(
    counted
    | undone
    | _of_leaf(["take", "back"], LOTS)
    | _of_leaf(["receive", "stocktake"], LOTS[:2])
    | _of_leaf(["stem", "scrap", "sweepings"], (None,)),
    max_size=25,
)


def _told(ledger: Ledger) -> dict[str, object]:
    """All that the new kinds make of the day; asking keeps it ready for the next entry."""
    return {
        "lots": lots(ledger, DATE),
        "held": {bench: ledger.held(bench) for bench in BENCHES},
        "swept": ledger.sweepings(),
        "runs": {bench: ledger.bench(bench).runs for bench in BENCHES},
        "moved": {bench: ledger.bench(bench).moved for bench in BENCHES},
        "offcuts": {bench: ledger.bench(bench).offcuts for bench in BENCHES},
        "carried": ledger.carry(1),
    }


def _day(lines: list[Line], *, asked: bool) -> Ledger:
    day = Writer()
    day.ledger = Ledger({1: HOUSE}, OPENING)
    for kind, bench, fields in lines:
        if kind == "undo" and not day.ledger.live(fields["voids"]):
            continue
        if kind == "undo" and day.ledger.entries[fields["voids"]]["kind"] == "undo":
            continue
        day(kind, bench, **fields)
        if asked:
            _told(day.ledger)
    return day.ledger


@given(days)
@settings(deadline=None, max_examples=60)
def test_what_is_asked_on_the_way_changes_nothing(lines: list[Line]) -> None:
    assert _told(_day(lines, asked=True)) == _told(_day(lines, asked=False))


@given(days)
@settings(deadline=None, max_examples=60)
def test_the_next_day_has_on_hand_and_on_hold_what_this_one_left(lines: list[Line]) -> None:
    today = _day(lines, asked=False)
    tomorrow = Ledger({1: HOUSE}, today.carry(1))
    left = {(s.leaf, s.lot): s.on_hand_g for each in lots(today, DATE).values() for s in each}
    there = {(s.leaf, s.lot): s.on_hand_g for each in lots(tomorrow, DATE).values() for s in each}
    assert there == pytest.approx({lot: left[lot] for lot in there})
    assert all(abs(left[lot]) < 1.0 for lot in left.keys() - there.keys())
    for bench in BENCHES:
        assert tomorrow.held(bench) == today.held(bench) >= 0
