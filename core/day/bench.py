"""What one bench's entries of the day add up to."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import chain
from typing import TYPE_CHECKING, NamedTuple

from core.checks import Window
from core.day.checked import Checked, add_up
from core.day.moved import Moved, Offcut
from core.measure import PRESSURE_DROP, WEIGH_IN, DrawScale, Measure
from core.recipe.moisture import at_standard

if TYPE_CHECKING:
    from core.day.entries import (
        BenchEntry,
        CheckEntry,
        CountEntry,
        FailEntry,
        LeafEntry,
        OutputEntry,
        ReadingEntry,
        ScrapEntry,
    )
    from core.house.model import HouseBook


class RunKey(NamedTuple):
    """What was rolled: grams per bunch follow from these three."""

    house: int
    blend: str
    vitola: str


class CheckMade(NamedTuple):
    """A check as it was judged. `standard` turns filler grams of then into standard grams.

    `leaf` is whose portion was weighed; `draw` what draw was read in, None of anything else.
    """

    id: int
    at: str
    offset: int
    terminal: str
    run: RunKey
    measure: Measure
    of: int
    readings: tuple[float, ...]
    window: Window | None
    standard: float | None
    needs: int
    closed: bool
    leaf: str | None = None
    draw: DrawScale | None = None

    @property
    def deviation(self) -> float | None:
        """Mean less target, in the measure's unit."""
        if self.window is None:
            return None
        return sum(self.readings) / len(self.readings) - self.window.target


class Run(NamedTuple):
    """The counts of one thing rolled at one bench.

    `second` is sold as such; of the good ones `held` are set aside (less those let go again,
    perhaps of an earlier day), `workers` and `panel` given away and kept back.
    """

    made: int = 0
    good: int = 0
    rework: int = 0
    faults: tuple[tuple[str, int], ...] = ()
    second: int = 0
    held: int = 0
    workers: int = 0
    panel: int = 0

    @property
    def rejected(self) -> int:
        return sum([n for _, n in self.faults]) if self.faults else 0

    def plus(self, other: Run) -> Run:
        """Both together."""
        return runs_together((self, other))

    @property
    def lost(self) -> int:
        """Rejected and not recovered."""
        return max(0, self.rejected - self.rework)


def runs_together(runs: Sequence[Run]) -> Run:
    """All of one run or more."""
    made, good, rework, each, second, held, workers, panel = zip(*runs, strict=True)
    faults: dict[str, int] = {}
    for fault, n in chain.from_iterable(each):
        faults[fault] = faults.get(fault, 0) + n
    return Run(
        sum(made), sum(good), sum(rework), tuple(faults.items()),
        sum(second), sum(held), sum(workers), sum(panel),
    )  # fmt: skip


class BenchTally:
    """A bench's day as its entries come: checks in order, counts by what was rolled, leaf.

    It only grows: an entry that is voided takes a tally of those that are left. Leaf is kept
    added up by code, at the standard moistures of `houses`, by which the entries were made.
    """

    def __init__(self, houses: Mapping[int, HouseBook], entries: Iterable[BenchEntry] = ()) -> None:
        self._houses = houses
        self.checks: list[CheckMade] = []
        self.runs: dict[RunKey, Run] = {}
        self.leaf: list[LeafEntry] = []
        self.moved: dict[str, Moved] = {}
        self.offcuts: list[Offcut] = []
        self.rolled = 0
        self._place: dict[int, int] = {}
        self._checked: dict[RunKey, Checked] | None = None
        self.firsts: set[int] = set()
        self._weighed: RunKey | None = None
        for entry in entries:
            self.add(entry)

    @property
    def since_roll(self) -> tuple[CheckMade, ...]:
        """Checks made after the last change of vitola."""
        return tuple(check for check in self.checks if check.id > self.rolled)

    @property
    def checked(self) -> dict[RunKey, Checked]:
        """What the checks add up to, by what was rolled; worked out anew after a check."""
        if self._checked is None:
            self._checked = add_up(self.checks)
        return self._checked

    def check(self, number: int) -> CheckMade | None:
        """The check of that number, where it has a reading left."""
        place = self._place.get(number)
        return None if place is None else self.checks[place]

    def add(self, entry: BenchEntry) -> None:
        """Take in the bench's next entry."""
        if entry["kind"] == "check":
            self._keep(_whole(entry))
        elif entry["kind"] == "reading":
            self._keep(_joined(self.check(entry["check"]), entry))
        elif entry["kind"] == "done":
            check = self.check(entry["check"])
            if check is not None:
                self._keep(check._replace(closed=True))
        elif entry["kind"] == "take" or entry["kind"] == "back":
            self._move(entry)
        elif entry["kind"] == "scrap" or entry["kind"] == "stem":
            self._cut(entry)
        elif entry["kind"] == "roll":
            self.rolled = entry["id"]
            self._weighed = None
        else:
            run = run_of(entry)
            self.runs[run] = self.runs.get(run, Run()).plus(_counted(entry))

    def is_first(self, entry: CheckEntry | ReadingEntry) -> bool:
        """Whether the entry's check is a first piece: the first weigh-in of what is rolled.

        So it is after the start of the day and after each change of vitola. The entry may be
        one that is not recorded yet, the bench's next.
        """
        number = entry["id"] if entry["kind"] == "check" else entry["check"]
        if number in self._place:
            return number in self.firsts
        return entry["measure"] in WEIGH_IN and not _same(self._weighed, run_of(entry))

    def _move(self, entry: LeafEntry) -> None:
        self.leaf.append(entry)
        leaf = entry["leaf"]
        self.moved[leaf] = self.moved.get(leaf, Moved()).after(entry, self._standard_g(entry))

    def _cut(self, entry: ScrapEntry) -> None:
        grams, stem = self._standard_g(entry), entry["kind"] == "stem"
        self.offcuts.append(Offcut(run_of(entry), entry.get("leaf"), grams, stem))

    def _standard_g(self, entry: LeafEntry | ScrapEntry) -> float:
        standard = self._houses[entry["house"]].house.standard_moisture
        return at_standard(entry["grams"], standard, entry["moisture"])

    def _keep(self, check: CheckMade) -> None:
        self._checked = None
        if check.id not in self._place and check.measure in WEIGH_IN:
            if not _same(self._weighed, check.run):
                self.firsts.add(check.id)
            self._weighed = check.run
        place = self._place.setdefault(check.id, len(self.checks))
        self.checks[place : place + 1] = [check]


def run_of(entry: BenchEntry) -> RunKey:
    """What was rolled at the bench when the entry was made."""
    return RunKey(entry["house"], entry["blend"], entry["vitola"])


def _same(before: RunKey | None, now: RunKey) -> bool:
    """Whether the same vitola of the same blend was rolled before."""
    return before is not None and before[1:] == now[1:]


def draw_of(entry: CheckEntry | ReadingEntry) -> DrawScale | None:
    """What draw was read in; None of anything else."""
    if entry["measure"] != "draw":
        return None
    return DrawScale(entry.get("unit", PRESSURE_DROP.unit), entry.get("rises", PRESSURE_DROP.rises))


def _window(entry: CheckEntry | ReadingEntry) -> Window | None:
    if "target" not in entry:
        return None
    return Window(entry["target"], entry["low"], entry["high"])


def _whole(entry: CheckEntry) -> CheckMade:
    readings = tuple(entry["readings"])
    return _check(entry, entry["id"], readings, len(readings), closed=True)


def _joined(check: CheckMade | None, entry: ReadingEntry) -> CheckMade:
    if check is None:
        check = _check(entry, entry["check"], (), entry["needs"], closed=False)
    readings = (*check.readings, entry["reading"])
    return check._replace(readings=readings, closed=check.closed or len(readings) >= check.needs)


def _check(
    entry: CheckEntry | ReadingEntry,
    number: int,
    readings: tuple[float, ...],
    needs: int,
    *,
    closed: bool,
) -> CheckMade:
    return CheckMade(
        number,
        entry["at"],
        entry["offset"],
        entry["terminal"],
        run_of(entry),
        entry["measure"],
        entry.get("of", 1),
        readings,
        _window(entry),
        entry.get("standard"),
        needs,
        closed,
        entry.get("leaf"),
        draw_of(entry),
    )


def _counted(entry: CountEntry | FailEntry | OutputEntry) -> Run:
    if entry["kind"] == "fail":
        return Run(faults=tuple(entry["faults"].items()))
    return _COUNTED[entry["kind"]](entry["n"])


_COUNTED: dict[str, Callable[[int], Run]] = {
    "made": lambda n: Run(made=n),
    "good": lambda n: Run(good=n),
    "rework": lambda n: Run(rework=n),
    "second": lambda n: Run(second=n),
    "hold": lambda n: Run(held=n),
    "release": lambda n: Run(held=-n),
    "workers": lambda n: Run(workers=n),
    "panel": lambda n: Run(panel=n),
}
