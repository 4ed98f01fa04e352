"""Size: the straight tapers of a vitola, of its core under the covers, and their measures."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from core.house.model import Vitola
from core.units import ring_mm

SERIES_BELOW = 0.01
"""Where the closed form of the slope loses digits, a short series keeps them."""


class Taper(NamedTuple):
    """A length whose diameter runs straight from `d1_mm` to `d2_mm`."""

    length_mm: float
    d1_mm: float
    d2_mm: float


def outer(vitola: Vitola) -> tuple[Taper, ...]:
    """Outside of a vitola, foot first. A pressed one is filled round and squared after."""
    if vitola.shape != "figurado":
        diameter = ring_mm(vitola.ring)
        return (Taper(vitola.length_mm, diameter, diameter),)
    return tuple(
        Taper(there.at_mm - here.at_mm, ring_mm(here.ring), ring_mm(there.ring))
        for here, there in pairwise(vitola.profile)
        if there.at_mm > here.at_mm
    )


def core_of(tapers: Iterable[Taper], build_mm: float) -> tuple[Taper, ...]:
    """Core under covers that add `build_mm` to the radius; empty where nothing is left.

    A taper whose core runs out is cut where it does, not at its end.
    """
    cored = (Taper(h, d1 - 2 * build_mm, d2 - 2 * build_mm) for h, d1, d2 in tapers)
    return tuple(_positive(taper) for taper in cored if max(taper.d1_mm, taper.d2_mm) > 0)


def _positive(taper: Taper) -> Taper:
    h, d1, d2 = taper
    if min(d1, d2) >= 0:
        return taper
    left_mm = h * max(d1, d2) / abs(d2 - d1)
    return Taper(left_mm, max(d1, 0.0), max(d2, 0.0))


def greatest(tapers: Iterable[Taper]) -> float:
    """Greatest diameter in mm; 0 where there is no taper."""
    return max((max(taper.d1_mm, taper.d2_mm) for taper in tapers), default=0.0)


def integral(tapers: Iterable[Taper], p: float) -> float:
    """Diameter to the power `p` (> 0), integrated along the tapers, in mm^(p+1).

    Of a straight taper: h (d2^(p+1) − d1^(p+1)) / ((p+1)(d2 − d1)), written so that it keeps
    its digits as d1 nears d2.
    """
    return math.fsum(h * math.pow(max(d1, d2), p) * _shape(d1, d2, p + 1) for h, d1, d2 in tapers)


def integral_slope(tapers: Iterable[Taper], p: float) -> float:
    """Derivative of `integral` with respect to `p`, in mm^(p+1)."""
    return math.fsum(_slope(taper, p) for taper in tapers)


def side_area_mm2(tapers: Sequence[Taper]) -> float:
    """Side area ∫ π D √(1 + (D'/2)²) dx of the tapers, ends left out."""
    return math.fsum(math.pi * (d1 + d2) / 2 * math.hypot(h, (d2 - d1) / 2) for h, d1, d2 in tapers)


def _shape(d1: float, d2: float, q: float) -> float:
    """(1 − r^q) / (q (1 − r)), r being the lesser diameter over the greater."""
    fall = abs(d2 - d1) / max(d1, d2)
    if fall == 0:
        return 1.0
    if fall == 1:
        return 1 / q
    return -math.expm1(q * math.log1p(-fall)) / (q * fall)


def _slope(taper: Taper, p: float) -> float:
    h, d1, d2 = taper
    top, q = max(d1, d2), p + 1
    return h * math.pow(top, p) * (math.log(top) * _shape(d1, d2, q) - _shape_fall(d1, d2, q))


def _shape_fall(d1: float, d2: float, q: float) -> float:
    """How fast `_shape` falls as q grows."""
    fall = abs(d2 - d1) / max(d1, d2)
    if fall == 0:
        return 0.0
    if fall == 1:
        return 1 / q**2
    z = q * math.log1p(-fall)
    if z > -SERIES_BELOW:
        bend = z * z * (1 / 2 + z * (1 / 3 + z * (1 / 8 + z * (1 / 30 + z / 144))))
    else:
        bend = z * math.exp(z) - math.expm1(z)
    return bend / (q * q * fall)
