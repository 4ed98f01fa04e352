"""When a bench is to be weighed again."""

from __future__ import annotations

from collections.abc import Sequence

from core.checks import Verdict

WITHIN_TO_RELAX = 5
"""Checks in a row within that end the tightened interval."""
STEADY_TO_STRETCH = 10
"""Checks in a row within and steady that double the interval."""
LOOK_BACK = STEADY_TO_STRETCH
"""The latest checks that the interval rests on."""
LONGEST = 2
"""The longest interval, in the house's own."""


def interval_min(
    verdicts: Sequence[Verdict], weigh_every_min: float, error: float | None = None
) -> float:
    """Minutes from the last check to the next; `verdicts` are the bench's, oldest first.

    Halved after a check that is out, until five in a row are not; doubled after ten in a row
    that are within and steady. Switching by the pattern of ISO 2859-1. Halved also after a
    check whose mean lies beyond one standard `error` of its target, in the verdicts' unit:
    where a drift may have begun the next look comes sooner (variable sampling intervals:
    Reynolds and others, Technometrics 30 (1988)). Without one only the pattern holds.
    """
    if error is not None and abs(verdicts[-1].deviation) > error:
        return weigh_every_min / 2
    since_out = 0
    for verdict in reversed(verdicts):
        if verdict.state == "out":
            break
        since_out += 1
    if since_out < min(WITHIN_TO_RELAX, len(verdicts)):
        return weigh_every_min / 2
    last = verdicts[-STEADY_TO_STRETCH:]
    if len(last) == STEADY_TO_STRETCH and all(_calm(verdict) for verdict in last):
        return weigh_every_min * LONGEST
    return weigh_every_min


def _calm(verdict: Verdict) -> bool:
    return verdict.state == "within" and verdict.steady is not False
