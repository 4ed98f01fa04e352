"""A control chart's picture as SVG: black on white, text as text, nothing from outside."""

from __future__ import annotations

from typing import NamedTuple

from core.sketch.chart import Mark, Picture, signed
from core.sketch.strokes import TEXT, document, line, text

WIDTH, HEIGHT = 720, 300
LEFT, RIGHT, TOP, BOTTOM = 52, 116, 34, 46
"""Room around the chart for the ticks, the lines' values, the title, letters and groups."""
SIZE = 4
"""Half of a point's width."""
APART = 13
"""Least distance between the lines' values at the right."""


class Labels(NamedTuple):
    """What the chart says in words: title, a sentence on what it shows, names of the lines."""

    title: str
    description: str
    target: str
    limit: str
    window: str
    unit: str


def svg(picture: Picture, labels: Labels) -> str:
    """The chart as an SVG document of 720 × 300; the same picture makes the same text."""
    return document(
        WIDTH,
        HEIGHT,
        labels.title,
        labels.description,
        [
            text(LEFT, TOP - 16, f"{labels.title}, {labels.unit}"),
            *_ticks(picture),
            *_groups(picture),
            *_lines(picture, labels),
            *_points(picture),
        ],
    )


def _x(picture: Picture, column: float) -> float:
    room = WIDTH - LEFT - RIGHT
    return round(LEFT + room * (column + 0.5) / max(1, len(picture.marks)), 2)


def _y(picture: Picture, value: float) -> float:
    share = (picture.top - value) / (picture.top - picture.bottom)
    return round(TOP + (HEIGHT - TOP - BOTTOM) * share, 2)


def _ticks(picture: Picture) -> list[str]:
    rows: list[str] = []
    for tick in picture.ticks:
        y = _y(picture, tick)
        rows.append(line(LEFT - 5, y, LEFT, y, 'stroke-width="1"'))
        rows.append(text(LEFT - 8, y + 4, signed(tick, picture.places), "end"))
    return [line(LEFT, TOP, LEFT, HEIGHT - BOTTOM, 'stroke-width="1"'), *rows]


def _groups(picture: Picture) -> list[str]:
    """The groups' names where they begin, left out where one would run into the next."""
    rows: list[str] = []
    free = 0.0
    for column, name in picture.groups:
        x = _x(picture, column - 0.5)
        rows.append(line(x, HEIGHT - BOTTOM, x, HEIGHT - BOTTOM + 8, 'stroke-width="0.5"'))
        if x >= free:
            rows.append(text(x + 3, HEIGHT - 6, name))
            free = x + 3 + 0.7 * TEXT * len(name)
    return rows


def _lines(picture: Picture, labels: Labels) -> list[str]:
    right = WIDTH - RIGHT
    places = picture.places + 1
    rows: list[str] = []
    named = [(picture.centre, labels.target)]
    y = _y(picture, picture.centre)
    rows.append(line(LEFT, y, right, y, 'stroke-width="2"'))
    for value in picture.window or ():
        y = _y(picture, value)
        rows.append(line(LEFT, y, right, y, 'stroke-width="1" stroke-dasharray="2 4"'))
        named.append((value, f"{labels.window} {signed(value, picture.places)}"))
    for limits in (picture.highs, picture.lows):
        rows += _limit(picture, limits)
        if limits and limits[-1] is not None:
            named.append((limits[-1], f"{labels.limit} {signed(limits[-1], places)}"))
    above = -float("inf")
    for value, name in sorted(named, reverse=True):
        above = max(_y(picture, value) + 4, above + APART)
        rows.append(text(right + 5, above, name))
    return rows


def _limit(picture: Picture, limits: tuple[float | None, ...]) -> list[str]:
    """One limit as a line with a step wherever it changes."""
    path: list[str] = []
    for column, limit in enumerate(limits):
        if limit is None:
            continue
        y = _y(picture, limit)
        begins = not column or limits[column - 1] is None
        x1, x2 = _x(picture, column - 0.5), _x(picture, column + 0.5)
        path.append(f"{'M' if begins else 'L'}{x1:g} {y:g}H{x2:g}")
    if not path:
        return []
    return [f'<path d="{"".join(path)}" fill="none" stroke="#000" stroke-width="1.2"/>']


def _points(picture: Picture) -> list[str]:
    rows: list[str] = []
    base = _y(picture, picture.centre)
    for column, mark in enumerate(picture.marks):
        x, y = _x(picture, column), _y(picture, mark.height)
        rows.append(line(x, base, x, y, 'stroke-width="0.5"'))
        rows.append(_shape(mark, x, y))
        if mark.letters:
            rows.append(text(x, HEIGHT - BOTTOM + 20, mark.letters, "middle"))
    return rows


def _shape(mark: Mark, x: float, y: float) -> str:
    """A dot within, a triangle that points away from the target beyond a limit."""
    if mark.place == "within":
        return f'<circle cx="{x:g}" cy="{y:g}" r="{SIZE}" fill="#000"/>'
    away = -1 if mark.place == "above" else 1
    tip, foot = y + 1.6 * SIZE * away, y - SIZE * away
    corners = f"{x - 1.5 * SIZE:g},{foot:g} {x:g},{tip:g} {x + 1.5 * SIZE:g},{foot:g}"
    return f'<polygon points="{corners}" fill="#fff" stroke="#000" stroke-width="2"/>'
