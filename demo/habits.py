"""What the invented rolling room is like: its hours, its hands, its losses.

Every figure is plausible by common practice and nothing more; none is measured.
"""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple


def clock(text: str) -> dt.timedelta:
    """A time of day, HH:MM, as time since midnight."""
    hours, minutes = map(int, text.split(":"))
    return dt.timedelta(hours=hours, minutes=minutes)


class Stretch(NamedTuple):
    """Work between two rounds of the scale.

    `weighed` is when its round of the scale sets out, `counted` when its pieces are counted,
    `issued` when leaf for the rest of the day is handed out. `air` is the part of the day
    whose moisture holds: leaf dries while it lies open in a break, and is covered again.
    """

    begins: dt.timedelta
    ends: dt.timedelta
    weighed: dt.timedelta
    air: int
    counted: dt.timedelta | None = None
    issued: dt.timedelta | None = None

    @property
    def minutes(self) -> float:
        return (self.ends - self.begins) / dt.timedelta(minutes=1)


STRETCHES = (
    Stretch(clock("07:00"), clock("08:00"), clock("07:12"), 0),
    Stretch(clock("08:00"), clock("09:00"), clock("08:08"), 0),
    Stretch(clock("09:15"), clock("10:05"), clock("09:20"), 1, counted=clock("10:06")),
    Stretch(clock("10:05"), clock("11:00"), clock("10:24"), 1),
    Stretch(clock("11:00"), clock("12:00"), clock("11:22"), 1, clock("12:01"), clock("11:01")),
    Stretch(clock("12:40"), clock("13:40"), clock("12:48"), 2, counted=clock("13:41")),
    Stretch(clock("13:40"), clock("14:40"), clock("13:46"), 2),
    Stretch(clock("14:40"), clock("15:40"), clock("14:47"), 2, clock("15:41"), clock("14:42")),
)
MORNING = STRETCHES[:4]
"""The stretches that the first issue of leaf is for."""
SHIFT_MINUTES = sum(stretch.minutes for stretch in STRETCHES)

MEASURED = (clock("06:30"), clock("09:05"), clock("12:32"))
"""When the moisture of each filler leaf is measured: before work and after each break."""

SEATED, ISSUED, CLEARED, TASTED, SWEPT, HANDED_OVER, CLOSED = map(
    clock, ("06:34", "06:38", "15:44", "16:04", "16:07", "16:10", "16:15")
)

BETWEEN_WEIGHINGS = dt.timedelta(minutes=2, seconds=48)
BETWEEN_COUNTS = dt.timedelta(seconds=46)
BETWEEN_ISSUES = dt.timedelta(seconds=44)
"""From one bench to the next, for whoever goes round."""

KEYED = dt.timedelta(seconds=6)
"""From one line to the next at the same bench."""


class Fault(NamedTuple):
    """How many of a thousand pieces have it; what share of those is mended, or sold as seconds."""

    code: str
    per_1000: float
    mended: float
    second: float = 0.0


FAULTS = (
    Fault("plugged", 9, 0.90),
    Fault("soft", 5, 0.95),
    Fault("hard", 4, 0.95),
    Fault("heavy", 3, 0.90),
    Fault("light", 2, 0.90),
    Fault("twisted", 2, 0.85),
    Fault("torn", 8, 0.90),
    Fault("loose", 3, 0.95),
    Fault("cap", 4, 0.95),
    Fault("stain", 5, 0.0, 0.5),
    Fault("colour", 5, 0.0, 0.7),
    Fault("crooked", 3, 0.0),
    Fault("tight", 2, 0.0),
    Fault("short", 1, 0.0),
)


class Habits(NamedTuple):
    """The room in figures. Shares are of the target, or of the leaf laid."""

    seed: str = "demo"

    bias: tuple[float, float] = (0.003, 0.010)
    """How much heavier than the recipe a pair's bunches are: mean and spread over the pairs."""
    spread: float = 0.012
    """One bunch against that buncher's mean, in a steady hand."""
    unsteady_spread: float = 0.026
    wander_sd: float = 0.008
    """How far a buncher's mean moves from one round to the next."""

    pace_sd: float = 0.04
    """A bench's pace against its quota, over the benches."""
    hurry_sd: float = 0.03
    """The same bench's, over the stretches."""
    mould: int = 10
    in_press: int = 30
    """Bunches made that nobody can have inspected yet."""

    cuttings: tuple[float, float] = (0.026, 0.042)
    stem: tuple[float, float] = (0.002, 0.005)
    """Cuttings and stem of filler, weighed at each bench at the day's end."""
    floor: float = 0.003
    """What falls on the floor of any leaf, and is swept up and weighed together."""
    dust: float = 0.0004
    """What nobody sweeps up."""
    spoilt_cover: tuple[float, float] = (0.005, 0.020)
    """Binder and wrapper torn before they are on."""
    workers: int = 2
    """Cigars that a pair takes home."""
    allowance: float = 0.08
    """What the clerk issues beyond the recipe."""
    issue_step_g: int = 50

    morning: tuple[float, float] = (-0.003, 0.005)
    """Moisture of conditioned leaf at half past six, against the house book's figure."""
    breaks: tuple[tuple[float, float], ...] = ((0.004, 0.008), (0.003, 0.006))
    """What each break takes off it."""

    missed_round: float = 0.05
    one_by_one: float = 0.12
    """Checks that the scale types reading by reading."""
    cut_short: float = 0.08
    """Of those, checks closed by hand with a reading missing."""
    of_filler: float = 0.05
    of_cigars: float = 0.05
    """Checks that weigh portions before bunching, or finished cigars."""
    draws: float = 0.12
    bundles: float = 0.25
    """How often a tour takes cigars to the draw bench, and the last tour a bundle to the scale."""


HABITS = Habits()
