"""Do adaptive rounds find drift sooner than a fixed round of as many weigh-ins?

The pattern of ISO 2859-1 alone (half the interval after an out, double after ten calm checks)
does not: a drift is mostly caught by the run rules before a reading is out, so the extra
weigh-ins fall on benches that have just been set right, and the doubled interval makes the
first look at a new drift late. Halving the interval after any check whose mean lies beyond 1σ
does: weigh-ins go where a drift may have begun (variable sampling intervals: Reynolds and
others, Technometrics 30 (1988)).
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from core.day.rounds import interval_min
from tests.control.rounds_floor import (
    BENCHES,
    DAY_MIN,
    DAYS,
    EVERY_MIN,
    SLOW,
    STEP,
    Drift,
    Found,
    Interval,
    Ratio,
    Seen,
    go_round,
)


def by_verdicts(seen: Seen) -> float:
    """By the pattern alone."""
    return interval_min(seen.verdicts, EVERY_MIN)


def by_warnings_too(seen: Seen) -> float:
    """The same, and half the interval after a mean beyond 1σ."""
    error = seen.points[-1].error if seen.points else None
    return interval_min(seen.verdicts, EVERY_MIN, error)


def fixed(minutes: float) -> Interval:
    return lambda _: minutes


def compare(adaptive: Callable[[Seen], float], drift: Drift, runs: int) -> tuple[Ratio, str]:
    """Against a fixed round of as many weigh-ins, within 2 %."""
    ours, plain = Found(0, [], 0), Found(0, [], 0)
    for seed in range(runs):
        went = go_round(adaptive, drift, seed)
        every_min = BENCHES * DAYS * DAY_MIN / went.weighed
        ours = ours.plus(went)
        plain = plain.plus(go_round(fixed(every_min), drift, 1000 + seed))
    assert ours.weighed == pytest.approx(plain.weighed, rel=0.02)
    ratio = ours.against(plain)
    says = (
        f"mean time to detection {ratio.value:.3f} ± {ratio.error:.3f} (standard error) of a "
        f"fixed round's; weigh-ins {ours.weighed} and {plain.weighed}, drifts "
        f"{len(ours.delays_min)} and {len(plain.delays_min)}, false alarms "
        f"{ours.false_alarms} and {plain.false_alarms}"
    )
    print(says)
    return ratio, says


def test_verdicts_alone_find_a_step_no_sooner() -> None:
    ratio, says = compare(by_verdicts, STEP, runs=1)
    assert ratio.value + 2 * ratio.error > 1, says


def test_warnings_find_a_step_sooner() -> None:
    ratio, says = compare(by_warnings_too, STEP, runs=1)
    assert ratio.value + 2 * ratio.error < 1, says


@pytest.mark.slow
@pytest.mark.parametrize("drift", [SLOW, STEP])
def test_verdicts_alone_find_drift_no_sooner_at_length(drift: Drift) -> None:
    ratio, says = compare(by_verdicts, drift, runs=6)
    assert ratio.value + 3 * ratio.error > 1, says


@pytest.mark.slow
@pytest.mark.parametrize("drift", [SLOW, STEP])
def test_warnings_find_drift_sooner_at_length(drift: Drift) -> None:
    ratio, says = compare(by_warnings_too, drift, runs=6)
    assert ratio.value + 3 * ratio.error < 1, says
