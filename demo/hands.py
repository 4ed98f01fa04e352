"""The pairs of the room: how heavy, how evenly and how fast each of them works."""

from __future__ import annotations

from typing import NamedTuple

from core.house.model import HouseBook
from demo.dice import dice
from demo.habits import Habits
from demo.story import DRIFT, UNSTEADY


class Hand(NamedTuple):
    """Mean and spread of a pair's bunches over the recipe, as shares of it; pace by quota."""

    bias: float
    spread: float
    pace: float


def hands(house: HouseBook, habits: Habits, working_day: int) -> dict[str, Hand]:
    """Every bench's hand on a working day: its own for good, but for the one that drifts."""
    rng = dice(habits.seed, "hands")
    found: dict[str, Hand] = {}
    for number in house.bench:
        spread = habits.unsteady_spread if number in UNSTEADY else habits.spread
        found[number] = Hand(rng.gauss(*habits.bias), spread, rng.gauss(1, habits.pace_sd))
    days = max(0, working_day - DRIFT.since + 1)
    heavier = found[DRIFT.bench]
    found[DRIFT.bench] = heavier._replace(bias=heavier.bias + days * DRIFT.a_day)
    return found
