"""The inspector's tour: what is told as made, what passes, fails, is mended or a second."""

from __future__ import annotations

import random

from core.entry import requests as ask
from demo.habits import FAULTS, Habits

_PER_PIECE = sum(fault.per_1000 for fault in FAULTS) / 1000
_WEIGHTS = [fault.per_1000 for fault in FAULTS]


class Pieces:
    """A bench's pieces: bunches made so far, those told of, those inspected."""

    def __init__(self) -> None:
        self.made = self._told = self._inspected = 0

    def tour(
        self, number: str, dice: random.Random, habits: Habits, *, worse: float, ends: bool
    ) -> list[ask.Request]:
        """What the inspector types at the bench; `worse` multiplies how often pieces fail.

        Bunches are told by the mould, and those in the press are left for a later tour;
        where the day or the vitola `ends`, none are.
        """
        made = self.made if ends else self.made // habits.mould * habits.mould
        inspected = made if ends else max(self._inspected, made - habits.in_press)
        pieces, bunches = inspected - self._inspected, made - self._told
        self._told, self._inspected = made, inspected
        failed, mended, seconds = _inspect(pieces, dice, worse)
        passed = pieces - sum(failed.values()) - seconds + mended
        requests: list[ask.Request] = []
        if bunches:
            requests.append(ask.Count(number, "made", bunches))
        if passed:
            requests.append(ask.Count(number, "good", passed))
        if seconds:
            requests.append(ask.Count(number, "second", seconds))
        if failed:
            requests.append(ask.Fail(number, tuple(failed.items())))
        if mended:
            requests.append(ask.Count(number, "rework", mended))
        return requests


def _inspect(pieces: int, dice: random.Random, worse: float) -> tuple[dict[str, int], int, int]:
    """Pieces that fail, by fault; how many of those are mended; and how many are seconds."""
    failed: dict[str, int] = {}
    mended = seconds = 0
    for _ in range(pieces):
        if dice.random() < _PER_PIECE * worse:
            (fault,) = dice.choices(FAULTS, _WEIGHTS)
            if dice.random() < fault.second:
                seconds += 1
                continue
            failed[fault.code] = failed.get(fault.code, 0) + 1
            mended += dice.random() < fault.mended
    return failed, mended, seconds
