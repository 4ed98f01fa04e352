"""What 1,000 pieces cost, line by line, as far as the house gives figures."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

from core.house.model import CoverLeaf, Vitola
from core.line.loss import Loss


class Cost(NamedTuple):
    """Per 1,000 pieces, in the house's currency; None where the house gives no figure.

    `total` is that of the lines there are, `left_out` names those there are not.
    `loss` is filler bought that never reaches a good cigar; None where nobody measured it.
    `excise` is beside the total, and `after_excise` the margin less it. `price_by_filler` is
    what the price would be if it simply followed the filler, from the line's reference vitola.
    """

    filler: float | None
    binder: float | None
    wrapper: float | None
    labour: float | None
    box: float | None
    total: float | None
    price: float | None
    margin: float | None
    price_by_filler: float | None
    loss: float | None
    excise: float | None
    after_excise: float | None
    left_out: tuple[str, ...]


class Anchor(NamedTuple):
    """The line's reference vitola: its price per 1,000 and its filler, standard grams."""

    price: float | None
    filler_g: float


def cost(
    filler: Iterable[tuple[float, float | None]],
    binder: CoverLeaf,
    wrapper: CoverLeaf,
    vitola: Vitola,
    anchor: Anchor,
    *,
    loss: Loss | None = None,
    excise: float | None = None,
) -> Cost:
    """Cost of a vitola; `filler` is each class's standard grams and its price per kg.

    `excise` is what is due per 1,000, None where nothing is known to be.
    Grams of one piece are kilograms of 1,000. Covers are paid by the pieces issued, so they
    cost the same in every size that takes the same pieces: common practice.
    """
    classes = tuple(filler)
    lines = {
        "filler": _filler(classes),
        "binder": _issued(binder),
        "wrapper": _issued(wrapper),
        "labour": vitola.piece_rate,
        "box": vitola.box,
    }
    lost = None if loss is None or lines["filler"] is None else loss.of(lines["filler"])
    given = [line for line in (*lines.values(), lost) if line is not None]
    total = math.fsum(given) if given else None
    margin = None if total is None or vitola.price is None else vitola.price - total
    filler_g = math.fsum(grams for grams, _ in classes)
    return Cost(
        **lines,
        total=total,
        price=vitola.price,
        margin=margin,
        price_by_filler=None if anchor.price is None else anchor.price * filler_g / anchor.filler_g,
        loss=lost,
        excise=excise,
        after_excise=None if margin is None or excise is None else margin - excise,
        left_out=tuple(name for name, line in lines.items() if line is None),
    )


def _filler(classes: Iterable[tuple[float, float | None]]) -> float | None:
    total = 0.0
    for grams, price_per_kg in classes:
        if price_per_kg is None:
            return None
        total += grams * price_per_kg
    return total


def _issued(cover: CoverLeaf) -> float | None:
    if cover.price_per_kg is None:
        return None
    return cover.pieces * cover.half_leaf_g * cover.price_per_kg
