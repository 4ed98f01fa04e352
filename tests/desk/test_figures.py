"""Figures as they are shown."""

from __future__ import annotations

import pytest

from core.desk.figures import amount, decimals, fixed, percent


@pytest.mark.parametrize(
    ("division_g", "places"),
    [(0.1, 1), (0.05, 2), (0.01, 2), (1.0, 0), (0.5, 1), (10.0, 0), (0.002, 3)],
)
def test_a_figure_has_the_decimals_of_its_scale(division_g: float, places: int) -> None:
    assert decimals(division_g) == places


def test_nothing_has_no_minus_sign() -> None:
    assert fixed(-0.04, 1) == "0.0"
    assert fixed(-0.06, 1) == "-0.1"


def test_leaf_is_shown_in_grams_and_from_ten_kilograms_in_kilograms() -> None:
    assert amount(450.0, 0.1) == "450 g"
    assert amount(12.5, 0.1) == "12.5 g"
    assert amount(12_340.0, 0.1) == "12.34 kg"


def test_a_fraction_is_shown_in_percent() -> None:
    assert percent(0.142) == "14.2 %"
