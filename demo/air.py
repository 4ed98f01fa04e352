"""How wet the leaf is over a day: wettest in the morning, drier after each break."""

from __future__ import annotations

import random
from typing import NamedTuple

from core.house.model import HouseBook
from demo.habits import Habits


class Air(NamedTuple):
    """Moisture of every leaf in one part of the day, as it is and as the meter shows it."""

    true: dict[str, float]
    measured: dict[str, float]


def air(house: HouseBook, habits: Habits, rng: random.Random) -> tuple[Air, ...]:
    """Moistures of each part of a day. Binder and wrapper lie under cloth and keep theirs."""
    now = {code: leaf.moisture + rng.uniform(*habits.morning) for code, leaf in house.leaf.items()}
    parts = [_read(now)]
    for off in habits.breaks:
        now = {
            code: moisture - (rng.uniform(*off) if code in house.filler else 0.0)
            for code, moisture in now.items()
        }
        parts.append(_read(now))
    return tuple(parts)


def _read(true: dict[str, float]) -> Air:
    return Air(true, {code: round(moisture, 3) for code, moisture in true.items()})
