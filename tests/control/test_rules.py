"""Run rules: each pattern by hand, and how seldom chance alone makes them."""

from __future__ import annotations

import math
import random
from collections.abc import Collection
from statistics import fmean, stdev

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.control.chart import Point
from core.control.rules import RULES, Break, Rule, breaks
from tests.control.streams import points


def ends(values: list[float], rule: Rule) -> list[tuple[int, int, str]]:
    return [(since, at, side) for _, since, at, side in breaks(points(values), {rule})]


@pytest.mark.parametrize(
    ("values", "found"),
    [
        ([0, 3.01, -3.01], [(1, 1, "high"), (2, 2, "low")]),
        ([3.0, -3.0], []),
    ],
)
def test_beyond_a_limit_and_on_it(values: list[float], found: list[object]) -> None:
    assert ends(values, "beyond") == found


@pytest.mark.parametrize(
    ("values", "found"),
    [
        ([2.1, 2.1], [(0, 1, "high")]),
        ([2.1, 0, 2.1], [(0, 2, "high")]),
        ([2.1, 0, 0, 2.1], []),
        ([2.1, -2.1, 2.1], [(0, 2, "high")]),
        ([2.1, -2.1], []),
        ([-2.1, -2.1, 0], [(0, 1, "low")]),
        ([2.0, 2.0, 2.0], []),
    ],
)
def test_two_of_three_near_a_limit(values: list[float], found: list[object]) -> None:
    assert ends(values, "two_of_three") == found


@pytest.mark.parametrize(
    ("values", "found"),
    [
        ([1.1, 1.1, 0, 1.1, 1.1], [(0, 4, "high")]),
        ([1.1, 1.1, 1.1, 1.1], [(0, 3, "high")]),
        ([1.1, 1.1, 0, 0, 1.1, 1.1], []),
        ([-1.1, -1.1, 1.1, -1.1, -1.1], [(0, 4, "low")]),
    ],
)
def test_four_of_five_away_from_target(values: list[float], found: list[object]) -> None:
    assert ends(values, "four_of_five") == found


def test_eight_on_one_side_and_a_point_on_the_centre_breaks_it() -> None:
    assert ends([0.1] * 7, "one_side") == []
    assert ends([0.1] * 9, "one_side") == [(0, 7, "high"), (1, 8, "high")]
    assert ends([-0.1] * 7 + [0.0] + [-0.1] * 7, "one_side") == []


def test_six_rising_or_falling_and_a_tie_breaks_it() -> None:
    assert ends([1, 2, 3, 4, 5], "run") == []
    assert ends([1, 2, 3, 4, 5, 6], "run") == [(0, 5, "high")]
    assert ends([0, 6, 5, 4, 3, 2, 1], "run") == [(1, 6, "low")]
    assert ends([1, 2, 3, 3, 4, 5, 6], "run") == []


def test_only_chosen_rules_speak_and_in_time_order() -> None:
    drift = points([0.2 * i for i in range(20)])
    assert breaks(drift, ()) == ()
    assert {found.rule for found in breaks(drift, {"run", "one_side"})} == {"run", "one_side"}
    everything = breaks(drift, RULES)
    assert [found.at for found in everything] == sorted(found.at for found in everything)


def test_zones_go_with_each_points_own_error() -> None:
    """1.5 g is beyond 2σ for a check of many, and within 1σ for a check of few."""
    few, many = Point(1.5, 0, 2.0, -6, 6), Point(1.5, 0, 0.7, -2.1, 2.1)
    assert breaks([few, few], {"two_of_three"}) == ()
    assert breaks([many, few, many], {"two_of_three"}) == (Break("two_of_three", 0, 2, "high"),)


def test_places_without_a_point_are_passed_over() -> None:
    (point,) = points([3.5])
    assert breaks([None, point, None, point], {"beyond", "two_of_three"}) == (
        Break("beyond", 1, 1, "high"),
        Break("beyond", 3, 3, "high"),
        Break("two_of_three", 1, 3, "high"),
    )


@settings(deadline=None, max_examples=60)
@given(st.lists(st.integers(-35, 35), max_size=40))
def test_the_same_upside_down(tenths: list[int]) -> None:
    up = breaks(points([t / 10 for t in tenths]), RULES)
    down = breaks(points([-t / 10 for t in tenths]), RULES)
    turned = {"high": "low", "low": "high"}
    assert {(b.rule, b.since, b.at, turned[b.side]) for b in up} == {tuple(b) for b in down}


# -- run lengths ------------------------------------------------------------------------


def lengths(
    rules: Collection[Rule], shift: float, runs: int, chunk: int, seed: int
) -> tuple[float, float]:
    """Mean length of so many seeded runs up to the first break, and its standard error."""
    rng = random.Random(seed)
    found: list[int] = []
    while len(found) < runs:
        values: list[float] = []
        broken: tuple[Break, ...] = ()
        while not broken:
            values += [rng.gauss(shift, 1) for _ in range(chunk)]
            broken = breaks(points(values), rules)
        found.append(broken[0].at + 1)
    return fmean(found), stdev(found) / math.sqrt(runs)


@pytest.mark.parametrize(("shift", "printed"), [(0.0, 370.4), (1.0, 43.9)])
def test_run_length_of_the_limits_alone(shift: float, printed: float) -> None:
    """1 ÷ the normal tails beyond 3σ (Montgomery prints 370 and 43.9; figures from memory)."""
    tails = (math.erfc((3 - shift) / 2**0.5) + math.erfc((3 + shift) / 2**0.5)) / 2
    assert 1 / tails == pytest.approx(printed, abs=0.06)
    mean, error = lengths({"beyond"}, shift, 600, 400, seed=31)
    assert abs(mean - 1 / tails) < 4 * error, (mean, 1 / tails, error)


@pytest.mark.parametrize(("shift", "printed"), [(0.0, 91.75), (1.0, 9.22)])
def test_run_length_of_western_electrics_four(shift: float, printed: float) -> None:
    """Champ & Woodall, Technometrics 29 (1987): 91.75 in control, 9.22 at 1σ (from memory)."""
    four: set[Rule] = {"beyond", "two_of_three", "four_of_five", "one_side"}
    mean, error = lengths(four, shift, 2500, 150 if shift == 0 else 30, seed=32)
    assert abs(mean - printed) < 4 * error, (mean, printed, error)


def test_run_length_of_six_rising_or_falling() -> None:
    """Readings until six rise: 1 ÷ Σ (1/(6k)! − 1/(6k+1)!), 840 (David & Barton, Combinatorial
    Chance, 1962); rising or falling, half of it, as the two seldom meet."""
    rising = 1 / sum(1 / math.factorial(6 * k) - 1 / math.factorial(6 * k + 1) for k in range(4))
    mean, error = lengths({"run"}, 0.0, 300, 500, seed=33)
    assert abs(mean - rising / 2) < 4 * error, (mean, rising / 2, error)
