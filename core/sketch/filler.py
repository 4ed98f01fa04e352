"""Filler against ring gauge as a neutral picture: the law, its band, plain volume, the points."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from core.sketch.chart import steps

SLACK = 0.15
"""How far a band may widen the picture, in heights of what else is in it."""


class CurvePoint(NamedTuple):
    """Filler at one ring gauge, grams: by the law, its band, and as plain volume would have it."""

    ring: float
    law_g: float
    low_g: float | None
    high_g: float | None
    plain_g: float


class FillerSpot(NamedTuple):
    """Approved bunches at their ring gauge; `own` where they are of the picture's own length."""

    ring: float
    filler_g: float
    name: str
    own: bool = True


class Scale(NamedTuple):
    """One side of a picture: its ends and round ticks, with the decimals they need."""

    low: float
    high: float
    ticks: tuple[float, ...]
    places: int


class FillerPicture(NamedTuple):
    """What there is to draw: rings along, grams up. The band is cut at the picture's edges.

    `tried` is the law's curve with what is tried, empty where that changes nothing of it, and
    `tried_spots` the sizes that are tried.
    """

    along: Scale
    up: Scale
    curve: tuple[CurvePoint, ...]
    spots: tuple[FillerSpot, ...]
    tried: tuple[CurvePoint, ...] = ()
    tried_spots: tuple[FillerSpot, ...] = ()

    @property
    def has_band(self) -> bool:
        """Whether the law can tell its error."""
        return all(point.low_g is not None for point in self.curve)


def filler_picture(
    curve: Sequence[CurvePoint],
    spots: Sequence[FillerSpot],
    tried: Sequence[CurvePoint] = (),
    tried_spots: Sequence[FillerSpot] = (),
) -> FillerPicture:
    """Lay out a curve (two rings at least, rising) and its points, and what is tried.

    A band far wider than the curve is cut, so that it does not flatten what it is there for.
    """
    lines = [grams for point in curve for grams in (point.law_g, point.plain_g)]
    lines += [point.law_g for point in tried]
    lines += [spot.filler_g for spot in (*spots, *tried_spots)]
    low, high = min(lines), max(lines)
    slack = SLACK * (high - low) or 0.5
    ends = [end for p in curve for end in (p.low_g, p.high_g) if end is not None]
    bottom = max(0.0, low - slack, min([low, *ends]))
    top = min(high + slack, max([high, *ends]))
    rings = [point.ring for point in (*curve, *tried)]
    rings += [spot.ring for spot in (*spots, *tried_spots)]
    up = _scale(bottom, top if top > bottom else bottom + 1)
    return FillerPicture(
        along=_scale(min(rings), max(rings)),
        up=up,
        curve=tuple(_cut(point, up) for point in curve),
        spots=tuple(spots),
        tried=tuple(tried),
        tried_spots=tuple(tried_spots),
    )


def _scale(low: float, high: float) -> Scale:
    step, places = steps(high - low)
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return Scale(low, high, tuple(round(k * step, places) for k in range(first, last + 1)), places)


def _cut(point: CurvePoint, up: Scale) -> CurvePoint:
    if point.low_g is None or point.high_g is None:
        return point
    low_g, high_g = (min(up.high, max(up.low, end)) for end in (point.low_g, point.high_g))
    return point._replace(low_g=low_g, high_g=high_g)
