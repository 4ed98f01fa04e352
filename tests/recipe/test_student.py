"""Student's t against scipy and the printed table."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from core.recipe.student import t_quantile


@settings(deadline=None, max_examples=80)
@given(st.floats(0.001, 0.999), st.integers(1, 120))
def test_quantile_is_scipys(probability: float, dof: int) -> None:
    assert t_quantile(probability, dof) == pytest.approx(
        stats.t.ppf(probability, dof), rel=1e-8, abs=1e-9
    )


@pytest.mark.parametrize(
    ("dof", "printed"), [(1, 12.706), (3, 3.182), (4, 2.776), (10, 2.228), (30, 2.042)]
)
def test_quantile_is_the_printed_one(dof: int, printed: float) -> None:
    """NIST/SEMATECH e-Handbook 1.3.6.7.2, upper critical values, 0.975."""
    assert t_quantile(0.975, dof) == pytest.approx(printed, abs=5e-4)
