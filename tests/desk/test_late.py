"""What was recorded after a day was first closed is known as late wherever it is shown."""

from __future__ import annotations

from collections.abc import Callable

from core.desk.desk import Desk
from core.desk.faces import Recorded
from tests.desk.conftest import HandClock


def typed(desk: Desk, *lines: str) -> None:
    for line in lines:
        outcome = desk.enter(line, None, sure=True)
        assert isinstance(outcome, Recorded), outcome


def corrected(desk: Desk, clock: HandClock) -> Desk:
    typed(desk, "7 made 50", "7 good 40")
    assert isinstance(desk.close_day(), Recorded)
    clock.forward(minutes=30)
    assert isinstance(desk.reopen("bundle found"), Recorded)
    typed(desk, "7 good 5", "undo", "7 good 6")
    assert isinstance(desk.close_day(), Recorded)
    return desk


def test_a_day_without_a_close_has_nothing_late(desk: Desk) -> None:
    typed(desk, "7 made 50", "7 good 40")
    assert desk.since_close() == ()
    assert not any(line.late for line in desk.log())


def test_nothing_is_late_before_somebody_corrects_the_closed_day(desk: Desk) -> None:
    typed(desk, "7 made 50")
    desk.close_day()
    assert desk.since_close() == ()
    assert not any(line.late for line in desk.log())


def test_the_log_marks_corrections_and_not_the_opening_again(desk: Desk, clock: HandClock) -> None:
    log = corrected(desk, clock).log()
    assert [(line.id, line.late) for line in log] == [
        (8, False), (7, True), (6, True), (5, True), (4, False), (3, False), (2, False), (1, False),
    ]  # fmt: skip


def test_what_came_since_the_close_is_told_oldest_first(
    desk: Desk, clock: HandClock, desk_at: Callable[..., Desk]
) -> None:
    corrected(desk, clock)
    for each in (desk, desk_at("T2")):
        since = each.since_close()
        assert [line.id for line in since] == [4, 5, 6, 7, 8]
        assert "bundle found" in since[0].says
        assert since[1].voided_by == 6
        assert sum(line.late for line in since) == each.report().late == 3
