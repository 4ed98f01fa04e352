"""Shares that both a day and a span of days are judged by."""

from __future__ import annotations

COVERS = frozenset({"binder", "wrapper"})
"""The classes of leaf that go by whole pieces; leaf yield is that of the filler."""


def first_pass_yield(good: int, rejected: int, rework: int) -> float | None:
    """Passed first time ÷ inspected; pieces reworked are counted in `good`. None without any."""
    first = max(0, good - rework)
    inspected = first + rejected
    return first / inspected if inspected else None
