"""What one bench's entries of the day add up to."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from core.checks import Window
from core.day.entries import (
    BenchEntry,
    CheckEntry,
    DoneEntry,
    LeafEntry,
    Measure,
    ReadingEntry,
    ScrapEntry,
)


class RunKey(NamedTuple):
    """What was rolled: grams per bunch follow from these three."""

    house: int
    blend: str
    vitola: str


class CheckMade(NamedTuple):
    """A check as it was judged. `standard` turns filler grams of then into standard grams."""

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

    @property
    def deviation(self) -> float | None:
        """Mean less target, in the measure's unit."""
        if self.window is None:
            return None
        return sum(self.readings) / len(self.readings) - self.window.target


class Run(NamedTuple):
    """The counts of one thing rolled at one bench."""

    made: int = 0
    good: int = 0
    rework: int = 0
    faults: tuple[tuple[str, int], ...] = ()

    @property
    def rejected(self) -> int:
        return sum(n for _, n in self.faults)

    @property
    def lost(self) -> int:
        """Rejected and not recovered."""
        return max(0, self.rejected - self.rework)


class BenchFold(NamedTuple):
    """A bench's day: checks in order, counts by what was rolled, leaf and cuttings."""

    checks: tuple[CheckMade, ...]
    runs: dict[RunKey, Run]
    leaf: tuple[LeafEntry, ...]
    scrap: tuple[ScrapEntry, ...]
    rolled: int

    @property
    def since_roll(self) -> tuple[CheckMade, ...]:
        """Checks made after the last change of vitola."""
        return tuple(check for check in self.checks if check.id > self.rolled)


def run_of(entry: BenchEntry) -> RunKey:
    """What was rolled at the bench when the entry was made."""
    return RunKey(entry["house"], entry["blend"], entry["vitola"])


def fold(entries: Iterable[BenchEntry]) -> BenchFold:
    """Add up one bench's live entries, given in the journal's order."""
    checks: dict[int, CheckMade] = {}
    runs: dict[RunKey, Run] = {}
    leaf: list[LeafEntry] = []
    scrap: list[ScrapEntry] = []
    rolled = 0
    for entry in entries:
        if entry["kind"] == "check":
            checks[entry["id"]] = _whole(entry)
        elif entry["kind"] == "reading":
            checks[entry["check"]] = _joined(checks.get(entry["check"]), entry)
        elif entry["kind"] == "done":
            _end(checks, entry)
        elif entry["kind"] == "take" or entry["kind"] == "back":
            leaf.append(entry)
        elif entry["kind"] == "scrap":
            scrap.append(entry)
        elif entry["kind"] == "roll":
            rolled = entry["id"]
        else:
            runs[run_of(entry)] = _counted(runs.get(run_of(entry), Run()), entry)
    return BenchFold(tuple(checks.values()), runs, tuple(leaf), tuple(scrap), rolled)


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
    )


def _end(checks: dict[int, CheckMade], entry: DoneEntry) -> None:
    if entry["check"] in checks:
        checks[entry["check"]] = checks[entry["check"]]._replace(closed=True)


def _counted(run: Run, entry: BenchEntry) -> Run:
    if entry["kind"] == "fail":
        faults = dict(run.faults)
        for fault, n in entry["faults"].items():
            faults[fault] = faults.get(fault, 0) + n
        return run._replace(faults=tuple(faults.items()))
    if entry["kind"] == "made":
        return run._replace(made=run.made + entry["n"])
    if entry["kind"] == "good":
        return run._replace(good=run.good + entry["n"])
    if entry["kind"] == "rework":
        return run._replace(rework=run.rework + entry["n"])
    return run
