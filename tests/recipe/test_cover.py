"""Covers: what is laid on a cigar, and whether the pieces issued can lay it."""

from __future__ import annotations

import math

import pytest

from core.house.model import Vitola
from core.recipe.card import rollable
from core.recipe.cover import build_mm, laid
from tests.recipe.workshop import BINDER, BLEND, LIGERO, RULES, SECO, VOLADO, WRAPPER, workshop


def test_laid_grams_worked_by_hand() -> None:
    """10,000 mm² is 0.01 m²; × 1.3 × 60 g/m² = 0.78 g at 13 %; × 0.87 / 0.82 at 18 %."""
    cover = laid(BINDER, 10_000, moisture=0.18, standard=0.13)
    assert cover.on_bunch_g == pytest.approx(0.78)
    assert cover.today_g == pytest.approx(0.827561, abs=5e-7)
    assert cover.issued_g == pytest.approx(4.8)


def test_the_radius_grows_by_both_covers() -> None:
    assert build_mm(workshop(), BLEND) == pytest.approx(0.6)


@pytest.mark.parametrize(("half_leaf_g", "enough"), [(0.6588, True), (0.6586, False)])
def test_pieces_must_cover_the_cigar(half_leaf_g: float, enough: bool) -> None:
    """A wrapper of 5 in × 50: π × 19.84375 × 127 mm² × 1.3 × 64 g/m² = 0.65872 g."""
    wrapper = WRAPPER._replace(half_leaf_g=half_leaf_g, on_cigar_g_per_m2=64)
    rules = RULES._replace(packing_g_per_cm3=0.30)
    needed = math.pi * 19.84375 * 127 / 1e6 * 1.3 * 64
    assert needed == pytest.approx(0.65872, abs=5e-6)
    house = workshop(
        Vitola(code="5x50", ring=50, length_mm=127),
        leaves=(VOLADO, SECO, LIGERO, BINDER, wrapper),
        rules=rules,
    )
    problems = rollable(house, "B1", "5x50")
    assert (problems == ()) is enough
    if not enough:
        assert problems[0].place == '[[vitola]] "5x50" in blend "B1"'
        assert "CA-1 cannot cover it: 0.66 g are laid" in problems[0].says
