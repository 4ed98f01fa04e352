"""What is kept of a day when it is closed: counts, sums, sums of squares, grams.

Columns, not rows: a year of such days is read and added up for every trend, so nothing is
said twice. What goes by bench is JSON text of its own: whoever does not ask for it need not
make 6,000 numbers a day of it. Leaf is grams at standard moisture unless issued or returned,
which are as weighed. Sums of deviations are of filler and bunch checks, grams on the scale.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any, Literal, NamedTuple, TypedDict, cast

import orjson

SUMMARY = 2
"""The number of this format; a reader of an older one refuses what it does not know.

Format 1 knew no seconds, cigars for workers or the panel, stem, sweepings or lots.
"""


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
    second: int
    workers: int
    panel: int
    checks: int
    out: int
    n_dev: int
    sum_dev_g: float
    sum_sq_dev_g2: float


class _RunsLeaf(TypedDict, total=False):
    """Of each run's filler: in its good cigars, and explained by nothing; not in format 1."""

    in_good_g: list[float]
    unexplained_g: list[float]


class Runs(_RunsLeaf):
    """A row for each bench, blend, vitola and house-book version that it worked by.

    `filler_g` is what each used of filler: a bench's is shared over its runs by what they
    packed of each leaf.
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
    second: list[int]
    workers: list[int]
    panel: list[int]


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
        "in_seconds_g": list[float],
        "stem_g": list[float],
        "sweepings_g": list[float],
    },
)
"""A row for each leaf that moved."""


class BenchLeaf(TypedDict):
    """Leaf used by bench: `used_g` has a row for each leaf, a figure for each bench."""

    bench: list[int | str]
    leaf: list[str]
    used_g: list[list[float]]


class Lots(TypedDict):
    """A row for each lot in stock: the day's moves and what was left, standard grams."""

    leaf: list[str]
    lot: list[str]
    received_g: list[float]
    issued_g: list[float]
    returned_g: list[float]
    adjusted_g: list[float]
    on_hand_g: list[float]


class _Stock(TypedDict, total=False):
    """A house that keeps no lots has none of this."""

    lots: Lots


class DaySummary(_DayEnd, _Stock):
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


def as_kept(document: Mapping[str, Any]) -> DaySummary | DayOpened | None:
    """A year book's document as a summary; None where it is none of a format known here.

    What format 1 did not know is zeros.
    """
    closed = bool(document.get("closed"))
    keys = DaySummary.__required_keys__ if closed else DayOpened.__required_keys__
    if not keys <= document.keys() or not (_known(document) and _is_end(document)):
        return None
    if not closed:
        return cast("DayOpened", document)
    if not (_is_added_up(document) and _are_columns(document["leaf"])):
        return None
    if document["summary"] == SUMMARY:
        return cast("DaySummary", document)
    leaf = document["leaf"]
    nothing = dict.fromkeys(("in_seconds_g", "stem_g", "sweepings_g"), [0.0] * len(leaf["code"]))
    totals = dict.fromkeys(_NEW_COUNTS, 0) | document["totals"]
    return cast("DaySummary", {**document, "leaf": nothing | leaf, "totals": totals})


def _is_end(document: Mapping[str, Any]) -> bool:
    """Whether it says which day ended, and when."""
    try:
        dt.date.fromisoformat(document["date"])
    except (TypeError, ValueError):
        return False
    texts = type(document["at"]) is str and type(document["end"]) is str
    return texts and type(document["corrected"]) is int


def _is_added_up(document: Mapping[str, Any]) -> bool:
    """Whether what every trend asks of a day is there; its rows are looked at when asked for."""
    totals = document["totals"]
    if not isinstance(totals, dict) or type(document["runs"]) is not str:
        return False
    counted = (key for key in Totals.__required_keys__ if key not in _NEW_COUNTS)
    return all(type(totals.get(key)) in NUMBERS for key in counted)


def _are_columns(leaf: object) -> bool:
    """Whether it is columns of one length, with numbers where a trend adds them up."""
    if not isinstance(leaf, dict) or not all(isinstance(each, list) for each in leaf.values()):
        return False
    summed = ("used_g", "in_good_g", "unexplained_g")
    return (
        {"class", "beyond", *summed} <= leaf.keys()
        and len(set(map(len, leaf.values()))) == 1
        and all(map(is_numbers, (leaf[key] for key in summed)))
    )


NUMBERS = frozenset({int, float})


def is_numbers(column: object) -> bool:
    """Whether it is a list of numbers and nothing else."""
    return isinstance(column, list) and NUMBERS.issuperset(map(type, column))


_NEW_COUNTS = ("second", "workers", "panel")


def _known(document: Mapping[str, Any]) -> bool:
    return document.get("summary") in range(1, SUMMARY + 1)


def runs_of(day: DaySummary) -> Runs:
    """What each bench did of each blend and vitola; counts that format 1 did not know are 0."""
    runs: dict[str, list[Any]] = orjson.loads(day["runs"])
    if "second" not in runs:
        runs |= dict.fromkeys(_NEW_COUNTS, [0] * len(runs["bench"]))
    return cast("Runs", runs)


def bench_leaf_of(day: DaySummary) -> BenchLeaf:
    """What each bench used of each leaf."""
    leaf: BenchLeaf = orjson.loads(day["bench_leaf"])
    return leaf


def as_text(columns: Runs | BenchLeaf) -> str:
    """The columns as a summary keeps them."""
    return orjson.dumps(columns).decode()
