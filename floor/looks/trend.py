"""The last checks as a row of signs, and a bench's checks as a chart of plain cells."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from floor.looks.spans import Ink, Line, Span

SLACK = 1e-9
"""A mean on the limit is within, whatever binary fractions make of it."""

LOW_OUT, LOW, MIDDLE, HIGH, HIGH_OUT = "▼", "−", "∙", "+", "▲"
"""Signs in the middle of their cells: a mark at an edge is read as the next bench's."""
INSIDE, OUTSIDE = "●", "✕"
CELLS_A_CHECK = 3


def trend_shape(deviations: Sequence[float], cells: int) -> str:
    """One sign a check, newest last: the mean's place in the window.

    `deviations` are in tolerances; beyond 1 either way the sign is an arrow.
    """
    return "".join(_shape(d) for d in deviations[-cells:]) if cells else ""


def _shape(deviation: float) -> str:
    if abs(deviation) > 1 + SLACK:
        return HIGH_OUT if deviation > 0 else LOW_OUT
    if abs(deviation) > 1 / 3:
        return HIGH if deviation > 0 else LOW
    return MIDDLE


class Scale(NamedTuple):
    """What stands at the left of the chart: the limits and the target, as text."""

    high: str
    target: str
    low: str


def chart(deviations: Sequence[float], scale: Scale, width: int, height: int) -> list[Line]:
    """Check means against their window: limits as lines, points beyond them as crosses.

    The first and the last row are what lies beyond the limits; `height` is made odd, so
    that the target has a row of its own.
    """
    height -= 1 - height % 2
    margin = max(len(scale.high), len(scale.target), len(scale.low))
    room = width - margin - 2
    shown = deviations[-(room // CELLS_A_CHECK) :]
    rows = [_row_of(d, height) for d in shown]
    marks = {1: scale.high, height // 2: scale.target, height - 2: scale.low}
    lines: list[Line] = []
    for y in range(height):
        ground = "─" if y in marks else " "
        cells = (
            (_point(d), _ink(d)) if row == y else (ground * CELLS_A_CHECK, "faint")
            for d, row in zip(shown, rows, strict=True)
        )
        label = marks.get(y, "").rjust(margin)
        points: list[Span] = [Span(_centred(text, ground), ink) for text, ink in cells]
        rest = ground * (room - CELLS_A_CHECK * len(shown))
        lines.append((Span(f"{label} │", "faint"), *points, Span(rest, "faint")))
    return lines


def _centred(text: str, ground: str) -> str:
    return text if len(text) == CELLS_A_CHECK else f"{ground}{text}{ground}"


def _point(deviation: float) -> str:
    return OUTSIDE if abs(deviation) > 1 + SLACK else INSIDE


def _ink(deviation: float) -> Ink:
    if abs(deviation) > 1 + SLACK:
        return "heavy" if deviation > 0 else "light"
    return "within"


def _row_of(deviation: float, height: int) -> int:
    if abs(deviation) > 1 + SLACK:
        return 0 if deviation > 0 else height - 1
    inner = height - 2
    place = (1 - deviation) / 2 * inner
    return 1 + min(inner - 1, max(0, int(place)))
