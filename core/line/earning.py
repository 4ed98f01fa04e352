"""Which sizes earn most for the time they take at the bench."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

from core.house.model import HouseBook
from core.line.cost import Cost

PER = 1000


class Earning(NamedTuple):
    """What a vitola leaves for a bench's time, in the house's currency.

    `per_1000` is the margin, after excise where one is due. `pieces_a_day` is the mean quota
    of the benches that roll it; `per_bench_hour` None where the house gives no `hours`.
    """

    vitola: str
    per_1000: float
    pieces_a_day: float
    per_bench_day: float
    per_bench_hour: float | None


def pieces_a_day(house: HouseBook, blend: str, vitola: str) -> float | None:
    """Mean quota of the benches that roll it in the blend; of any blend where none does so."""
    benches = [b for b in house.benches if b.vitola == vitola and b.quota is not None]
    quotas = [b.quota for b in benches if b.blend == blend] or [b.quota for b in benches]
    given = [quota for quota in quotas if quota is not None]
    return math.fsum(given) / len(given) if given else None


def earnings(
    house: HouseBook, blend: str, costs: Iterable[tuple[str, Cost]]
) -> tuple[Earning, ...]:
    """The vitolas by what they leave per bench hour, the most first.

    Left out are those without a price, a cost or a quota. `hours` in `[house]` is how long a
    bench works a day; without it the order is the same, by the day.
    """
    found: list[Earning] = []
    for vitola, cost in costs:
        left = cost.margin if cost.after_excise is None else cost.after_excise
        pieces = pieces_a_day(house, blend, vitola)
        if left is not None and pieces is not None:
            found.append(_earning(house, vitola, left, pieces))
    return tuple(sorted(found, key=lambda earning: -earning.per_bench_day))


def _earning(house: HouseBook, vitola: str, per_1000: float, pieces: float) -> Earning:
    a_day = per_1000 * pieces / PER
    minutes = house.house.hours_min
    return Earning(vitola, per_1000, pieces, a_day, a_day / (minutes / 60) if minutes else None)
