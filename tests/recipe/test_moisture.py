"""Moisture on wet basis, against published grain-drying figures."""

from __future__ import annotations

import pytest

from core.recipe.moisture import at_standard, dry_to_wet, in_force, on_scale, wet_to_dry


def test_a_tonne_dried_from_25_to_14_percent() -> None:
    """IRRI Rice Knowledge Bank, moisture content: 1,000 kg at 25 % gives 872 kg at 14 %."""
    assert on_scale(1000, standard=0.25, today=0.14) == pytest.approx(872.093, abs=5e-4)
    assert at_standard(1000, standard=0.14, today=0.25) == pytest.approx(872.093, abs=5e-4)


@pytest.mark.parametrize(
    ("base", "percent_a_point"), [(0.13, 1.149), (0.14, 1.163), (0.15, 1.176), (0.155, 1.183)]
)
def test_what_a_point_of_moisture_weighs(base: float, percent_a_point: float) -> None:
    """The water-shrink factors by which US grain elevators and state extension services figure:
    per cent of the wet weight for each point dried, to a base of 13 to 15.5 % (from memory).
    """
    for points in (1, 5):
        dried = at_standard(100, standard=base, today=base + points / 100)
        assert (100 - dried) / points == pytest.approx(percent_a_point, abs=5e-4)


def test_standard_grams_come_back() -> None:
    assert at_standard(on_scale(7.5, 0.13, 0.19), 0.13, 0.19) == pytest.approx(7.5)


@pytest.mark.parametrize(
    ("wet", "dry_percent"), [(0.10, 11.1), (0.15, 17.6), (0.20, 25.0), (0.30, 42.9)]
)
def test_wet_and_dry_basis(wet: float, dry_percent: float) -> None:
    """IRRI Rice Knowledge Bank, moisture content: conversion table."""
    assert wet_to_dry(wet) * 100 == pytest.approx(dry_percent, abs=0.05)
    assert dry_to_wet(wet_to_dry(wet)) == pytest.approx(wet)


def test_the_house_books_moisture_stands_until_one_is_measured() -> None:
    assert in_force("SE-1", {}, 0.14) == (0.14, "as the house book gives it")
    assert in_force("SE-1", {"SE-1": 0.15}, 0.14) == (0.15, "in force now")
