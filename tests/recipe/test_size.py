"""Geometry of sizes: tapers, the core under the covers, integrals for any power, side area."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from core.house.model import Station, Vitola
from core.recipe.size import (
    Taper,
    core_of,
    greatest,
    integral,
    integral_slope,
    outer,
    side_area_mm2,
)
from core.units import ring_mm

diameters = st.floats(0, 40)
tapers = st.lists(
    st.tuples(st.floats(0.5, 200), diameters, diameters)
    .filter(lambda t: max(t[1], t[2]) > 0.1)
    .map(lambda t: Taper(*t)),
    min_size=1,
    max_size=5,
)
powers = st.floats(0.2, 6)


def along(taper: Taper, x: float) -> float:
    return taper.d1_mm + (taper.d2_mm - taper.d1_mm) * x / taper.length_mm


def test_frustum_volume() -> None:
    """NCERT mathematics, class X: h 45, R 28, r 7 cm, there with pi = 22/7: 48,510."""
    frustum = (Taper(45, 56, 14),)
    volume = math.pi / 4 * integral(frustum, 2)
    assert volume == pytest.approx(48490.4826, abs=5e-5)
    assert volume / math.pi * 22 / 7 == pytest.approx(48510, abs=1e-6)
    end_areas = math.pi * (28**2 + 7**2) / 2 * 45
    assert end_areas - volume == pytest.approx(math.pi * 45 * (28 - 7) ** 2 / 6)


@settings(deadline=None, max_examples=60)
@given(tapers, powers)
def test_integral_is_the_quadrature(shape: list[Taper], p: float) -> None:
    expected = sum(
        quad(lambda x, t=t: along(t, x) ** p, 0, t.length_mm, epsabs=1e-9)[0] for t in shape
    )
    assert integral(shape, p) == pytest.approx(expected, rel=1e-6)


@settings(deadline=None, max_examples=60)
@given(tapers, powers)
def test_slope_is_the_quadrature(shape: list[Taper], p: float) -> None:
    def steepness(x: float, taper: Taper) -> float:
        d = along(taper, x)
        return float(d**p * math.log(d)) if d > 0 else 0.0

    expected = sum(
        quad(steepness, 0, t.length_mm, args=(t,), epsabs=1e-9, limit=200)[0] for t in shape
    )
    size = integral(shape, p)
    assert integral_slope(shape, p) == pytest.approx(expected, rel=1e-5, abs=1e-5 * size)


@settings(deadline=None, max_examples=100)
@given(st.floats(0.5, 40), st.floats(1e-15, 0.01), powers)
def test_a_nearly_straight_taper_keeps_its_digits(d: float, fall: float, p: float) -> None:
    """Against the series about the mean diameter, whose next term is of the fall's fourth power."""
    taper = Taper(100, d, d * (1 - fall))
    mean, half = (taper.d1_mm + taper.d2_mm) / 2, (taper.d1_mm - taper.d2_mm) / 2
    bend = p * (p - 1) / 6 * (half / mean) ** 2
    assert integral((taper,), p) == pytest.approx(100 * mean**p * (1 + bend), rel=1e-7)
    bend_slope = (2 * p - 1) / 6 * (half / mean) ** 2
    log_slope = math.log(mean) + bend_slope
    found = integral_slope((taper,), p) / integral((taper,), p)
    assert found == pytest.approx(log_slope, abs=1e-7)


def test_a_parejo_has_one_diameter() -> None:
    assert outer(Vitola(code="a", ring=64, length_mm=120)) == (Taper(120, 25.4, 25.4),)


def test_a_pressed_size_is_filled_round() -> None:
    round_one = Vitola(code="a", ring=50, length_mm=120)
    assert outer(round_one._replace(shape="pressed")) == outer(round_one)


def test_a_figurado_runs_straight_between_its_stations() -> None:
    stations = (
        Station(at_mm=0, ring=32),
        Station(at_mm=20, ring=64),
        Station(at_mm=120, ring=64),
    )
    torpedo = Vitola(code="t", ring=64, length_mm=120, shape="figurado", profile=stations)
    assert outer(torpedo) == (Taper(20, 12.7, 25.4), Taper(100, 25.4, 25.4))


def test_the_core_is_cut_where_it_runs_out() -> None:
    """From 20 mm to a point over 100 mm, 2 mm of covers: the core ends at 80 mm."""
    core = core_of((Taper(100, 20, 0),), 2)
    assert core == (Taper(80, 16, 0),)
    assert core_of((Taper(100, 0, 20),), 2) == (Taper(80, 0, 16),)


def test_no_core_under_covers_as_thick_as_the_cigar() -> None:
    core = core_of((Taper(100, 10, 8),), 5)
    assert core == ()
    assert greatest(core) == 0


@settings(deadline=None, max_examples=60)
@given(tapers, st.floats(0, 10), powers)
def test_the_core_is_the_outside_less_the_covers(
    shape: list[Taper], build: float, p: float
) -> None:
    def left(x: float, taper: Taper) -> float:
        return float(max(along(taper, x) - 2 * build, 0.0) ** p)

    expected = sum(quad(left, 0, t.length_mm, args=(t,), limit=200, epsabs=1e-9)[0] for t in shape)
    assert integral(core_of(shape, build), p) == pytest.approx(expected, rel=1e-4, abs=1e-6)


@settings(deadline=None, max_examples=60)
@given(tapers)
def test_side_area_is_the_quadrature(shape: list[Taper]) -> None:
    def ring(x: float, taper: Taper) -> float:
        slant = (taper.d2_mm - taper.d1_mm) / taper.length_mm
        return math.pi * along(taper, x) * math.sqrt(1 + (slant / 2) ** 2)

    expected = sum(quad(ring, 0, t.length_mm, args=(t,))[0] for t in shape)
    assert side_area_mm2(shape) == pytest.approx(expected, rel=1e-9)


def test_side_area_of_a_cylinder() -> None:
    assert side_area_mm2(outer(Vitola(code="a", ring=50, length_mm=127))) == pytest.approx(
        math.pi * ring_mm(50) * 127
    )
