"""A closed day summed up from what was added up of it, and a day opened again."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from core.day.bench import Run
from core.day.checked import Checked
from core.day.entries import DayEndEntry, Entry
from core.day.leaf import Filler
from core.day.ledger import Ledger
from core.day.lots import LotState, lots
from core.day.report import LeafDay
from core.day.summary import (
    SUMMARY,
    BenchLeaf,
    BookEnd,
    DayOpened,
    DaySummary,
    Leaves,
    Lots,
    Runs,
    Totals,
    as_text,
)
from core.day.tally import Added
from core.house.numbering import bench_json

_GRAMS, _DEVIATION, _SQUARES = 2, 4, 6  # decimals kept


class _RunRow(NamedTuple):
    bench: str
    blend: str
    vitola: str
    run: Run
    checked: Checked
    filler: Filler


def summary(
    day: Added,
    ledger: Ledger,
    *,
    version: int,
    book: BookEnd,
) -> DaySummary:
    """Sum up a closed day."""
    report = day.report
    rows = list(_rows(day))
    summed: DaySummary = {
        "summary": SUMMARY,
        "date": report.date,
        "closed": True,
        # A day closed by a clock that was behind is closed as of its newest entry.
        "at": max(entry["at"] for entry in ledger.entries.values()),
        "lines": book.lines,
        "end": book.end,
        "corrected": corrections(ledger),
        "version": version,
        "entries": report.entries,
        "voided": report.voided,
        "totals": _totals(rows),
        "faults": report.faults(),
        "leaf_yield": None if report.leaf_yield is None else round(report.leaf_yield, 6),
        "runs": as_text(_runs(rows, {str(b.bench): b.buncher or "" for b in report.benches})),
        "leaf": _leaves(report.leaf),
        "bench_leaf": as_text(_bench_leaf(day)),
    }
    stock = lots(ledger, dt.date.fromisoformat(report.date))
    if stock:
        summed["lots"] = _lots([lot for of_leaf in stock.values() for lot in of_leaf])
    return summed


def opened(date: str, reason: str, at: str, ledger: Ledger, book: BookEnd) -> DayOpened:
    """Say that a closed day is about to be open again."""
    return {
        "summary": SUMMARY,
        "date": date,
        "closed": False,
        "at": at,
        "lines": book.lines,
        "end": book.end,
        "corrected": corrections(ledger) + 1,
        "reason": reason,
    }


def corrections(ledger: Ledger) -> int:
    """How often the day was opened again."""
    return sum(entry["kind"] == "reopen" for entry in ledger.entries.values())


def last_close(ledger: Ledger) -> DayEndEntry:
    """The entry that closed the day last; the day has been closed."""
    backwards: Iterable[Entry] = reversed(ledger.entries.values())
    return next(entry for entry in backwards if entry["kind"] == "close")


def _rows(day: Added) -> Iterable[_RunRow]:
    for bench, tally in day.tallies.items():
        filler = day.leaf.filler[bench]
        for key in dict.fromkeys((*tally.runs, *tally.checked, *filler)):
            yield _RunRow(
                bench,
                key.blend,
                key.vitola,
                tally.runs.get(key, Run()),
                tally.checked.get(key, Checked()),
                filler.get(key, Filler(0.0, 0.0, 0.0)),
            )


def _totals(rows: Sequence[_RunRow]) -> Totals:
    return {
        "made": sum(row.run.made for row in rows),
        "good": sum(row.run.good for row in rows),
        "rework": sum(row.run.rework for row in rows),
        "rejected": sum(row.run.rejected for row in rows),
        "second": sum(row.run.second for row in rows),
        "workers": sum(row.run.workers for row in rows),
        "panel": sum(row.run.panel for row in rows),
        "checks": sum(row.checked.checks for row in rows),
        "out": sum(row.checked.out for row in rows),
        "n_dev": sum(row.checked.n_dev for row in rows),
        "sum_dev_g": round(sum(row.checked.sum_dev_g for row in rows), _DEVIATION),
        "sum_sq_dev_g2": round(sum(row.checked.sum_sq_dev_g2 for row in rows), _SQUARES),
    }


def _runs(rows: Sequence[_RunRow], bunchers: Mapping[str, str]) -> Runs:
    return {
        "bench": [bench_json(row.bench) for row in rows],
        "buncher": [bunchers[row.bench] for row in rows],
        "blend": [row.blend for row in rows],
        "vitola": [row.vitola for row in rows],
        "made": [row.run.made for row in rows],
        "good": [row.run.good for row in rows],
        "rework": [row.run.rework for row in rows],
        "rejected": [row.run.rejected for row in rows],
        "checks": [row.checked.checks for row in rows],
        "out": [row.checked.out for row in rows],
        "n_dev": [row.checked.n_dev for row in rows],
        "sum_dev_g": [round(row.checked.sum_dev_g, _DEVIATION) for row in rows],
        "sum_sq_dev_g2": [round(row.checked.sum_sq_dev_g2, _SQUARES) for row in rows],
        "filler_g": [round(row.filler.used_g, _GRAMS) for row in rows],
        "second": [row.run.second for row in rows],
        "workers": [row.run.workers for row in rows],
        "panel": [row.run.panel for row in rows],
        "in_good_g": [round(row.filler.in_good_g, _GRAMS) for row in rows],
        "unexplained_g": [round(row.filler.unexplained_g, _GRAMS) for row in rows],
    }


def _leaves(rows: Sequence[LeafDay]) -> Leaves:
    def grams(*values: float) -> list[float]:
        return [round(value, _GRAMS) for value in values]

    return {
        "code": [row.leaf for row in rows],
        "class": [row.leaf_class for row in rows],
        "issued_g": grams(*(row.issued_g for row in rows)),
        "returned_g": grams(*(row.returned_g for row in rows)),
        "used_g": grams(*(row.used_standard_g for row in rows)),
        "in_good_g": grams(*(row.in_good_g for row in rows)),
        "rejects_g": grams(*(row.rejects_g for row in rows)),
        "heavy_g": grams(*(row.heavy_g for row in rows)),
        "heavy_se_g": [
            None if row.heavy_se_g is None else round(row.heavy_se_g, _GRAMS) for row in rows
        ],
        "cuttings_g": grams(*(row.cuttings_g for row in rows)),
        "unexplained_g": grams(*(row.unexplained_g for row in rows)),
        "beyond": [row.beyond for row in rows],
        "in_seconds_g": grams(*(row.in_seconds_g for row in rows)),
        "stem_g": grams(*(row.stem_g for row in rows)),
        "sweepings_g": grams(*(row.sweepings_g for row in rows)),
    }


def _bench_leaf(day: Added) -> BenchLeaf:
    moved = {bench: of_bench for bench, of_bench in day.leaf.moved.items() if of_bench}
    leaves = [row.leaf for row in day.report.leaf]
    return {
        "bench": [bench_json(bench) for bench in moved],
        "leaf": leaves,
        "used_g": [
            [
                round(of_bench[leaf].used_g, _GRAMS) if leaf in of_bench else 0
                for of_bench in moved.values()
            ]
            for leaf in leaves
        ],
    }


def _lots(stock: Sequence[LotState]) -> Lots:
    return {
        "leaf": [each.leaf for each in stock],
        "lot": [each.lot for each in stock],
        "received_g": [round(each.received_g, _GRAMS) for each in stock],
        "issued_g": [round(each.issued_g, _GRAMS) for each in stock],
        "returned_g": [round(each.returned_g, _GRAMS) for each in stock],
        "adjusted_g": [round(each.adjusted_g, _GRAMS) for each in stock],
        "on_hand_g": [round(each.on_hand_g, _GRAMS) for each in stock],
    }
