"""What can be measured of a bunch or a cigar."""

from __future__ import annotations

from typing import Literal, NamedTuple

from core.say import say

Measure = Literal["filler", "portion", "bunch", "cigar", "bundle", "ring", "length", "draw"]
MEASURES: dict[Measure, str] = {
    "filler": say("filler"),
    "portion": say("portion"),
    "bunch": say("bunch"),
    "cigar": say("cigar"),
    "bundle": say("bundle"),
    "ring": say("ring"),
    "length": say("length"),
    "draw": say("draw"),
}
"""Their names, as a person reads them."""
WEIGHED: frozenset[Measure] = frozenset({"filler", "portion", "bunch", "cigar", "bundle"})
"""The measures in grams; ring is in ring gauge, length in mm, draw in its scale's unit."""
WEIGH_IN: frozenset[Measure] = frozenset({"filler", "bunch", "cigar"})
"""The measures that weigh one piece: these make a bench's weigh-in.

A portion is one class's filler weighed alone, to find why bunches are heavy or light.
"""

DrawUnit = Literal["mmH2O", "dial"]
DrawRises = Literal["tighter", "looser"]


class DrawScale(NamedTuple):
    """What draw is read in, and what a higher figure means."""

    unit: DrawUnit
    rises: DrawRises


PRESSURE_DROP = DrawScale("mmH2O", "tighter")
"""Millimetres of water column: the tighter a cigar, the more suction it takes."""
