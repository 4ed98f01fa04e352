"""A day as tidy tables: one thing a row, units in the names of the columns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from core.day.bench import BenchTally
from core.day.calendar import local
from core.day.report import DayReport, LeafDay, LeafPart
from core.day.yields import first_pass_yield

Row = Sequence[object]


class Sheet(NamedTuple):
    """One table: its name, the names of its columns, its rows."""

    name: str
    head: tuple[str, ...]
    rows: tuple[Row, ...]


_COUNTS = ("made", "good", "rejected", "rework")


def csv_tables(report: DayReport, tallies: Mapping[str, BenchTally]) -> tuple[Sheet, ...]:
    """The day's tables; shares are fractions, grams as the names say, dates and times ISO."""
    return (
        _totals(report),
        _benches(report),
        _runs(report),
        _faults(report),
        _leaf(report),
        _split(report),
        _checks(tallies),
        _notes(report),
    )


def _totals(report: DayReport) -> Sheet:
    head = ("date", "closed", *_COUNTS, "first_pass_yield", "leaf_yield", "entries", "voided")
    totals = report.totals
    counts = (totals.made, totals.good, totals.rejected, totals.rework)
    shares = (totals.first_pass_yield, report.leaf_yield)
    row = (report.date, report.closed, *counts, *shares, report.entries, report.voided)
    return Sheet("totals", head, (row,))


def _benches(report: DayReport) -> Sheet:
    head = (
        *("date", "bench", "buncher", "vitola", *_COUNTS, "first_pass_yield"),
        *("checks", "checks_out", "mean_deviation_g"),
    )
    rows = []
    for b in report.benches:
        rejected = sum(b.rejected.values())
        counts = (b.made, b.good, rejected, b.rework, first_pass_yield(b.good, rejected, b.rework))
        checked = (b.checks, b.out, b.mean_deviation_g)
        rows.append((report.date, str(b.bench), b.buncher, b.vitola, *counts, *checked))
    return Sheet("benches", head, tuple(rows))


def _runs(report: DayReport) -> Sheet:
    head = ("date", "bench", "buncher", "blend", "vitola", *_COUNTS)
    rows = tuple(
        (
            *(report.date, str(b.bench), b.buncher, run.blend, run.vitola),
            *(run.made, run.good, sum(run.rejected.values()), run.rework),
        )
        for b in report.benches
        for run in b.runs
    )
    return Sheet("runs", head, rows)


def _faults(report: DayReport) -> Sheet:
    rows = tuple(
        (report.date, str(b.bench), run.blend, run.vitola, fault, n)
        for b in report.benches
        for run in b.runs
        for fault, n in run.rejected.items()
    )
    return Sheet("faults", ("date", "bench", "blend", "vitola", "fault", "pieces"), rows)


def _leaf(report: DayReport) -> Sheet:
    """The report's own columns, so that one it gains is here too."""
    names = tuple(LeafDay.model_fields)
    rows = tuple((report.date, *(getattr(leaf, name) for name in names)) for leaf in report.leaf)
    return Sheet("leaf", ("date", *(_united(name) for name in names)), rows)


def _split(report: DayReport) -> Sheet:
    head = ("date", *map(_united, LeafPart._fields))
    return Sheet("leaf_by_bench", head, tuple((report.date, *part) for part in report.split))


def _united(name: str) -> str:
    """Grams at standard moisture say so; what was issued and returned is as weighed."""
    if name in ("issued_g", "returned_g"):
        return name.replace("_g", "_g_as_weighed")
    return (
        f"{name.removesuffix('_g').removesuffix('_standard')}_g_standard"
        if (name.endswith("_g"))
        else name
    )


def _checks(tallies: Mapping[str, BenchTally]) -> Sheet:
    head = (
        *("entry", "at", "bench", "blend", "vitola", "measure", "leaf", "readings"),
        *("mean", "target", "low", "high", "unit"),
    )
    rows = []
    for bench, tally in tallies.items():
        for check in tally.checks:
            window = check.window
            limits = (window.target, window.low, window.high) if window else (None, None, None)
            unit = _UNITS.get(check.measure, "g")
            if check.draw is not None:
                unit = check.draw.unit
            mean = sum(check.readings) / len(check.readings)
            at = local(check.at, check.offset).isoformat()
            run = (check.run.blend, check.run.vitola, check.measure, check.leaf)
            rows.append((check.id, at, bench, *run, len(check.readings), mean, *limits, unit))
    rows.sort(key=lambda row: row[0])
    return Sheet("checks", head, tuple(rows))


_UNITS = {"ring": "ring gauge", "length": "mm", "draw": "mmH2O"}


def _notes(report: DayReport) -> Sheet:
    rows = tuple(
        (report.date, None if note.bench is None else str(note.bench), note.text)
        for note in report.notes
    )
    return Sheet("notes", ("date", "bench", "text"), rows)
