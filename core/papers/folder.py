"""A day as tidy tables: one thing a row, units in the names of the columns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from core.day.bench import BenchTally
from core.day.calendar import local
from core.day.lots import LotState
from core.day.report import DayReport, LeafDay, LeafPart, Output

Row = Sequence[object]


class Sheet(NamedTuple):
    """One table: its name, the names of its columns, its rows."""

    name: str
    head: tuple[str, ...]
    rows: tuple[Row, ...]


_COUNTS = ("made", "good", "rejected", "rework", "second", "held", "workers", "panel")
_YIELDS = (
    *("first_pass_yield", "leaf_yield", "filler_used_kg_standard"),
    *("filler_kg_per_1000_good", "standard_kg_per_1000"),
    *("filler_lb_per_1000_good", "standard_lb_per_1000"),
)


def csv_tables(
    report: DayReport, tallies: Mapping[str, BenchTally], lots: Sequence[LotState] = ()
) -> tuple[Sheet, ...]:
    """The day's tables; shares are fractions, grams as the names say, dates and times ISO.

    `lots` are all that the house keeps.
    """
    return (
        _totals(report),
        _benches(report),
        _runs(report),
        _vitolas(report),
        _bunchers(report),
        _faults(report),
        _leaf(report),
        _split(report),
        _lots(report.date, lots),
        _standouts(report),
        _checks(tallies),
        _notes(report),
    )


def _counts(of: Output, rejected: int) -> Row:
    """The figures under the names of `_COUNTS`."""
    return (
        of.made, of.good, rejected, of.rework, of.second, of.held, of.workers, of.panel,
    )  # fmt: skip


def _yields(of: Output) -> Row:
    """The figures under the names of `_YIELDS`."""
    return (
        *(of.first_pass_yield, of.leaf_yield, of.filler_used_kg),
        *(of.filler_kg_per_1000_good, of.standard_kg_per_1000),
        *(of.filler_lb_per_1000_good, of.standard_lb_per_1000),
    )


def _totals(report: DayReport) -> Sheet:
    head = ("date", "closed", *_COUNTS, *_YIELDS, "entries", "voided")
    totals = report.totals
    figures = (*_counts(totals, totals.rejected), *_yields(totals))
    row = (report.date, report.closed, *figures, report.entries, report.voided)
    return Sheet("totals", head, (row,))


def _benches(report: DayReport) -> Sheet:
    head = (
        *("date", "bench", "buncher", "vitola", *_COUNTS, *_YIELDS),
        *("checks", "checks_out", "mean_deviation_g"),
    )
    rows = tuple(
        (
            *(report.date, str(b.bench), b.buncher, b.vitola),
            *(*_counts(b, sum(b.rejected.values())), *_yields(b)),
            *(b.checks, b.out, b.mean_deviation_g),
        )
        for b in report.benches
    )
    return Sheet("benches", head, rows)


def _runs(report: DayReport) -> Sheet:
    head = ("date", "bench", "buncher", "blend", "vitola", *_COUNTS, *_YIELDS)
    rows = tuple(
        (
            *(report.date, str(b.bench), b.buncher, run.blend, run.vitola),
            *(*_counts(run, sum(run.rejected.values())), *_yields(run)),
        )
        for b in report.benches
        for run in b.runs
    )
    return Sheet("runs", head, rows)


def _vitolas(report: DayReport) -> Sheet:
    rows = tuple(
        (report.date, v.vitola, *_counts(v, sum(v.rejected.values())), *_yields(v))
        for v in report.by_vitola
    )
    return Sheet("vitolas", ("date", "vitola", *_COUNTS, *_YIELDS), rows)


def _bunchers(report: DayReport) -> Sheet:
    rows = tuple(
        (report.date, b.buncher, *_counts(b, sum(b.rejected.values())), *_yields(b))
        for b in report.by_buncher
    )
    return Sheet("bunchers", ("date", "buncher", *_COUNTS, *_YIELDS), rows)


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


def _lots(date: str, lots: Sequence[LotState]) -> Sheet:
    """What moved is the day's; what is on hand is as it ended, or stands."""
    grams = ("received_g", "issued_g", "returned_g", "adjusted_g", "on_hand_g")
    head = ("date", "leaf", "lot", "received", "crop", "bales", "price_per_kg")
    rows = tuple(
        (
            *(date, lot.leaf, lot.lot, lot.received.isoformat()),
            *(lot.crop, lot.bales, lot.price_per_kg),
            *(getattr(lot, name) for name in grams),
        )
        for lot in lots
    )
    return Sheet("lots", (*head, *(f"{name}_standard" for name in grams)), rows)


def _standouts(report: DayReport) -> Sheet:
    head = ("date", "bench", "reason", "n", "value", "against", "tells", "vitola")
    rows = tuple(
        (
            *(report.date, str(each.bench), each.reason, each.n),
            *(each.value, each.against, each.tells, each.vitola),
        )
        for each in report.standouts
    )
    return Sheet("standouts", head, rows)


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
