"""What happens in the two weeks that no habit explains: told by working day, counted from 0."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from demo.habits import clock


class Change(NamedTuple):
    """A bench told to roll another vitola once its pieces of a stretch are counted.

    The next morning it is back at its own.
    """

    bench: str
    vitola: str
    after: int


class Slip(NamedTuple):
    """A count that the inspector types for another bench first, then undoes."""

    bench: str
    typed_for: str
    after: int
    reason: str


class Drift(NamedTuple):
    """A bench that grows heavier, by a share of the target a day, from a working day on."""

    bench: str
    since: int
    a_day: float


class Missing(NamedTuple):
    """Leaf issued to a bench and never seen again."""

    bench: str
    leaf: str
    grams: float
    at: dt.timedelta


class Remark(NamedTuple):
    """A note on the day, or on a bench."""

    at: dt.timedelta
    text: str
    bench: str | None = None


DRIFT = Drift(bench="17", since=6, a_day=0.007)
UNSTEADY = frozenset({"5", "14", "20"})

MISSING = {8: Missing(bench="9", leaf="LI-2", grams=600.0, at=clock("13:24"))}

CHANGES = {
    2: Change("10", "robusto", after=4),
    5: Change("22", "piramide", after=4),
    9: Change("3", "corona", after=4),
    11: Change("24", "prensado", after=2),
}

SLIPS = {
    1: Slip("6", "7", after=2, reason="wrong bench"),
    4: Slip("12", "21", after=4, reason="typed for 21, was 12"),
    8: Slip("2", "20", after=5, reason="wrong bench"),
    11: Slip("13", "3", after=2, reason="wrong bench"),
}

REMARKS = {
    0: (Remark(clock("10:52"), "new bale of seco opened, colour even"),),
    1: (Remark(clock("07:50"), "draws soft, told to lay the ligero in the middle", "5"),),
    3: (Remark(clock("13:15"), "room at 63 % humidity, damp cloths renewed"),),
    4: (Remark(clock("09:32"), "blade changed", "12"),),
    6: (Remark(clock("08:50"), "leaf wetter than usual until nine"),),
    7: (Remark(clock("11:30"), "two moulds worn, taken out", "14"),),
    8: (Remark(clock("15:30"), "ligero returns look short, weigh the bins tomorrow"),),
    9: (Remark(clock("14:20"), "heavy again, portions weighed with the buncher", "17"),),
    10: (Remark(clock("10:45"), "cloths renewed over the wrapper"),),
    11: (Remark(clock("08:20"), "still heavy, ask for the mould to be gauged", "17"),),
}

HANDOVER = "benches cleared, leaf back in the conditioning room"


def change_after(working_day: int, bench: str, stretch: int) -> Change | None:
    """The bench's change of vitola after a stretch of the day, if it has one then."""
    change = CHANGES.get(working_day)
    return change if change and (change.bench, change.after) == (bench, stretch) else None


def changed_on(working_day: int, bench: str) -> bool:
    """Whether the bench rolled another vitola when that day ended."""
    change = CHANGES.get(working_day)
    return change is not None and change.bench == bench


def slip_after(working_day: int, bench: str, stretch: int) -> Slip | None:
    """The slip on the tour after a stretch of the day, if there is one at the bench."""
    slip = SLIPS.get(working_day)
    return slip if slip and (slip.bench, slip.after) == (bench, stretch) else None
