"""Filler by ring gauge at one length: the law with its band, and plain volume beside it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from core.house.model import HouseBook
from core.line.sheet import LineSheet
from core.recipe.cover import build_mm
from core.recipe.known import known_blend
from core.recipe.law import PLAIN_VOLUME, Law, entries_used, entry_weights
from core.recipe.packing import band
from core.recipe.size import Taper, core_of, greatest, integral, outer
from core.sketch.filler import CurvePoint, FillerPicture, FillerSpot, filler_picture
from core.units import ring_mm

MARGIN = 2
"""Ring gauges drawn beyond the thinnest and the thickest there is."""
PER_RING = 2
"""Places on the curve for each ring gauge."""


class Drawn(NamedTuple):
    """The picture of a blend's filler, and the length (mm) of the parejo that it is of."""

    picture: FillerPicture
    length_mm: float


def plain_a(house: HouseBook, blend_code: str, law: Law) -> float:
    """`a` of plain volume (p = 2) through the entries behind `law`, by the same least squares.

    Raises BadInput for an unknown blend.
    """
    used = entries_used(house, blend_code)
    if not used:
        return law.a
    build = build_mm(house, known_blend(house, blend_code))
    logs = (
        math.log(e.filler_g / integral(core_of(outer(house.vitola[e.vitola]), build), PLAIN_VOLUME))
        for e in used
    )
    rest = zip(entry_weights(used), logs, strict=True)
    return math.exp(math.fsum(weight * log for weight, log in rest) / len(used))


def filler_curve(
    house: HouseBook, blend_code: str, law: Law, length_mm: float, rings: Iterable[float]
) -> tuple[CurvePoint, ...]:
    """Standard grams of a parejo of that length at each ring; none where it has no core.

    Raises BadInput for an unknown blend.
    """
    build = build_mm(house, known_blend(house, blend_code))
    plain = plain_a(house, blend_code, law)
    points: list[CurvePoint] = []
    for ring in rings:
        core = _core(ring, length_mm, build)
        if greatest(core) > 0:
            low_g, high_g = band(core, law)
            law_g, plain_g = law.a * integral(core, law.p), plain * integral(core, PLAIN_VOLUME)
            points.append(CurvePoint(ring, law_g, low_g, high_g, plain_g))
    return tuple(points)


def filler_drawn(house: HouseBook, sheet: LineSheet, tried: LineSheet | None = None) -> Drawn:
    """The picture of a sheet's filler, for a parejo of its reference vitola's length.

    Approved bunches of another length or shape are brought to it by the law: what shows is how
    far off the law they lie, at their ring. With what is `tried` the law is drawn for the length
    that the reference vitola then has, where that is another, and each changed size on it.
    """
    length_mm = _length_mm(sheet)
    build = build_mm(house, known_blend(house, sheet.blend))
    spots = _spots(house, sheet.law, length_mm, build)
    tried_mm = length_mm if tried is None else _length_mm(tried)
    tried_spots = [] if tried is None else _tried(sheet, tried, tried_mm, build)
    rings = [row.ring for row in sheet.vitolas]
    rings += [spot.ring for spot in (*spots, *tried_spots)]
    first, last = math.floor(min(rings)) - MARGIN, math.ceil(max(rings)) + MARGIN
    along = [first + n / PER_RING for n in range((last - first) * PER_RING + 1)]
    curve = filler_curve(house, sheet.blend, sheet.law, length_mm, along)
    other: tuple[CurvePoint, ...] = ()
    if tried_mm != length_mm:
        other = filler_curve(house, sheet.blend, sheet.law, tried_mm, along)
    return Drawn(filler_picture(curve, spots, other, tried_spots), length_mm)


def _length_mm(sheet: LineSheet) -> float:
    """The length of the sheet's reference vitola."""
    return next(row.length_mm for row in sheet.vitolas if row.vitola == sheet.reference)


def _tried(sheet: LineSheet, tried: LineSheet, length_mm: float, build: float) -> list[FillerSpot]:
    """The sizes that are tried, each at its ring by the law, which is all that speaks for them."""
    today = {row.vitola: (row.ring, row.length_mm) for row in sheet.vitolas}
    law = tried.law
    return [
        FillerSpot(
            row.ring,
            law.a * integral(_core(row.ring, length_mm, build), law.p),
            row.vitola,
            own=row.length_mm == length_mm,
        )
        for row in tried.vitolas
        if (row.ring, row.length_mm) != today.get(row.vitola)
    ]


def _core(ring: float, length_mm: float, build: float) -> tuple[Taper, ...]:
    return core_of((Taper(length_mm, ring_mm(ring), ring_mm(ring)),), build)


def _spots(house: HouseBook, law: Law, length_mm: float, build: float) -> Sequence[FillerSpot]:
    spots: list[FillerSpot] = []
    for code, mean in law.approved.items():
        vitola = house.vitola[code]
        own_g = law.a * integral(core_of(outer(vitola), build), law.p)
        here_g = law.a * integral(_core(vitola.ring, length_mm, build), law.p)
        own = vitola.shape != "figurado" and vitola.length_mm == length_mm
        spots.append(FillerSpot(vitola.ring, mean.filler_g * here_g / own_g, code, own))
    return spots
