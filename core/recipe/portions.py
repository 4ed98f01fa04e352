"""A bunch's classes on the bench scale: grams, half-leaves, and a batch where one needs it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from core.house.model import LAYING_ORDER, FillerClass
from core.recipe.bunch import Portion
from core.recipe.portion import (
    Batch,
    TooCoarse,
    batch,
    divisions,
    grams,
    half_leaves,
    rounding_errors,
)
from core.recipe.why import Steps, Worked
from core.say import Said, say

DIVISIONS_TIMES_GRAMS = say("divisions × grams each")
CLASSES_TOGETHER = say("its classes together")
EXACT = say("filler on the scale, exact")
FILLER_DIVISIONS = say("filler divisions")
FILLER_DIVISIONS_FROM = say("÷ {division_g:g} g, to the nearest")
FILLER = say("filler on the scale")
DIVISIONS = say("{leaf} divisions")
DIVISIONS_FROM = say("floor, then the largest remainders")
ON_SCALE = say("{leaf} on the scale")
ERROR = say("{leaf} rounding error")
ERROR_FROM = say("on the scale against exact")
HALF_LEAVES = say("{leaf} half-leaves")
HALF_LEAVES_FROM = say("standard grams ÷ {half_leaf_g:g} g, to the nearest {piece:g}")
BATCH = say("batch")
BATCH_FROM = say("fewest whose classes all keep within {limit:g} %")
FOR_BATCH = say("{leaf} for the batch")
FOR_BATCH_FROM = say("exact grams × bunches, on the scale")
BATCH_TOTAL = say("batch total")


class ClassRow(NamedTuple):
    """One filler class of a card. `exact_g` and `g` are today's; `g` is what the scale shows."""

    leaf: str
    leaf_class: FillerClass
    share: float
    moisture: float
    exact_g: float
    g: float
    rounding_error: float
    half_leaves: float

    def as_json(self) -> dict[str, object]:
        """The row under the keys of `card --json`."""
        row = self._asdict()
        return {"leaf": row.pop("leaf"), "class": row.pop("leaf_class"), **row}


class BatchRow(NamedTuple):
    """One class of a batch, in today's grams."""

    leaf: str
    g: float


class BatchCard(NamedTuple):
    """Bunches to portion together, and the grams for all of them."""

    bunches: int
    classes: tuple[BatchRow, ...]
    total_g: float

    def as_json(self) -> dict[str, object]:
        """The batch under the keys of `card --json`."""
        return {**self._asdict(), "classes": [row._asdict() for row in self.classes]}


class Portioned(NamedTuple):
    """The classes of a bunch on the scale, in laying order."""

    filler_g: float
    classes: tuple[ClassRow, ...]
    batch: BatchCard | None
    warnings: tuple[Said, ...]
    steps: Steps


def laying_order(portions: Sequence[Portion]) -> list[int]:
    """Places of the portions from volado to medio tiempo, the blend's order within a class."""
    return sorted(
        range(len(portions)), key=lambda i: LAYING_ORDER.index(portions[i].leaf.leaf_class)
    )


def portioned(portions: Sequence[Portion], division_g: float, limit: float) -> Portioned:
    """Put a bunch's portions on a scale of that division; `limit` bounds a class's error."""
    exact_g = [portion.exact_g for portion in portions]
    counts = divisions(exact_g, division_g)
    errors = rounding_errors(exact_g, counts, division_g)
    order = laying_order(portions)
    total = sum(counts)
    filler_g = grams(total, division_g)
    rows = tuple(_row(portions[i], counts[i], errors[i], division_g) for i in order)
    steps = [
        Worked(EXACT, math.fsum(exact_g), "g", CLASSES_TOGETHER),
        Worked(
            FILLER_DIVISIONS,
            total,
            "divisions",
            FILLER_DIVISIONS_FROM,
            {"division_g": division_g},
        ),
        Worked(FILLER, filler_g, "g", DIVISIONS_TIMES_GRAMS),
    ]
    for i, row in zip(order, rows, strict=True):
        steps += _row_steps(row, portions[i], counts[i])
    found = batch(exact_g, division_g, limit)
    several = _batch_card(found, portions, order, division_g) if isinstance(found, Batch) else None
    if several:
        steps += _batch_steps(several, limit)
    warnings = _warnings(found, portions, errors, division_g=division_g, limit=limit)
    return Portioned(filler_g, rows, several, warnings, tuple(steps))


def _row(portion: Portion, count: int, error: float, division_g: float) -> ClassRow:
    leaf = portion.leaf
    return ClassRow(
        leaf=leaf.code,
        leaf_class=leaf.leaf_class,
        share=portion.share,
        moisture=portion.moisture,
        exact_g=portion.exact_g,
        g=grams(count, division_g),
        rounding_error=error,
        half_leaves=half_leaves(portion.standard_g, leaf.half_leaf_g, leaf.piece),
    )


def _row_steps(row: ClassRow, portion: Portion, count: int) -> Steps:
    leaf = portion.leaf
    blanks = {"leaf": leaf.code, "half_leaf_g": leaf.half_leaf_g, "piece": leaf.piece}
    return (
        Worked(DIVISIONS, count, "divisions", DIVISIONS_FROM, blanks),
        Worked(ON_SCALE, row.g, "g", DIVISIONS_TIMES_GRAMS, blanks),
        Worked(ERROR, row.rounding_error, "fraction", ERROR_FROM, blanks),
        Worked(HALF_LEAVES, row.half_leaves, "half-leaves", HALF_LEAVES_FROM, blanks),
    )


def _batch_card(
    found: Batch, portions: Sequence[Portion], order: Sequence[int], division_g: float
) -> BatchCard:
    rows = tuple(
        BatchRow(leaf=portions[i].leaf.code, g=grams(found.divisions[i], division_g)) for i in order
    )
    total_g = grams(sum(found.divisions), division_g)
    return BatchCard(bunches=found.bunches, classes=rows, total_g=total_g)


def _batch_steps(several: BatchCard, limit: float) -> Steps:
    return (
        Worked(BATCH, several.bunches, "bunches", BATCH_FROM, {"limit": limit * 100}),
        *(
            Worked(FOR_BATCH, row.g, "g", FOR_BATCH_FROM, {"leaf": row.leaf})
            for row in several.classes
        ),
        Worked(BATCH_TOTAL, several.total_g, "g", CLASSES_TOGETHER),
    )


def _warnings(
    found: Batch | TooCoarse | None,
    portions: Sequence[Portion],
    errors: Sequence[float],
    *,
    division_g: float,
    limit: float,
) -> tuple[Said, ...]:
    if found is None:
        return ()
    if isinstance(found, Batch):
        worst = max(range(len(errors)), key=errors.__getitem__)
        says = say(
            "rounding puts {leaf} off by {error:.1f} % in one bunch, over {limit:g} %: portion "
            "{bunches} bunches together",
            leaf=portions[worst].leaf.code,
            error=errors[worst] * 100,
            limit=limit * 100,
            bunches=found.bunches,
        )
    else:
        says = say(
            "the scale ({division_g:g} g) is too coarse for this vitola: even {bunches} bunches "
            "together leave {leaf} off by {error:.1f} %, over {limit:g} %",
            division_g=division_g,
            bunches=found.bunches,
            leaf=portions[found.worst].leaf.code,
            error=found.error * 100,
            limit=limit * 100,
        )
    return (says,)
