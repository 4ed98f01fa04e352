"""How wet the leaf is over a day: wettest in the morning, drier after each break."""

from __future__ import annotations

import random
from typing import NamedTuple

from core.house.model import HouseBook
from demo.habits import Habits
from demo.house import in_use


class Air(NamedTuple):
    """Moisture of every leaf in one part of the day, as it is and as the meter shows it."""

    true: dict[str, float]
    measured: dict[str, float]


def air(house: HouseBook, habits: Habits, rng: random.Random) -> tuple[Air, ...]:
    """Moistures of each part of a day. Binder and wrapper lie under cloth and keep theirs.

    Leaf in reserve lies in its bale, as wet as the house book says.
    """
    rest = {code: house.leaf[code].moisture for code in house.leaf if code not in in_use(house)}
    now = {code: house.leaf[code].moisture + rng.uniform(*habits.morning) for code in in_use(house)}
    parts = [_read(now | rest)]
    for off in habits.breaks:
        now = {
            code: moisture - (rng.uniform(*off) if code in house.filler else 0.0)
            for code, moisture in now.items()
        }
        parts.append(_read(now | rest))
    return tuple(parts)


def _read(true: dict[str, float]) -> Air:
    return Air(true, {code: round(moisture, 3) for code, moisture in true.items()})
