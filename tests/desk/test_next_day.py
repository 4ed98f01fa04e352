"""A day corrected after the next has begun: the close tells what that one began with wrongly.

The small house keeps and weighs its leaf at 13 %: grams on the scale are standard grams.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from core.desk.desk import Desk
from core.desk.faces import Recorded
from tests.desk.conftest import HandClock


def says(desk: Desk, *lines: str) -> str:
    told = ""
    for line in lines:
        outcome = desk.enter(line, None, sure=True)
        assert isinstance(outcome, Recorded), outcome
        told = outcome.says
    return told


def closed(desk: Desk) -> str:
    outcome = desk.close_day()
    assert isinstance(outcome, Recorded), outcome
    return outcome.says


@pytest.fixture
def later(desk: Desk, desk_at: Callable[..., Desk], clock: HandClock) -> Desk:
    """A first day with two lots and 25 cigars on hold is closed, and a second has begun."""
    says(desk, "receive LI-1 24-118 2kg", "receive SE-1 S1 5kg", "7 take LI-1 450")
    says(desk, "7 made 50", "7 good 50", "7 hold 25 too wet")
    assert "began with" not in closed(desk)
    clock.forward(days=1)
    second = desk_at("T2")
    says(second, "7 made 10")
    return second


@pytest.fixture
def first(later: Desk, desk_at: Callable[..., Desk]) -> Desk:
    """The first day, opened again on the second."""
    corrected = desk_at("T3", date=later.day.replace(day=4))
    assert isinstance(corrected.reopen("the second take was never typed"), Recorded)
    return corrected


def test_leaf_taken_and_typed_late_is_more_than_the_next_day_has(first: Desk) -> None:
    says(first, "7 take LI-1 300")
    assert closed(first).endswith(
        "2026-05-05 began with 300 g more of LI-1 24-118: set it right, once, with"
        " stock LI-1 24-118 WEIGHT"
    )


def test_leaf_that_came_and_was_typed_late_is_less_than_the_next_day_has(first: Desk) -> None:
    says(first, "receive LI-1 24-200 3kg")
    assert "began with 3000 g less of LI-1 24-200" in closed(first)


def test_cigars_let_go_late_are_still_on_hold_on_the_next_day(first: Desk) -> None:
    says(first, "7 release 5")
    told = closed(first)
    assert "began with 5 more on hold at bench 7: set it right, once, with 7 release 5" in told


def test_all_of_it_is_one_sentence_the_most_leaf_first(first: Desk) -> None:
    says(first, "7 take LI-1 300", "stock SE-1 S1 4kg", "8 made 10", "8 good 9")
    says(first, "8 hold 4 too wet")
    assert (
        "began with 1000 g more of SE-1 S1, 300 g more of LI-1 24-118, 4 less on hold at bench 8:"
        " set it right, once, with stock SE-1 S1 WEIGHT, stock LI-1 24-118 WEIGHT, 8 hold 4 REASON"
    ) in closed(first)


def test_a_correction_that_moves_no_leaf_says_nothing(first: Desk) -> None:
    says(first, "7 good 3")
    assert "began with" not in closed(first)


def test_a_lot_weighed_on_the_next_day_is_right_already(first: Desk, later: Desk) -> None:
    says(later, "stock LI-1 24-118 1.2kg")
    says(first, "7 take LI-1 300")
    assert "began with" not in closed(first)


def test_what_it_says_to_type_sets_it_right(first: Desk, later: Desk) -> None:
    says(first, "7 take LI-1 300", "7 release 5")
    assert "stock LI-1 24-118 WEIGHT, 7 release 5" in closed(first)
    says(later, "stock LI-1 24-118 1.25kg", "7 release 5")
    assert later.ledger.held("7") == first.ledger.held("7") == 20
    (lot,) = later.ledger.lots("LI-1").oldest_first()
    assert lot.on_hand_g == pytest.approx(1250.0)
