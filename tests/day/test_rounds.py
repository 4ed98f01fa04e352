"""When a bench is due again, by how its checks went."""

from __future__ import annotations

import pytest

from core.checks import Verdict, Window, judge
from core.day.rounds import interval_min

WINDOW = Window(15.0, 14.4, 15.6)
WITHIN = judge((15.0, 15.1), WINDOW)
NEAR = judge((15.4, 15.4), WINDOW)
OUT = judge((15.0, 15.9), WINDOW)
UNSTEADY = judge((14.5, 15.5), WINDOW)


@pytest.mark.parametrize(
    ("verdicts", "minutes"),
    [
        ([WITHIN], 60),
        ([OUT], 30),
        ([WITHIN, OUT], 30),
        ([OUT, *4 * [WITHIN]], 30),
        ([OUT, *5 * [WITHIN]], 60),
        ([OUT, *4 * [NEAR], WITHIN], 60),
        (9 * [WITHIN], 60),
        (10 * [WITHIN], 120),
        ([*9 * [WITHIN], NEAR], 60),
        ([UNSTEADY, *9 * [WITHIN]], 60),
        ([OUT, *10 * [WITHIN]], 120),
        ([*10 * [WITHIN], OUT], 30),
    ],
)
def test_the_interval_tightens_after_an_out_and_stretches_when_all_is_steady(
    verdicts: list[Verdict], minutes: float
) -> None:
    assert interval_min(verdicts, 60.0) == minutes


@pytest.mark.parametrize(
    ("verdicts", "error", "minutes"),
    [
        ([WITHIN], 0.04, 30),
        ([WITHIN], 0.06, 60),
        ([WITHIN, NEAR], 0.3, 30),
        ([NEAR, WITHIN], 0.3, 60),
        (10 * [WITHIN], 0.06, 120),
        (10 * [WITHIN], 0.04, 30),
        ([OUT, WITHIN], 0.06, 30),
    ],
)
def test_a_mean_beyond_its_standard_error_halves_the_interval_once(
    verdicts: list[Verdict], error: float, minutes: float
) -> None:
    assert interval_min(verdicts, 60.0, error) == minutes
