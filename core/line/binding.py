"""Which limits keep leaf from being changed, in words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from core.line.leaf_limits import POINT, STRENGTH, Asked, stock_name
from core.line.programme import least_given
from core.say import Said, joined, say

DUST = 1e-4
"""Of the last decimal shown: less than this over it is what arithmetic and the solver leave."""


class Binding(NamedTuple):
    """A limit that keeps the leaf from being changed.

    `alone`: to let this one go, as `says` says, is enough; else it is only with the others.
    """

    limit: str
    alone: bool
    says: str


def binding(asked: Asked) -> tuple[Binding, ...]:
    """The limits that are enough to let go by themselves; where none is, those that are together.

    Stock is let go of as one limit: what is bought can be of any leaf.
    """
    names = list(dict.fromkeys(limit.name for limit in asked.limits))
    stock = [name for name in names if name.startswith(stock_name(""))]
    alone = [
        Binding(name, True, _says(asked, name, by))
        for name in names
        if name not in stock
        for by in _given(asked, [name]).values()
    ]
    if stock and (bought := _given(asked, stock)):
        says = joined("; ", (_says(asked, name, by) for name, by in bought.items()))
        alone.append(Binding(" and ".join(bought), True, says))
    if alone:
        return tuple(alone)
    together = _given(asked, names)
    return tuple(Binding(name, False, _says(asked, name, by)) for name, by in together.items())


def _given(asked: Asked, names: Sequence[str]) -> dict[str, float]:
    """By how much each must give where only these may; nothing where that is not enough."""
    costs = {name: POINT if name == STRENGTH else 1.0 for name in names}
    return least_given(len(asked.leaves), asked.limits, costs) or {}


def _says(asked: Asked, name: str, by: float) -> Said:
    band = asked.band
    if name == STRENGTH:
        return say(
            "strength: within {within} of {strength} cannot be kept; within {enough} can",
            within=f"{band.strength_within:g}",
            strength=f"{asked.strength or 0:.2f}",
            enough=_enough(band.strength_within + by, 2),
        )
    for leaf_class, share in asked.classes.items():
        if name == leaf_class:
            others = [leaf.code for leaf in asked.leaves if leaf.leaf_class == leaf_class]
            return say(
                "{name}: within {within} % of {share} % of the filler cannot be kept with {left}; "
                "within {enough} % can",
                name=name,
                within=f"{100 * band.class_within:g}",
                share=f"{100 * share:.1f}",
                left=joined(", ", others) if others else say("no leaf"),
                enough=_enough(100 * (band.class_within + by), 1),
            )
    code = name.removeprefix(stock_name(""))
    here_g, more_g = band.on_hand_g[code], by * (band.planned_g or 0.0)
    return say(
        "{leaf}: {here} kg on hand, the plan needs {needs} kg",
        leaf=code,
        here=f"{here_g / 1000:.2f}",
        needs=_enough((here_g + more_g) / 1000, 2),
    )


def _enough(value: float, places: int) -> str:
    """A figure to let a limit go to: rounded up, as the nearest below it would not do."""
    ten = 10**places
    return f"{math.ceil(value * ten - DUST) / ten:.{places}f}"
