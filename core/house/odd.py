"""What is possible in a house book but unusual: worth a line to read, no reason to refuse.

The bands are common practice, without a source; a house may have its reasons.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from core.house.model import FillerClass, FillerLeaf, HouseBook, Tolerance
from core.house.places import HOUSE, entry_place
from core.problems import Problem
from core.say import say
from core.units import G_PER_LB

WHOLE_FROM = 1000
"""Figures from here on are told whole: 12000, not 1.2e+04."""

Odd = Callable[[HouseBook], Iterator[Problem | None]]


class Band(NamedTuple):
    """What is usual, both ends included, in `unit`: of a percentage the fraction times 100."""

    low: float
    high: float
    unit: str = ""


TOLERANCE = Band(3, 5, " %")
BUNDLE = Band(1.5, 2.5, " %")
READINGS = Band(3, 10)
SCALE_DIVISION = Band(0.01, 0.5, " g")
PACKING = Band(0.2, 0.6, " g/cm^3")
FILLER_MOISTURE = Band(12, 16, " %")
COVER_MOISTURE = Band(14, 32, " %")
HALF_LEAF: dict[FillerClass, Band] = {
    "volado": Band(1.0, 1.8, " g"),
    "seco": Band(1.5, 2.5, " g"),
    "viso": Band(2, 3, " g"),
    "ligero": Band(2.5, 4, " g"),
}
WRAPPER_ISSUED = Band(6, 10, say(" lb per 1000"))
BUILD = Band(0.05, 1, " mm")
ON_CIGAR = Band(30, 120, " g/m^2")
OVERLAP = Band(5, 100, " %")
SHARES: dict[FillerClass, Band] = {
    "volado": Band(0, 40, " %"),
    "seco": Band(30, 60, " %"),
    "viso": Band(0, 35, " %"),
    "ligero": Band(0, 40, " %"),
}
RING = Band(26, 70)
LENGTH = Band(85, 240, " mm")
FILLER = Band(4, 32, " g")
QUOTA = Band(100, 500)


def oddities(house: HouseBook) -> tuple[Problem, ...]:
    """Every figure outside its band, in the order of the tables; places are within the file."""
    return tuple(line for check in CHECKS for line in check(house) if line)


def _check(place: str, name: str, value: float | None, band: Band | None) -> Problem | None:
    if value is None or band is None:
        return None
    slack = 1e-9 * max(1.0, abs(value))
    if band.low - slack <= value <= band.high + slack:
        return None
    return Problem(
        place,
        say(
            "{name} {value}{unit} is unusual; {low:g} to {high:g}{unit} is common",
            name=name,
            value=f"{value:.0f}" if abs(value) >= WHOLE_FROM else f"{value:.4g}",
            unit=band.unit,
            low=band.low,
            high=band.high,
        ),
    )


def _tolerance(place: str, tolerance: Tolerance | None) -> Problem | None:
    share = tolerance.share if tolerance else None
    return None if share is None else _check(place, "tolerance", 100 * share, TOLERANCE)


def _house(house: HouseBook) -> Iterator[Problem | None]:
    rules = house.house
    moisture = 100 * rules.standard_moisture
    yield _check(HOUSE, "standard_moisture", moisture, FILLER_MOISTURE)
    yield _check(HOUSE, "scale_division", rules.scale_division_g, SCALE_DIVISION)
    yield _tolerance(HOUSE, rules.tolerance)
    yield _check(HOUSE, "bundle_tolerance", 100 * rules.bundle_tolerance, BUNDLE)
    yield _check(HOUSE, "readings", rules.readings, READINGS)
    yield _check(HOUSE, "packing", rules.packing_g_per_cm3, PACKING)


def _leaves(house: HouseBook) -> Iterator[Problem | None]:
    for number, leaf in enumerate(house.leaves, start=1):
        place = entry_place("leaf", number, leaf.code)
        if isinstance(leaf, FillerLeaf):
            yield _check(place, "moisture", 100 * leaf.moisture, FILLER_MOISTURE)
            half_leaf = say("half_leaf of {leaf_class}", leaf_class=leaf.leaf_class)
            yield _check(place, half_leaf, leaf.half_leaf_g, HALF_LEAF.get(leaf.leaf_class))
            continue
        yield _check(place, "moisture", 100 * leaf.moisture, COVER_MOISTURE)
        yield _check(place, "build", leaf.build_mm, BUILD)
        yield _check(place, "on_cigar", leaf.on_cigar_g_per_m2, ON_CIGAR)
        yield _check(place, "overlap", 100 * leaf.overlap, OVERLAP)
        if leaf.use == "wrapper":
            issued = 1000 * leaf.pieces * leaf.half_leaf_g / G_PER_LB
            yield _check(place, say("half_leaf times pieces"), issued, WRAPPER_ISSUED)


def _blends(house: HouseBook) -> Iterator[Problem | None]:
    for number, blend in enumerate(house.blends, start=1):
        place = entry_place("blend", number, blend.code)
        for leaf_class, band in SHARES.items():
            share = sum(
                share
                for code, share in blend.shares.items()
                if house.filler[code].leaf_class == leaf_class
            )
            yield _check(place, leaf_class, 100 * share, band)


def _vitolas(house: HouseBook) -> Iterator[Problem | None]:
    for number, vitola in enumerate(house.vitolas, start=1):
        place = entry_place("vitola", number, vitola.code)
        yield _check(place, "ring", vitola.ring, RING)
        yield _check(place, "length", vitola.length_mm, LENGTH)
        yield _tolerance(place, vitola.tolerance)


def _approved(house: HouseBook) -> Iterator[Problem | None]:
    for number, entry in enumerate(house.approved, start=1):
        yield _check(entry_place("approved", number), "filler", entry.filler_g, FILLER)


def _benches(house: HouseBook) -> Iterator[Problem | None]:
    for number, bench in enumerate(house.benches, start=1):
        yield _check(entry_place("bench", number, bench.number), "quota", bench.quota, QUOTA)


CHECKS: tuple[Odd, ...] = (
    _house,
    _leaves,
    _blends,
    _vitolas,
    _approved,
    _benches,
)
