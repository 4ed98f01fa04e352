"""A day added up from its ledger.

What splits the leaf and makes the report is imported when it is asked: a floor is on the
screen before anybody adds its day up.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, NamedTuple

from core.house.numbering import bench_order

if TYPE_CHECKING:
    from core.day.bench import BenchTally, RunKey
    from core.day.leaf import Split
    from core.day.ledger import Ledger
    from core.day.output import Kind, Made
    from core.day.report import DayReport
    from core.house.model import HouseBook


class Added(NamedTuple):
    """A day added up: every bench's tally, what it made of each blend and vitola, the leaf.

    `house` is the house book `version`, that the day is added up under. All of it stands for
    the ledger as it is: whoever adds an entry adds the day up anew.
    """

    ledger: Ledger
    house: HouseBook
    version: int
    date: str
    closed: bool
    damaged_lines: int
    tallies: Mapping[str, BenchTally]
    made: Mapping[str, Mapping[Kind, Made]]
    leaf: Split

    @property
    def report(self) -> DayReport:
        """The day's report, made when it is asked for: a summary needs none."""
        from core.day.reporting import report  # noqa: PLC0415 - as said above

        return report(self)


def add_up(
    ledger: Ledger,
    *,
    house: HouseBook,
    date: dt.date,
    version: int,
    packed: Callable[[RunKey], float],
    closed: bool | None = None,
    damaged_lines: int = 0,
) -> Added:
    """Add the day up under a house-book version, `house`.

    `packed` gives filler per bunch (standard grams) of what was rolled. `closed` asks for
    the report of a day that is, or is not, closed yet.
    """
    from core.day.books import Books  # noqa: PLC0415 - as said above
    from core.day.leaf import split  # noqa: PLC0415
    from core.day.output import made_at  # noqa: PLC0415

    closed = ledger.closed if closed is None else closed
    numbers = sorted({*house.bench, *ledger.benches()}, key=bench_order)
    tallies = {number: ledger.bench(number) for number in numbers}
    standards = {v: ledger.houses[v].house.standard_moisture for v in ledger.versions}
    books = Books(ledger.houses, standards, house, closed, packed)
    leaf = split(tallies, ledger.sweepings(), books)
    made = {number: made_at(number, tally, leaf) for number, tally in tallies.items()}
    return Added(
        ledger=ledger,
        house=house,
        version=version,
        date=date.isoformat(),
        closed=closed,
        damaged_lines=damaged_lines,
        tallies=tallies,
        made=made,
        leaf=leaf,
    )
