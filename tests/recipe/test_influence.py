"""The law's error and each approved entry's part in it, against certified and textbook figures."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from core.house.model import Approved, HouseBook, Leaf, Station, Vitola
from core.recipe.influence import influences
from core.recipe.law import fit
from core.recipe.packing import band, leverage
from core.recipe.size import Taper
from tests.recipe import norris
from tests.recipe.workshop import (
    BINDER,
    FIVE_BY_FIFTY,
    LB_PER_1000,
    LIGERO,
    SECO,
    SIX_BY_SIXTY,
    VOLADO,
    WRAPPER,
    bare,
    workshop,
)

NO_COVERS: tuple[Leaf, ...] = (VOLADO, SECO, LIGERO, bare(BINDER), bare(WRAPPER))
LENGTH_MM = 150.0
NORRIS_SCALE = 500.0
"""Norris's readings, 0 to 1,000, as logs that a diameter in mm and grams can have."""


def house_of(logs: Sequence[tuple[float, float]], bunches: Sequence[int] = ()) -> HouseBook:
    """Parejos of ln diameter x (mm) whose filler is exp(y) a mm of length, without covers."""
    sizes = [
        Vitola(code=f"v{n}", ring=math.exp(x) * 64 / 25.4, length_mm=LENGTH_MM)
        for n, (x, _) in enumerate(logs)
    ]
    entries = [
        Approved(vitola=size.code, filler_g=LENGTH_MM * math.exp(y), bunches=n)
        for size, (_, y), n in zip(sizes, logs, bunches or [1] * len(logs), strict=True)
    ]
    return workshop(*sizes, approved=entries, leaves=NO_COVERS)


def core(x: float) -> tuple[Taper, ...]:
    return (Taper(LENGTH_MM, math.exp(x), math.exp(x)),)


NORRIS = [(x / NORRIS_SCALE, y / NORRIS_SCALE) for y, x in norris.Y_X]


def test_the_law_through_norris_has_the_certified_figures() -> None:
    """NIST StRD, Norris.dat: for parejos ln(filler ÷ length) is a straight line of ln diameter."""
    law = fit(house_of(NORRIS), "B1")
    assert law.p == pytest.approx(norris.SLOPE, rel=1e-9)
    assert math.log(law.a) * NORRIS_SCALE == pytest.approx(norris.INTERCEPT, rel=1e-6)
    assert law.residual_sd is not None
    assert law.residual_sd * NORRIS_SCALE == pytest.approx(norris.RESIDUAL_SD, rel=1e-8)


@pytest.mark.parametrize("x", [0.0, 0.9, 1.4, 2.5])
def test_the_band_is_the_prediction_interval_of_the_textbook(x: float) -> None:
    """ŷ ± t(α/2, n−2) √(MSE (1 + 1/n + (x − x̄)²/Sxx)): Montgomery, Peck & Vining, Introduction to
    Linear Regression Analysis, 2.4.2 (from memory), fitted by SciPy."""
    xs, ys = np.array(NORRIS).T
    line = stats.linregress(xs, ys)
    rest = ys - line.intercept - line.slope * xs
    n = len(xs)
    mse = float(np.sum(rest**2)) / (n - 2)
    sxx = float(np.sum((xs - xs.mean()) ** 2))
    half = stats.t.ppf(0.975, n - 2) * math.sqrt(mse * (1 + 1 / n + (x - xs.mean()) ** 2 / sxx))
    middle = line.intercept + line.slope * x
    low_g, high_g = band(core(x), fit(house_of(NORRIS), "B1"))
    assert low_g == pytest.approx(LENGTH_MM * math.exp(middle - half), rel=1e-8)
    assert high_g == pytest.approx(LENGTH_MM * math.exp(middle + half), rel=1e-8)


entries = st.lists(
    st.tuples(st.floats(2, 3.2), st.floats(-0.2, 0.2), st.integers(1, 60)),
    min_size=5,
    max_size=9,
    unique_by=lambda entry: round(entry[0], 2),
)


@settings(deadline=None, max_examples=60)
@given(entries)
def test_hat_values_are_the_diagonal_of_the_hat_matrix(
    found: list[tuple[float, float, int]],
) -> None:
    """H = W½ X (Xᵀ W X)⁻¹ Xᵀ W½, and its trace is the number of parameters."""
    x = np.array([each[0] for each in found])
    bunches = [each[2] for each in found]
    house = house_of([(each[0], -8 + 2.5 * each[0] + each[1]) for each in found], bunches)
    w = np.array(bunches) * len(found) / sum(bunches)
    root = np.sqrt(w)[:, None] * np.column_stack([np.ones_like(x), x])
    hat = np.diag(root @ np.linalg.inv(root.T @ root) @ root.T)
    got = [each.hat for each in influences(house, "B1", fit(house, "B1"))]
    assert got == pytest.approx(list(hat), rel=1e-5, abs=1e-7)
    assert sum(got) == pytest.approx(2, rel=1e-5)


@settings(deadline=None, max_examples=60)
@given(entries)
def test_cooks_distance_is_how_far_all_fitted_values_move(
    found: list[tuple[float, float, int]],
) -> None:
    """Cook 1977, his definition by deletion: Σ w (ŷ − ŷ without i)² ÷ (k s²)."""
    x = np.array([each[0] for each in found])
    y = np.array([-8 + 2.5 * each[0] + each[1] for each in found])
    bunches = [each[2] for each in found]
    w = np.array(bunches) * len(found) / sum(bunches)
    house = house_of(list(zip(x, y, strict=True)), bunches)
    law = fit(house, "B1")
    if law.residual_sd is None or law.residual_sd < 1e-6 or not 0.2 < law.p < 9:
        return
    fitted = np.polynomial.polynomial.polyfit(x, y, 1, w=np.sqrt(w))
    for i, each in enumerate(influences(house, "B1", law)):
        keep = np.arange(len(x)) != i
        other = np.polynomial.polynomial.polyfit(x[keep], y[keep], 1, w=np.sqrt(w[keep]))
        moved = np.polynomial.polynomial.polyval(x, fitted - other)
        cook = float(np.sum(w * moved**2)) / (2 * law.residual_sd**2)
        assert each.cook == pytest.approx(cook, rel=1e-4, abs=1e-8)
        if each.p_without is not None and 0.2 < other[1] < 9:
            assert each.p_without == pytest.approx(other[1], rel=1e-5)


@settings(deadline=None, max_examples=25)
@given(st.lists(st.floats(-0.1, 0.1), min_size=4, max_size=9))
def test_without_an_entry_is_the_law_of_a_house_that_never_had_it(off: list[float]) -> None:
    """With shaped sizes too, whose best p is looked for from several places."""
    sizes = [_shaped(n) if n % 2 else _straight(n) for n in range(len(off))]
    entries = [
        Approved(vitola=size.code, filler_g=(size.ring / 12) ** 2 * math.exp(by), bunches=n + 1)
        for n, (size, by) in enumerate(zip(sizes, off, strict=True))
    ]
    house = workshop(*sizes, approved=entries)
    for n, each in enumerate(influences(house, "B1", fit(house, "B1"))):
        other = fit(workshop(*sizes, approved=entries[:n] + entries[n + 1 :]), "B1")
        assert each.p_without == pytest.approx(other.p, rel=1e-5)
        assert each.a_without == pytest.approx(other.a, rel=1e-4)


def _straight(n: int) -> Vitola:
    return Vitola(code=f"v{n}", ring=40 + 3 * n, length_mm=LENGTH_MM)


def _shaped(n: int) -> Vitola:
    stations = ((0, 30 + n), (40, 46 + n), (LENGTH_MM, 20 + 2 * n))
    profile = tuple(Station(at_mm=at, ring=ring) for at, ring in stations)
    return _straight(n)._replace(shape="figurado", ring=46 + n, profile=profile)


def test_two_entries_are_the_law_each() -> None:
    """Common practice, no source: 34.5 lb for 5 in × 50 and 70 lb for 6 in × 60.

    Without one of them the law is plain volume through the other, 15 % short of 70 lb.
    """
    house = workshop(
        FIVE_BY_FIFTY,
        SIX_BY_SIXTY,
        approved=[
            Approved(vitola="5x50", filler_g=34.5 * LB_PER_1000),
            Approved(vitola="6x60", filler_g=70 * LB_PER_1000),
        ],
        leaves=NO_COVERS,
    )
    small, large = influences(house, "B1", fit(house, "B1"))
    assert [small.hat, large.hat] == pytest.approx([1, 1])
    assert (small.cook, large.cook) == (None, None)
    assert (large.decides, large.p_without) == (True, 2)
    assert large.law_g_without == pytest.approx(34.5 * LB_PER_1000 * 1.728)
    assert large.moves_g == pytest.approx((70 - 34.5 * 1.728) * LB_PER_1000)


def test_a_single_entry_has_no_law_without_it() -> None:
    house = workshop(
        FIVE_BY_FIFTY, approved=[Approved(vitola="5x50", filler_g=15.0)], leaves=NO_COVERS
    )
    (alone,) = influences(house, "B1", fit(house, "B1"))
    assert (alone.p_without, alone.law_g_without, alone.moves_g) == (None, None, None)
    assert (alone.hat, alone.decides) == (1, True)


def test_an_assumed_packing_has_no_entries() -> None:
    rules = workshop().house._replace(packing_g_per_cm3=0.3)
    house = workshop(FIVE_BY_FIFTY, rules=rules)
    assert influences(house, "B1", fit(house, "B1")) == ()


def test_a_lone_size_far_from_the_others_decides_the_law() -> None:
    many = [(2.9 + n / 100, -8 + 2.5 * (2.9 + n / 100) + (n % 2 - 0.5) / 50) for n in range(8)]
    house = house_of([*many, (2.4, -8 + 2.5 * 2.4 + 0.2)])
    law = fit(house, "B1")
    found = influences(house, "B1", law)
    assert [each.decides for each in found] == [False] * 8 + [True]
    assert found[-1].hat == pytest.approx(leverage(core(2.4), law), rel=1e-9)
