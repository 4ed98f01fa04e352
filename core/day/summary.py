"""What is kept of a day when it is closed: counts, sums, sums of squares, grams.

Columns, not rows: a year of such days is read and added up for every trend, so nothing is
said twice. What goes by bench is JSON text of its own: whoever does not ask for it need not
make 6,000 numbers a day of it. Leaf is grams at standard moisture unless issued or returned,
which are as weighed. Sums of deviations are of filler and bunch checks, grams on the scale.
"""

from __future__ import annotations

from typing import Literal, NamedTuple, TypedDict

import orjson

SUMMARY = 1
"""The number of this format; a reader of an older one refuses what it does not know."""


class _DayEnd(TypedDict):
    """What both ends of a day say. `lines` and `end` are the day book's at that moment.

    `corrected` counts how often the day was opened again after it was closed.
    """

    summary: int
    date: str
    at: str
    lines: int
    end: str
    corrected: int


class Totals(TypedDict):
    """The whole day's counts, and the deviations of its checks."""

    made: int
    good: int
    rework: int
    rejected: int
    checks: int
    out: int
    n_dev: int
    sum_dev_g: float
    sum_sq_dev_g2: float


class Runs(TypedDict):
    """A row for each bench, blend, vitola and house-book version that it worked by.

    `filler_g` is the bench's filler, shared over its runs by what they packed.
    """

    bench: list[int | str]
    buncher: list[str]
    blend: list[str]
    vitola: list[str]
    made: list[int]
    good: list[int]
    rework: list[int]
    rejected: list[int]
    checks: list[int]
    out: list[int]
    n_dev: list[int]
    sum_dev_g: list[float]
    sum_sq_dev_g2: list[float]
    filler_g: list[float]


Leaves = TypedDict(
    "Leaves",
    {
        "code": list[str],
        "class": list[str],
        "issued_g": list[float],
        "returned_g": list[float],
        "used_g": list[float],
        "in_good_g": list[float],
        "rejects_g": list[float],
        "heavy_g": list[float],
        "heavy_se_g": list[float | None],
        "cuttings_g": list[float],
        "unexplained_g": list[float],
        "beyond": list[bool],
    },
)
"""A row for each leaf that moved."""


class BenchLeaf(TypedDict):
    """Leaf used by bench: `used_g` has a row for each leaf, a figure for each bench."""

    bench: list[int | str]
    leaf: list[str]
    used_g: list[list[float]]


class DaySummary(_DayEnd):
    """A closed day. `version` is the house book it was added up under.

    `runs` and `bench_leaf` are texts: `runs_of` and `bench_leaf_of` read them.
    """

    closed: Literal[True]
    version: int
    entries: int
    voided: int
    totals: Totals
    faults: dict[str, int]
    leaf_yield: float | None
    runs: str
    leaf: Leaves
    bench_leaf: str


class DayOpened(_DayEnd):
    """A day opened again, for a reason: what was summed up before is not final any more."""

    closed: Literal[False]
    reason: str


class BookEnd(NamedTuple):
    """How many lines a day's book has, and the checksum of its last sound one."""

    lines: int
    end: str


def runs_of(day: DaySummary) -> Runs:
    """What each bench did of each blend and vitola."""
    runs: Runs = orjson.loads(day["runs"])
    return runs


def bench_leaf_of(day: DaySummary) -> BenchLeaf:
    """What each bench used of each leaf."""
    leaf: BenchLeaf = orjson.loads(day["bench_leaf"])
    return leaf


def as_text(columns: Runs | BenchLeaf) -> str:
    """The columns as a summary keeps them."""
    return orjson.dumps(columns).decode()
