"""A bench's control chart at the desk: its points, its limits, and what it says."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

import pytest

from core.control.capability import Capability, Unjudged
from core.desk.desk import Desk
from core.desk.faces import Recorded
from core.problems import BadInput
from tests.desk.conftest import HOUSE_TOML, HandClock, load

QUIET = ((-0.1, 0.0, 0.1), (0.2, 0.0, -0.1), (-0.2, 0.1, 0.0), (-0.1, -0.1, 0.2))
"""Checks around their target: grams."""


def weigh(desk: Desk, bench: str, off_g: Sequence[float], by: str = "bunch") -> int:
    """A whole check, its readings so far from today's target; its entry's number."""
    target = desk.card(bench).targets[by].target_g
    readings = " ".join(f"{target + off:.2f}" for off in off_g)
    outcome = desk.enter(f"{bench} {'' if by == 'bunch' else by} {readings} !", None)
    assert isinstance(outcome, Recorded), outcome
    return outcome.entry


def weigh_on(
    desk: Desk, clock: HandClock, bench: str, checks: int, by_g: float = 0.0, apart_min: float = 5
) -> None:
    for n in range(checks):
        clock.forward(minutes=apart_min)
        weigh(desk, bench, [off + by_g for off in QUIET[n % len(QUIET)]])


def test_a_bench_never_weighed_has_an_empty_chart_with_its_window(desk: Desk) -> None:
    chart = desk.chart("7")
    assert (chart.points, chart.source, chart.sigma) == ((), None, None)
    assert chart.measure == "bunch"
    assert (chart.low, chart.high) == pytest.approx((-0.6, 0.6))
    assert chart.advice == "too few checks to tell: 0 of the 5 it takes"
    assert chart.capability == Unjudged(0, "too_few")


def test_a_bench_that_is_not_there_is_said_so(desk: Desk) -> None:
    with pytest.raises(BadInput, match="no bench 70"):
        desk.chart("70")
    with pytest.raises(BadInput, match="no window for draw"):
        desk.chart("7", "draw")


def test_points_are_the_checks_and_a_reading_typed_is_on_at_once(desk: Desk) -> None:
    assert desk.chart("7").points == ()
    first = weigh(desk, "7", (0.1, 0.2, 0.0))
    assert [point.check for point in desk.chart("7").points] == [first]
    second = weigh(desk, "7", (0.2, 0.2, 0.2))
    points = desk.chart("7").points
    assert [point.check for point in points] == [first, second]
    assert points[1].readings == 3
    assert points[1].deviation - points[0].deviation == pytest.approx(0.1)
    assert points[1].spread == pytest.approx(0)


def test_an_undone_check_is_off_the_chart(desk: Desk) -> None:
    weigh(desk, "7", (0.1, 0.2, 0.0))
    desk.chart("7")
    desk.enter("undo", None)
    assert desk.chart("7").points == ()


def test_a_moisture_measured_between_does_not_break_the_chart(desk: Desk) -> None:
    weigh(desk, "7", (0.0, 0.1, 0.0))
    before = desk.card("7").targets["bunch"].target_g
    assert isinstance(desk.enter("SE-1 20.0% !", None), Recorded)
    assert desk.card("7").targets["bunch"].target_g > before + 0.3
    weigh(desk, "7", (0.0, 0.1, 0.0))
    deviations = [point.deviation for point in desk.chart("7").points]
    assert deviations[0] == pytest.approx(deviations[1], abs=0.1)


def test_few_checks_are_judged_by_the_house_and_eight_by_their_own(
    desk: Desk, clock: HandClock
) -> None:
    weigh_on(desk, clock, "7", 7)
    assert desk.chart("7").source == "house"
    weigh_on(desk, clock, "7", 1)
    assert (desk.chart("7").source, desk.chart("7").baseline) == ("few", 8)
    weigh_on(desk, clock, "7", 12)
    assert desk.chart("7").source == "bench"
    weigh(desk, "8", (0.0, 0.1, 0.2))
    assert desk.chart("8").source == "house"
    assert desk.chart("8").sigma == pytest.approx(0.16)  # what bench 7 spreads, in two figures


def test_a_heavy_bench_is_told_in_words_since_when_and_what_it_costs(
    desk: Desk, clock: HandClock
) -> None:
    weigh_on(desk, clock, "7", 12)
    clock.forward(minutes=60)
    weigh(desk, "7", (-0.1, -0.1, 0.0))
    clock.forward(minutes=1)
    since = f"{clock.now:%H:%M}"
    weigh_on(desk, clock, "7", 11, by_g=0.3, apart_min=0)
    chart = desk.chart("7")
    assert f"11 checks in a row heavy, since {since}" in chart.broken
    assert any(says.startswith("a check far heavy, at ") for says in chart.broken)
    assert f"the running mean has drifted heavy, since {since}" in chart.broken
    assert "one_side" in chart.points[-1].broke
    # Quota 300, six days a week: 1800 bunches.
    assert chart.judged.per_week is not None
    assert chart.judged.per_bunch is not None
    assert chart.judged.per_week.mean_g == pytest.approx(1800 * chart.judged.per_bunch.mean_g)
    found = re.fullmatch(
        r"bench 7 packs 0\.\d g heavy: about (\d+) g of filler a week", chart.advice
    )
    assert found is not None, chart.advice
    assert float(found[1]) == pytest.approx(chart.judged.per_week.mean_g, rel=0.05)


def test_on_target_is_within_noise(desk: Desk, clock: HandClock) -> None:
    weigh_on(desk, clock, "7", 12)
    chart = desk.chart("7")
    assert chart.broken == ()
    assert chart.advice.startswith("bench 7 is within noise: mean ")
    assert chart.found == ()
    assert isinstance(chart.capability, Capability)
    assert chart.capability.readings == 36


def test_only_the_rules_the_house_chose_are_watched(desk: Desk, clock: HandClock) -> None:
    load(desk, HOUSE_TOML.replace("readings = 3", 'readings = 3\nrules = ["8 on one side"]'))
    weigh_on(desk, clock, "7", 9)
    weigh(desk, "7", (0.9, 0.9, 0.9))
    chart = desk.chart("7")
    assert {rule for point in chart.points for rule in point.broke} <= {"one_side"}


def test_portion_checks_name_the_class_behind_the_drift(desk: Desk, clock: HandClock) -> None:
    for n in range(6):
        clock.forward(minutes=5)
        weigh(desk, "7", [off + 0.4 for off in QUIET[n % 4]])
        for leaf, usual, off in (("SE-1", 6.0, 0.0), ("LI-1", 4.0, 0.4)):
            readings = " ".join(f"{usual + off + each:.1f}" for each in QUIET[n % 4])
            outcome = desk.enter(f"7 portion {leaf} {readings} !", None)
            assert isinstance(outcome, Recorded), outcome
    assert desk.chart("7").advice.endswith("a week; check the ligero LI-1 portion")
    assert desk.chart("7").measure == "bunch"


def test_a_scale_that_hangs_and_one_set_apart_are_found(
    desk: Desk, desk_at: Callable[..., Desk], clock: HandClock
) -> None:
    weigh_on(desk, clock, "8", 10)
    for _ in range(7):
        weigh(desk, "8", (0.1, 0.1, 0.1))
    assert any("times in a row: does it hang?" in says for says in desk.chart("8").found)
    other = desk_at("T2")
    for n in range(10):
        weigh(desk, "7", QUIET[n % 4])
        other.follow()
        weigh(other, "7", [off + 0.4 for off in QUIET[n % 4]])
        desk.follow()
    assert any(says.startswith("terminal T2 weighs 0.4") for says in desk.chart("7").found)


def test_tomorrow_goes_on_from_today(
    desk: Desk, desk_at: Callable[..., Desk], clock: HandClock
) -> None:
    weigh_on(desk, clock, "7", 12)
    today = desk.chart("7")
    clock.forward(hours=24)
    desk.follow()
    unopened = desk.chart("7")
    assert [p.check for p in unopened.points] == [p.check for p in today.points]
    assert unopened.sigma == pytest.approx(today.sigma, abs=0.002)
    number = weigh(desk, "7", (0.1, 0.0, 0.1))
    fresh = desk_at("T3").chart("7")
    assert len(fresh.points) == 13
    assert fresh.points[-1].check == number
    assert {point.day for point in fresh.points[:-1]} == {today.points[0].day}
    assert fresh == desk.chart("7")


def test_other_hands_begin_a_chart_of_their_own(desk: Desk, clock: HandClock) -> None:
    weigh_on(desk, clock, "7", 9)
    load(desk, HOUSE_TOML.replace('"P-07"', '"P-70"'))
    assert desk.chart("7").points == ()
    load(desk, HOUSE_TOML)
    assert len(desk.chart("7").points) == 9


def test_without_a_measure_it_is_what_the_bench_was_last_weighed_by(
    desk: Desk, clock: HandClock
) -> None:
    weigh(desk, "7", (0.0, 0.1, 0.0))
    clock.forward(minutes=1)
    weigh(desk, "7", (0.0, 0.1, 0.0), by="filler")
    assert desk.chart("7").measure == "filler"
    assert desk.chart("7", "bunch").measure == "bunch"
