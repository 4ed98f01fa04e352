"""Leaf weighed at a bench, at standard moisture: what it took and gave back, and what was cut off.

A bench's tally keeps both as its entries come.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from core.day.bench import RunKey
    from core.day.entries import LeafEntry


class Moved(NamedTuple):
    """Leaf issued and returned as weighed, and used at standard moisture (grams)."""

    issued_g: float = 0.0
    returned_g: float = 0.0
    used_g: float = 0.0

    def after(self, entry: LeafEntry, standard_g: float) -> Moved:
        """With the next take or return too, which is of so many grams at the standard."""
        issued_g, returned_g, used_g = self
        if entry["kind"] == "take":
            return Moved(issued_g + entry["grams"], returned_g, used_g + standard_g)
        return Moved(issued_g, returned_g + entry["grams"], used_g - standard_g)


class Offcut(NamedTuple):
    """Cuttings, or stem, of what was rolled as they were weighed; `leaf` None where not told."""

    run: RunKey
    leaf: str | None
    standard_g: float
    stem: bool
