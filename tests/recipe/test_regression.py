"""The straight line under the packing law, against certified figures."""

from __future__ import annotations

import math

import pytest

from core.recipe.regression import straight_line
from tests.recipe import norris


def test_norris() -> None:
    """NIST StRD, Norris.dat: certified values."""
    y, x = zip(*norris.Y_X, strict=True)
    line = straight_line(x, y, [1.0] * len(x))
    assert line.intercept == pytest.approx(norris.INTERCEPT, rel=1e-11)
    assert line.slope == pytest.approx(norris.SLOPE, rel=1e-13)
    spare = len(x) - 2
    assert math.sqrt(line.residual_ss / spare) == pytest.approx(norris.RESIDUAL_SD, rel=1e-12)


def test_a_weight_stands_for_so_many_points() -> None:
    weighted = straight_line([1, 2, 4], [2, 2.5, 5], [1, 3, 2])
    repeated = straight_line([1, 2, 2, 2, 4, 4], [2, 2.5, 2.5, 2.5, 5, 5], [1] * 6)
    assert weighted == pytest.approx(repeated)


def test_level_where_x_does_not_vary() -> None:
    line = straight_line([3, 3, 3], [1, 2, 6], [1, 1, 1])
    assert (line.slope, line.intercept) == (0, 3)
