"""What is impossible in a house book: the limits beyond which a figure is refused.

Generous on purpose: `core.house.odd` says what is merely unusual. Percentages begin high enough
that one written as a fraction (`0.13` for 13 %) is refused rather than believed.
"""

from __future__ import annotations

from typing import NamedTuple


class Range(NamedTuple):
    """Both ends are allowed; in the unit of the model."""

    low: float
    high: float


MOISTURE = Range(0.01, 0.60)
TOLERANCE_SHARE = Range(0.002, 0.50)
TOLERANCE_G = Range(0.01, 20)
SMALL_SHARE = Range(0.002, 0.50)
PORTION = Range(0.002, 1)
LOSS_ALLOWANCE = Range(0.002, 0.50)
HOURS_MIN = Range(30, 1440)
EXCISE_RATE = Range(0.01, 5)
EXCISE_ABOVE_G = Range(0, 20)
OVERLAP = Range(0, 4)
SCALE_DIVISION_G = Range(0.0001, 100)
PACKING_G_PER_CM3 = Range(0.02, 1.6)
WEIGH_EVERY_MIN = Range(1, 1440)
READINGS = Range(1, 50)

HALF_LEAF_G = Range(0.05, 30)
PIECE = Range(0.05, 2)
PIECES = Range(0.1, 10)
BUILD_MM = Range(0.01, 5)
ON_CIGAR_G_PER_M2 = Range(5, 500)
STRENGTH = Range(0, 10)
PARTS = Range(1e-6, 1e6)

RING = Range(16, 100)
STATION_RING = Range(0, 100)
LENGTH_MM = Range(20, 500)
DRAW_MMH2O = Range(1, 1000)
DRAW_DIAL = Range(0, 10_000)
RING_TOLERANCE = Range(0.1, 20)
LENGTH_TOLERANCE_MM = Range(0.1, 50)
MONEY = Range(0, 1e9)
PRICE = Range(1e-6, 1e9)

FILLER_G = Range(0.2, 200)
SPREAD_G = Range(0, 50)
BUNCHES = Range(1, 1e6)
QUOTA = Range(1, 1e5)

ENTRIES = 2000
"""Entries in one list of tables; the largest rooms have some three hundred benches."""
STATIONS = 100
STATIONS_APART_MM = 0.1
