"""What happens in the two weeks that no habit explains: told by working day, counted from 0."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from core.entry import requests as ask
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


class Aside(NamedTuple):
    """Good cigars set aside, or let go again."""

    at: dt.timedelta
    request: ask.Hold | ask.Count


class Delivery(NamedTuple):
    """A lot that comes into the store. Kilograms on its scale, price a kg at standard moisture."""

    leaf: str
    lot: str
    kg: float
    crop: int
    bales: int
    price: float
    moisture: float | None = None
    at: dt.timedelta = clock("06:31")


class Counted(NamedTuple):
    """The lot in use of a leaf weighed over: what was found, as a share of the records."""

    at: dt.timedelta
    leaf: str
    found: float


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
    11: (
        Remark(clock("08:20"), "still heavy, ask for the mould to be gauged", "17"),
        Remark(clock("10:15"), "ligero will not last the day, the next lot is on its way"),
    ),
}

SET_ASIDE = {
    3: (Aside(clock("15:58"), ask.Hold("19", 50, "press marks")),),
    5: (Aside(clock("10:50"), ask.Count("19", "release", 50)),),
    10: (Aside(clock("15:59"), ask.Hold("8", 40, "draw tight, rest a week")),),
    11: (
        Aside(clock("10:20"), ask.Count("8", "release", 15)),
        Aside(clock("10:34"), ask.Hold("14", 25, "too wet")),
    ),
}

FOR_PANEL = {2: ("1", "8"), 6: ("14", "18"), 9: ("17", "21", "24")}
PANEL_TAKES = 5

DELIVERIES = {
    0: (
        Delivery("VO-11", "24-118", 150.0, 2023, 3, 11.8, 0.134),
        Delivery("VO-11", "24-131", 172.0, 2024, 4, 12.4, 0.139),
        Delivery("SE-20", "23-090", 262.0, 2022, 5, 15.4, 0.138),
        Delivery("SE-20", "24-097", 241.0, 2023, 5, 14.8),
        Delivery("VI-5", "23-055", 96.0, 2022, 2, 18.5),
        Delivery("VI-5", "24-061", 149.0, 2023, 3, 17.9, 0.145),
        Delivery("LI-2", "22-207", 131.0, 2021, 3, 21.0),
        Delivery("LI-2", "23-219", 132.0, 2022, 3, 20.2),
        Delivery("BI-7", "24-302", 232.0, 2023, 5, 24.0, 0.18),
        Delivery("BI-7", "24-310", 254.0, 2023, 6, 23.5, 0.185),
        Delivery("CA-3", "C-401", 172.0, 2023, 4, 47.0, 0.235),
        Delivery("CA-3", "C-407", 118.0, 2023, 3, 45.5),
        Delivery("CA-3", "C-415", 112.0, 2024, 3, 46.0, 0.245),
        Delivery("SE-26", "24-152", 168.0, 2024, 4, 14.2),
        Delivery("LI-4", "24-220", 74.0, 2023, 2, 19.4),
    ),
    6: (Delivery("SE-20", "24-140", 182.0, 2024, 4, 15.1, 0.142, clock("10:21")),),
}
"""All is there before the first leaf is issued, but for one lot of seco that is late.

There is too little ligero for the last day; a ligero and a seco that no blend has lie in reserve.
"""

COUNTED = {5: Counted(clock("16:08"), "VI-5", 0.994)}

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
