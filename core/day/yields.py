"""Shares that both a day and a span of days are judged by."""

from __future__ import annotations

COVERS = frozenset({"binder", "wrapper"})
"""The classes of leaf that go by whole pieces; leaf yield is that of the filler."""


def inspected(good: int, rejected: int, rework: int, second: int = 0) -> tuple[int, int]:
    """Pieces passed first time, and pieces inspected; those reworked are counted in `good`.

    A cigar sold as a second was inspected and did not pass.
    """
    first = max(0, good - rework)
    return first, first + rejected + second


def first_pass_yield(good: int, rejected: int, rework: int, second: int = 0) -> float | None:
    """Passed first time ÷ inspected; None where nothing was."""
    first, of = inspected(good, rejected, rework, second)
    return first / of if of else None
