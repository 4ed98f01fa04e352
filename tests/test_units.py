"""Units against two independent tables: scipy's CODATA set and Pint's registry."""

from __future__ import annotations

import math

import pint
import pytest
import scipy.constants

from core import units

FACTORS = [
    pytest.param(units.MM_PER_INCH, scipy.constants.inch * 1000, "inch", "mm", id="inch"),
    pytest.param(units.G_PER_LB, scipy.constants.lb * 1000, "pound", "g", id="pound"),
    pytest.param(units.G_PER_OZ, scipy.constants.oz * 1000, "ounce", "g", id="ounce"),
]


@pytest.mark.parametrize(("factor", "scipys", "unit", "metric"), FACTORS)
def test_factors_are_exact(factor: float, scipys: float, unit: str, metric: str) -> None:
    """NIST SP 811, appendix B.8, as scipy and Pint hold it."""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    assert factor == pytest.approx(scipys, rel=1e-15)
    assert factor == pytest.approx(registry(f"1 {unit}").to(metric).magnitude, rel=1e-15)


@pytest.mark.parametrize(
    ("ring", "inches", "diameter_mm", "cylinder_cm3"),
    [(50, 5, 19.84375, 39.277252), (52, 6, 20.6375, 50.978731)],
)
def test_ring_gauge_is_a_diameter_in_64ths_of_an_inch(
    ring: float, inches: float, diameter_mm: float, cylinder_cm3: float
) -> None:
    """Common practice, no source; the cylinders are worked from the exact inch."""
    diameter = units.ring_mm(ring)
    assert diameter == diameter_mm
    volume = math.pi / 4 * diameter**2 * inches * units.MM_PER_INCH / 1000
    assert volume == pytest.approx(cylinder_cm3, abs=5e-7)


def test_kilograms_to_pounds() -> None:
    assert units.kg_to_lb(0.45359237) == pytest.approx(1, rel=1e-15)
