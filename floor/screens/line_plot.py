"""Filler against ring gauge in cells: the law, its band, plain volume, approved bunches."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

from rich.cells import cell_len

from core.desk.figures import fixed
from core.sketch.filler import CurvePoint, FillerPicture, Scale
from floor.looks.spans import Cell, Line, Span, fit, of_cells

MARGIN = 6
"""Cells at the left for the grams."""
LAW, BAND, PLAIN = "━", "░", "∙"
OWN, OTHER = "●", "×"
TRIED_LAW, TRIED = "─", "▲"


def filler_plot(shown: FillerPicture, size: tuple[int, int]) -> list[Line]:
    """The picture in `size` cells across and down, the last row for the rings."""
    width, height = size
    cells, rows = width - MARGIN - 1, height - 1
    grid: list[list[Cell]] = [[(" ", "plain")] * cells for _ in range(rows)]
    for x in range(cells):
        ring = shown.along.low + (shown.along.high - shown.along.low) * x / (cells - 1)
        if (point := _at(ring, shown.curve)) is not None:
            _draw(grid, x, point, shown.up)
        if shown.tried and (point := _at(ring, shown.tried)) is not None:
            grid[rows - 1 - _place(point.law_g, shown.up, rows)][x] = (TRIED_LAW, "plain")
    marked = [(spot, OWN if spot.own else OTHER) for spot in shown.spots]
    for spot, mark in (*marked, *((spot, TRIED) for spot in shown.tried_spots)):
        x = _place(spot.ring, shown.along, cells)
        y = rows - 1 - _place(spot.filler_g, shown.up, rows)
        grid[y][x] = (mark, "strong")
    ticks = {
        rows - 1 - _place(tick, shown.up, rows): fixed(tick, shown.up.places)
        for tick in shown.up.ticks
    }
    lines: list[Line] = [
        (Span(f"{fit(ticks.get(y, ''), MARGIN, 'right')}│", "faint"), *of_cells(row))
        for y, row in enumerate(grid)
    ]
    return [*lines, _rings(shown.along, cells)]


def _place(value: float, scale: Scale, cells: int) -> int:
    """The cell of a value, counted from the low end."""
    share = (value - scale.low) / (scale.high - scale.low)
    return min(cells - 1, max(0, round(share * (cells - 1))))


def _at(ring: float, curve: Sequence[CurvePoint]) -> CurvePoint | None:
    """The curve between its points; None below the thinnest ring that has a core."""
    right = min(len(curve) - 1, bisect_right(curve, ring, key=lambda point: point.ring))
    if right < 1 or ring < curve[0].ring:
        return None
    one, other = curve[right - 1], curve[right]
    share = (ring - one.ring) / (other.ring - one.ring)

    def between(low: float, high: float) -> float:
        return low + share * (high - low)

    told = one.low_g, one.high_g, other.low_g, other.high_g
    low_g = high_g = None
    if told[0] is not None and told[1] is not None:
        low_g = between(told[0], told[2] if told[2] is not None else told[0])
        high_g = between(told[1], told[3] if told[3] is not None else told[1])
    return CurvePoint(
        ring, between(one.law_g, other.law_g), low_g, high_g, between(one.plain_g, other.plain_g)
    )


def _draw(grid: list[list[Cell]], x: int, point: CurvePoint, up: Scale) -> None:
    rows = len(grid)

    def row(grams: float) -> int:
        return rows - 1 - _place(grams, up, rows)

    if point.low_g is not None and point.high_g is not None:
        for y in range(row(point.high_g), row(point.low_g) + 1):
            grid[y][x] = (BAND, "faint")
    if x % 2 == 0:
        grid[row(point.plain_g)][x] = (PLAIN, "plain")
    grid[row(point.law_g)][x] = (LAW, "plain")


def _rings(along: Scale, cells: int) -> Line:
    """The rings under their cells, left out where one would run into the next."""
    text = ""
    for tick in along.ticks:
        name = fixed(tick, along.places)
        first = max(0, _place(tick, along, cells) - cell_len(name) // 2)
        if (not text or first > cell_len(text)) and first + cell_len(name) <= cells:
            text = f"{text:<{first}}{name}"
    return (Span(" " * (MARGIN + 1)), Span(text, "faint"))
