"""Whom to weigh next: the order, and the reason in words."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from core.desk.desk import Desk
from core.desk.faces import Recorded, RoundLine
from core.desk.rounds import overdue_min
from tests.desk.conftest import HOUSE_TOML, HandClock, load


def weigh(desk: Desk, bench: str, *off_g: float, measure: str = "bunch") -> None:
    """A whole check at the bench, its readings so far from target."""
    target = desk.card(bench).targets["bunch"].target_g
    readings = " ".join(f"{target + off:.1f}" for off in off_g)
    outcome = desk.enter(f"{bench} {readings} !", None)
    assert isinstance(outcome, Recorded), outcome


def line(desk: Desk, bench: str) -> RoundLine:
    return next(line for line in desk.rounds() if line.bench == bench)


def order(desk: Desk) -> list[str]:
    return [line.bench for line in desk.rounds()]


def test_in_the_morning_every_bench_waits_for_its_first_piece(desk: Desk) -> None:
    assert order(desk) == ["7", "7-A", "8"]
    assert {line.reason for line in desk.rounds()} == {"first piece"}
    assert line(desk, "8").says == "first piece: not weighed yet today"
    assert line(desk, "8").due is None


def test_first_pieces_come_before_benches_that_are_out_and_those_before_late_ones(
    desk: Desk, clock: HandClock
) -> None:
    weigh(desk, "8", 0, 0, 0)
    clock.forward(minutes=90)
    weigh(desk, "7-A", 0.9, 0.9, 0.9)
    assert order(desk) == ["7", "7-A", "8"]
    assert [line.reason for line in desk.rounds()] == ["first piece", "out", "overdue"]


def test_an_out_check_is_told_by_its_worst_reading(desk: Desk) -> None:
    weigh(desk, "7", 0.1, 0.9, 0.2)
    target = desk.card("7").targets["bunch"].target_g
    says = line(desk, "7").says
    assert says == f"last check out: {target + 0.9:.1f} g of {target:.1f} ± 0.6"


def test_late_benches_come_by_how_late_they_are_then_by_number(
    desk: Desk, clock: HandClock
) -> None:
    weigh(desk, "8", 0, 0, 0)
    clock.forward(minutes=10)
    weigh(desk, "7", 0, 0, 0)
    weigh(desk, "7-A", 0, 0, 0)
    clock.forward(minutes=62)
    assert order(desk) == ["8", "7", "7-A"]
    assert [line.says for line in desk.rounds()] == [
        "overdue by 12 min",
        "overdue by 2 min",
        "overdue by 2 min",
    ]
    late = overdue_min(line(desk, "8"), clock())
    assert late == pytest.approx(12)


def test_a_bench_that_is_not_due_yet_says_when(desk: Desk, clock: HandClock) -> None:
    weigh(desk, "7", 0, 0, 0)
    clock.forward(minutes=52)
    assert line(desk, "7").reason == "due"
    assert line(desk, "7").says == "due in 8 min"


def test_a_mean_beyond_its_error_halves_the_wait_before_anything_is_out(
    desk: Desk, clock: HandClock
) -> None:
    """A third of the tolerance, 0.2 g, is σ until the house has checks: 0.115 g of three."""
    weigh(desk, "7", 0.3, 0.3, 0.3)
    weigh(desk, "8", 0.1, 0.0, 0.1)
    clock.forward(minutes=20)
    assert line(desk, "7").says == "due in 10 min"
    assert line(desk, "8").says == "due in 40 min"


def test_another_vitola_asks_for_a_first_piece_at_once(desk: Desk) -> None:
    weigh(desk, "7", 0, 0, 0)
    assert isinstance(desk.enter("7 roll corona", None), Recorded)
    assert line(desk, "7").reason == "first piece"
    assert line(desk, "7").says == "first piece: now rolls corona"
    weigh(desk, "7", 0, 0, 0)
    assert line(desk, "7").reason == "due"


@pytest.mark.parametrize(
    ("was", "now", "says"),
    [
        ('buncher = "P-07"', 'buncher = "P-70"', "first piece: now P-70 bunches"),
        (
            'roller = "R-07"\nblend = "B1"\nvitola = "toro"',
            'roller = "R-07"\nblend = "B1"\nvitola = "corona"',
            "first piece: now rolls corona",
        ),
    ],
)
def test_a_house_book_that_changes_hands_or_vitola_asks_for_a_first_piece(
    desk: Desk, was: str, now: str, says: str
) -> None:
    weigh(desk, "7", 0, 0, 0)
    weigh(desk, "8", 0, 0, 0)
    load(desk, HOUSE_TOML.replace(was, now))
    assert line(desk, "7").says == says
    assert line(desk, "8").reason == "due"
    weigh(desk, "7", 0, 0, 0)
    assert line(desk, "7").reason == "due"


def test_a_house_book_that_changes_something_else_does_not(desk: Desk) -> None:
    weigh(desk, "7", 0, 0, 0)
    load(desk, HOUSE_TOML.replace("quota = 300", "quota = 310"))
    assert line(desk, "7").reason == "due"


def test_an_undone_check_makes_the_first_piece_due_again(desk: Desk) -> None:
    weigh(desk, "7", 0, 0, 0)
    assert isinstance(desk.enter("undo", None), Recorded)
    assert line(desk, "7").reason == "first piece"


def test_a_check_that_waits_is_mentioned_and_is_no_weigh_in(desk: Desk) -> None:
    assert isinstance(desk.enter("10.8", "7"), Recorded)
    assert line(desk, "7").says == (
        "first piece: not weighed yet today; a check waits with 1 of 3 readings"
    )


def test_what_another_terminal_weighs_moves_the_bench(
    desk: Desk, desk_at: Callable[..., Desk]
) -> None:
    other = desk_at("T2")
    assert order(other)[0] == "7"
    weigh(desk, "7", 0, 0, 0)
    other.follow()
    assert order(other) == ["7-A", "8", "7"]
