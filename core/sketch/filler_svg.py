"""The picture of filler against ring gauge as SVG."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from core.sketch.filler import CurvePoint, FillerPicture, FillerSpot
from core.sketch.strokes import TEXT, document, line, text

WIDTH, HEIGHT = 720, 420
LEFT, RIGHT, TOP, BOTTOM = 52, 130, 34, 46
SIZE = 4
"""Half of a point's width."""
ROOM = 150
"""What a name to the left of its point may need."""
APART = 14
"""Least distance between the lines' names at the right."""


class FillerLabels(NamedTuple):
    """What the picture says in words: title, a sentence, the sides, the lines' names.

    `tried` names the law's curve as it is tried, `size_tried` a size that is (`{name}`).
    """

    title: str
    description: str
    along: str
    up: str
    law: str
    band: str
    plain: str
    tried: str = ""
    size_tried: str = "{name}"


def filler_svg(picture: FillerPicture, labels: FillerLabels) -> str:
    """The picture as an SVG document of 720 × 420; the same picture makes the same text."""
    return document(
        WIDTH,
        HEIGHT,
        labels.title,
        labels.description,
        [
            text(LEFT, TOP - 16, f"{labels.title}: {labels.up}"),
            *_band(picture),
            *_sides(picture, labels),
            _path(picture, lambda p: p.plain_g, 'stroke-width="1" stroke-dasharray="6 4"'),
            _path(picture, lambda p: p.law_g, 'stroke-width="2"'),
            *_tried(picture),
            *_names(picture, labels),
            *_spots(picture),
            *_tried_spots(picture, labels),
        ],
    )


def _x(picture: FillerPicture, ring: float) -> float:
    low, high = picture.along.low, picture.along.high
    return round(LEFT + (WIDTH - LEFT - RIGHT) * (ring - low) / (high - low), 2)


def _y(picture: FillerPicture, grams: float) -> float:
    low, high = picture.up.low, picture.up.high
    return round(TOP + (HEIGHT - TOP - BOTTOM) * (high - grams) / (high - low), 2)


def _band(picture: FillerPicture) -> Iterator[str]:
    if not picture.has_band:
        return
    there = [(p.ring, p.high_g or 0.0) for p in picture.curve]
    back = [(p.ring, p.low_g or 0.0) for p in reversed(picture.curve)]
    corners = (f"{_x(picture, r):g},{_y(picture, g):g}" for r, g in (*there, *back))
    yield f'<polygon points="{" ".join(corners)}" fill="#ddd" stroke="#000" stroke-width="0.5"/>'


def _sides(picture: FillerPicture, labels: FillerLabels) -> Iterator[str]:
    foot, right = HEIGHT - BOTTOM, WIDTH - RIGHT
    yield line(LEFT, TOP, LEFT, foot, 'stroke-width="1"')
    yield line(LEFT, foot, right, foot, 'stroke-width="1"')
    for tick in picture.up.ticks:
        y = _y(picture, tick)
        yield line(LEFT - 5, y, LEFT, y, 'stroke-width="1"')
        yield text(LEFT - 8, y + 4, f"{tick:.{picture.up.places}f}", "end")
    for tick in picture.along.ticks:
        x = _x(picture, tick)
        yield line(x, foot, x, foot + 5, 'stroke-width="1"')
        yield text(x, foot + 5 + TEXT, f"{tick:.{picture.along.places}f}", "middle")
    yield text(right, HEIGHT - 8, labels.along, "end")


def _tried(picture: FillerPicture) -> Iterator[str]:
    if picture.tried:
        style = 'stroke-width="2" stroke-dasharray="2 3"'
        yield _path(picture, lambda p: p.law_g, style, picture.tried)


def _path(
    picture: FillerPicture,
    of: Callable[[CurvePoint], float],
    style: str,
    curve: Sequence[CurvePoint] | None = None,
) -> str:
    along = picture.curve if curve is None else curve
    places = (f"{_x(picture, p.ring):g} {_y(picture, of(p)):g}" for p in along)
    return f'<path d="M{"L".join(places)}" fill="none" stroke="#000" {style}/>'


def _names(picture: FillerPicture, labels: FillerLabels) -> Iterator[str]:
    """What each line is, beside its right end; pushed apart where they end close together."""
    last = picture.curve[-1]
    named = [(last.law_g, labels.law), (last.plain_g, labels.plain)]
    if last.high_g is not None:
        named.append((last.high_g, labels.band))
    if picture.tried:
        named.append((picture.tried[-1].law_g, labels.tried))
    yield from _apart((_y(picture, grams), name) for grams, name in named)


def _apart(named: Iterable[tuple[float, str]]) -> Iterator[str]:
    above = float("-inf")
    for y, name in sorted(named):
        above = max(y + 4, above + APART)
        yield text(WIDTH - RIGHT + 6, above, name)


def _spots(picture: FillerPicture) -> Iterator[str]:
    """A dot for bunches of the picture's own length, a ring for those brought to it."""
    for spot in picture.spots:
        x, y = _x(picture, spot.ring), _y(picture, spot.filler_g)
        yield _dot(spot, x, y)
        yield text(x + 2 * SIZE, y + TEXT + 2, spot.name)


def _tried_spots(picture: FillerPicture, labels: FillerLabels) -> Iterator[str]:
    """A triangle on the law, its name to the left where there is room; approved ones' are below."""
    for spot in picture.tried_spots:
        x, y = _x(picture, spot.ring), _y(picture, spot.filler_g)
        corners = f"{x:g},{y - SIZE:g} {x + SIZE:g},{y + SIZE:g} {x - SIZE:g},{y + SIZE:g}"
        yield f'<polygon points="{corners}" fill="#000"/>'
        name = labels.size_tried.format(name=spot.name)
        if x - LEFT < ROOM:
            yield text(x + 2 * SIZE, y - SIZE, name)
        else:
            yield text(x - 2 * SIZE, y - SIZE, name, "end")


def _dot(spot: FillerSpot, x: float, y: float) -> str:
    look = 'fill="#000"' if spot.own else 'fill="#fff" stroke="#000" stroke-width="2"'
    return f'<circle cx="{x:g}" cy="{y:g}" r="{SIZE}" {look}/>'
