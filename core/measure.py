"""What can be measured of a bunch or a cigar."""

from __future__ import annotations

from typing import Literal

Measure = Literal["filler", "bunch", "cigar", "bundle", "ring", "length", "draw"]
WEIGHED: frozenset[Measure] = frozenset({"filler", "bunch", "cigar", "bundle"})
"""The measures in grams; ring is in ring gauge, length in mm, draw in mm of water."""
