"""A house that charts ranges: seen on the chart, learned from, carried to the next day."""

from __future__ import annotations

import pytest

from core.desk.desk import Desk
from core.desk.faces import BenchChart, Recorded
from tests.desk.conftest import HOUSE_TOML, HandClock, load

RANGES = HOUSE_TOML.replace('name = "Test house"', 'name = "Test house"\nspread_chart = "range"')
READINGS = ("10.8 10.9 11.0", "10.7 10.9 10.8", "10.6 10.8 11.0")


def weighed(desk: Desk) -> BenchChart:
    for readings in READINGS:
        assert isinstance(desk.enter(f"7 {readings}", None), Recorded)
    return desk.chart("7")


def test_the_spread_shown_is_the_range(desk: Desk) -> None:
    load(desk, RANGES)
    chart = weighed(desk)
    assert chart.spread == "range"
    assert [point.spread for point in chart.points] == pytest.approx([0.2, 0.2, 0.4])


def test_a_house_that_says_nothing_charts_deviations(desk: Desk) -> None:
    chart = weighed(desk)
    assert chart.spread == "deviation"
    assert [point.spread for point in chart.points] == pytest.approx([0.1, 0.1, 0.2])


def test_ranges_are_carried_to_the_next_day(desk: Desk, clock: HandClock) -> None:
    load(desk, RANGES)
    weighed(desk)
    clock.forward(days=1)
    assert isinstance(desk.enter("7 10.8 10.9 11.1", None), Recorded)
    spreads = [point.spread for point in desk.chart("7").points]
    assert spreads == pytest.approx([0.2, 0.2, 0.4, 0.3])


def test_checks_from_before_the_choice_have_a_mean_and_no_spread(
    desk: Desk, clock: HandClock
) -> None:
    weighed(desk)
    clock.forward(days=1)
    load(desk, RANGES)
    assert isinstance(desk.enter("7 10.8 10.9 11.1", None), Recorded)
    spreads = [point.spread for point in desk.chart("7").points]
    assert spreads[:3] == [None] * 3
    assert spreads[3] == pytest.approx(0.3)
