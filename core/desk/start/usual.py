"""What is usual where a house says nothing yet: common practice, no source."""

from __future__ import annotations

import math

from core.house import limits
from core.house.amounts import LENGTH, Unreadable, parse
from core.house.written import Unwritten, take_apart
from core.units import MM_PER_INCH

PACKING_G_PER_CM3 = 0.30
BUILD = "0.35 mm"
ON_CIGAR = "60 g/m^2"


def packed_g(length: str, ring: str) -> float:
    """Filler of a straight size at the usual packing, in grams; within what a house may say.

    The whole cylinder is taken: its covers are thinner than what packing varies by. A size that
    cannot be read has the least filler there is.
    """
    length_mm, gauge = parse(length, LENGTH), take_apart(ring)
    if isinstance(length_mm, Unreadable) or isinstance(gauge, Unwritten):
        return limits.FILLER_G.low
    across_cm = float(gauge.number) / 64 * MM_PER_INCH / 10
    volume_cm3 = math.pi / 4 * across_cm**2 * length_mm / 10
    low, high = limits.FILLER_G
    return min(high, max(low, PACKING_G_PER_CM3 * volume_cm3))
