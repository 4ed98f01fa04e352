"""A control chart as a neutral picture: its range, its lines and a mark for each check."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

TICKS = 8
"""Steps that the range is cut into, about."""
FAR = 0.25
"""How far beyond the outermost line a point widens the range, in widths between the lines."""

Place = Literal["within", "above", "below"]


class Spot(NamedTuple):
    """A check to draw: its value and limits in one unit, None where it has none.

    `letters` stand for the rules it breaks; `group` names what it belongs to, as its day.
    """

    value: float
    low: float | None
    high: float | None
    letters: str = ""
    group: str = ""


class Mark(NamedTuple):
    """A check in the picture: where it is drawn, its place by its limits, its rules' letters.

    `height` is its value, or the edge of the range where it lies beyond.
    """

    height: float
    place: Place
    letters: str


class Picture(NamedTuple):
    """What there is to draw, in the values' unit; a column a check, oldest first.

    `lows` and `highs` are the limits of each column; `groups` are the columns where another
    one begins, and its name. `places` are the decimals that the ticks need.
    """

    bottom: float
    top: float
    ticks: tuple[float, ...]
    places: int
    centre: float
    window: tuple[float, float] | None
    lows: tuple[float | None, ...]
    highs: tuple[float | None, ...]
    marks: tuple[Mark, ...]
    groups: tuple[tuple[int, str], ...]


def picture(
    spots: Sequence[Spot], *, centre: float = 0.0, window: tuple[float, float] | None = None
) -> Picture:
    """Lay out a chart so that limits, window and centre are in it, and all but far-off points.

    A point farther off than a quarter of the width between the lines is drawn at the edge: one
    wild check must not flatten all the others.
    """
    lines = [centre, *(window or ())]
    lines += [limit for spot in spots for limit in (spot.low, spot.high) if limit is not None]
    bottom, top = _reach(lines, [spot.value for spot in spots])
    step, places = steps(top - bottom)
    first, last = math.ceil(bottom / step - 1e-9), math.floor(top / step + 1e-9)
    return Picture(
        bottom=bottom,
        top=top,
        ticks=tuple(round(k * step, places) for k in range(first, last + 1)),
        places=places,
        centre=centre,
        window=window,
        lows=tuple(spot.low for spot in spots),
        highs=tuple(spot.high for spot in spots),
        marks=tuple(_mark(spot, bottom, top) for spot in spots),
        groups=_groups(spots),
    )


def signed(value: float, places: int) -> str:
    """A deviation with its sign; a rounded nothing has none."""
    text = f"{value:+.{places}f}"
    return text[1:] if float(text) == 0 else text


def _reach(lines: Sequence[float], values: Sequence[float]) -> tuple[float, float]:
    low, high = min(lines), max(lines)
    slack = FAR * (high - low)
    near = [value for value in values if low - slack <= value <= high + slack]
    if not slack:
        near = list(values)
    elif len(near) < len(values):
        near += [low - slack] * any(value < low - slack for value in values)
        near += [high + slack] * any(value > high + slack for value in values)
    low, high = min([low, *near]), max([high, *near])
    return (low, high) if high > low else (low - 1, high + 1)


def steps(width: float) -> tuple[float, int]:
    """The round step, 1, 2 or 5 times a power of ten, that cuts the width into about eight."""
    least = width / TICKS
    power = math.floor(math.log10(least))
    step = next(k * 10.0**power for k in (1, 2, 5, 10) if k * 10.0**power >= least * (1 - 1e-9))
    places = max(0, -math.floor(math.log10(step) + 1e-9))
    return round(step, places), places


def _mark(spot: Spot, bottom: float, top: float) -> Mark:
    place: Place = "within"
    if spot.high is not None and spot.value > spot.high:
        place = "above"
    elif spot.low is not None and spot.value < spot.low:
        place = "below"
    return Mark(min(top, max(bottom, spot.value)), place, spot.letters)


def _groups(spots: Sequence[Spot]) -> tuple[tuple[int, str], ...]:
    names = [spot.group for spot in spots]
    return tuple(
        (column, name)
        for column, name in enumerate(names)
        if name and (column == 0 or name != names[column - 1])
    )
