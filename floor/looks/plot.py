"""A control chart in cells: each check hangs from the target line like a weight from a beam.

From two metres off one sees on which side of the beam the ink is, and that is the drift; near
by, the lines have their values, and a check beyond a limit has another shape than one within.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from rich.cells import cell_len

from core.sketch.chart import Mark, Picture, Spot, picture, signed
from floor.looks.spans import Cell, Ink, Line, Span, fit, of_cells

MARGIN = 8
"""Cells at either side for the values of the lines."""
NARROWEST, WIDEST = 2, 4
"""Cells a check takes: closer together, no eye tells one from the next."""
TARGET, LIMIT, WINDOW, STEM, CROSSED = "━", "─", "∙", "│", "┼"
HEADS = {"within": "●", "above": "▲", "below": "▼"}
INKS: dict[str, Ink] = {"within": "within", "above": "heavy", "below": "light"}

_Grid = list[list[Cell]]


def room_for(width: int) -> int:
    """How many checks can be drawn in so many cells."""
    return _cells_for(width) // NARROWEST


def _cells_for(width: int) -> int:
    return width - 2 * MARGIN - 2


def plot(
    spots: Sequence[Spot],
    *,
    window: tuple[float, float] | None,
    target: str,
    places: int,
    size: tuple[int, int],
    feet: bool = True,
) -> list[Line]:
    """The latest checks there is room for, in `size` cells across and down.

    `target` names the line at 0, `places` are the decimals of the lines' values. With `feet`
    the last two rows hold the letters of the rules broken, and where each group begins.
    """
    width, height = size
    room = _cells_for(width)
    shown = picture(spots[-room_for(width) :], window=window)
    cells = min(WIDEST, room // max(1, len(shown.marks)))
    rows = height - 2 * feet
    grid: _Grid = [[(" ", "plain")] * room for _ in range(rows)]
    _draw_lines(grid, shown, cells)
    _draw_marks(grid, shown, cells)
    left, right = _values(shown, rows, target, places)
    lines = [
        (
            Span(fit(left.get(y, ""), MARGIN, "right"), "strong"),
            Span("│", "faint"),
            *of_cells(row),
            Span(f" {right.get(y, '')}", "strong"),
        )
        for y, row in enumerate(grid)
    ]
    return [*lines, _letters(shown, cells, room), _groups(shown, cells, room)] if feet else lines


def _row(shown: Picture, value: float, rows: int) -> int:
    """The value's row, counted from the target's: what is as far off either way looks so."""
    a_row = (shown.top - shown.bottom) / (rows - 1)
    beam = round((shown.top - shown.centre) / a_row)
    return min(rows - 1, max(0, beam - round((value - shown.centre) / a_row)))


def _draw_lines(grid: _Grid, shown: Picture, cells: int) -> None:
    rows, room = len(grid), len(grid[0])
    for value in shown.window or ():
        for x in range(0, room, 2):
            grid[_row(shown, value, rows)][x] = (WINDOW, "faint")
    for limits in (shown.lows, shown.highs):
        along = [limits[min(x // cells, len(limits) - 1)] if limits else None for x in range(room)]
        _draw_limit(grid, [None if v is None else _row(shown, v, rows) for v in along])
    grid[_row(shown, shown.centre, rows)] = [(TARGET, "faint")] * room


def _draw_limit(grid: _Grid, along: Sequence[int | None]) -> None:
    """A line through these rows, with a step wherever the limit changes."""
    before: int | None = None
    for x, y in enumerate(along):
        if y is not None and before is not None and y != before:
            turn, on = ("┘", "┌") if y < before else ("┐", "└")
            for between in range(min(y, before) + 1, max(y, before)):
                grid[between][x] = (STEM, "plain")
            grid[before][x], grid[y][x] = (turn, "plain"), (on, "plain")
        elif y is not None:
            grid[y][x] = (LIMIT, "plain")
        before = y


def _draw_marks(grid: _Grid, shown: Picture, cells: int) -> None:
    rows = len(grid)
    beam = _row(shown, shown.centre, rows)
    for column, mark in enumerate(shown.marks):
        x, y = column * cells + cells // 2, _row(shown, mark.height, rows)
        ink = INKS[mark.place]
        for between in range(min(beam, y) + 1, max(beam, y)):
            crossed = grid[between][x][0] == LIMIT
            grid[between][x] = (CROSSED if crossed else STEM, ink)
        grid[_clear(y, beam, mark, rows)][x] = (HEADS[mark.place], ink)


def _clear(y: int, beam: int, mark: Mark, rows: int) -> int:
    """The head's row; one that is out never hides in the beam."""
    if y != beam or mark.place == "within":
        return y
    return max(0, y - 1) if mark.place == "above" else min(rows - 1, y + 1)


def _values(
    shown: Picture, rows: int, target: str, places: int
) -> tuple[dict[int, str], dict[int, str]]:
    """The values beside the lines: target and window at the left, the last limits at the right.

    Where a line shares the beam's row, its value stands on the row beside.
    """
    beam = _row(shown, shown.centre, rows)
    left: dict[int, str] = {}
    right: dict[int, str] = {}
    window = shown.window or (None, None)
    limits = (shown.lows[-1], shown.highs[-1]) if shown.marks else (None, None)
    for labels, (low, high) in ((left, window), (right, limits)):
        if high is not None:
            labels[max(0, min(_row(shown, high, rows), beam - 1))] = signed(high, places)
        if low is not None:
            labels[min(rows - 1, max(_row(shown, low, rows), beam + 1))] = signed(low, places)
    left[beam] = target
    return left, right


def _letters(shown: Picture, cells: int, room: int) -> Line:
    """Under each check the letters of the rules it broke, as many as stand apart from the next."""
    row: list[Cell] = [(" ", "plain")] * room
    there = [
        (column * cells + cells // 2, mark.letters)
        for column, mark in enumerate(shown.marks)
        if mark.letters
    ]
    for (x, letters), (following, _) in pairwise([*there, (room + 1, "")]):
        told = letters[: max(1, following - x - 1)]
        row[x : x + len(told)] = [(sign, "wrong") for sign in told]
    return (Span(" " * (MARGIN + 1)), *of_cells(row))


def _groups(shown: Picture, cells: int, room: int) -> Line:
    """The groups' names where they begin, left out where one would run into the next."""
    text = ""
    for column, name in shown.groups:
        first = column * cells
        if first >= cell_len(text) and first + cell_len(name) <= room:
            text = f"{text:<{first}}{name} "
    return (Span(" " * (MARGIN + 1)), Span(text, "faint"))
