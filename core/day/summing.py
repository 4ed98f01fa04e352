"""A closed day summed up from what was added up of it, and a day opened again."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from operator import itemgetter
from typing import TYPE_CHECKING, NamedTuple

from core.day.bench import Run, RunKey
from core.day.checked import Checked
from core.day.lots import LotState, lots
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
from core.house.numbering import bench_json

if TYPE_CHECKING:
    from core.day.entries import DayEndEntry, Entry
    from core.day.leaf import Filler
    from core.day.ledger import Ledger
    from core.day.report import LeafDay
    from core.day.tally import Added
    from core.house.model import HouseBook

_GRAMS, _DEVIATION, _SQUARES = 2, 4, 6  # decimals kept


class _RunRow(NamedTuple):
    bench: str
    run_of: RunKey
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
    rows = list(_rows(day))
    runs = _runs(rows, day.house)
    summed: DaySummary = {
        "summary": SUMMARY,
        "date": day.date,
        "closed": True,
        # A day closed by a clock that was behind is closed as of its newest entry.
        "at": max(map(itemgetter("at"), ledger.entries.values())),
        "lines": book.lines,
        "end": book.end,
        "corrected": ledger.reopened,
        "version": version,
        "entries": len(ledger.entries),
        "voided": len(ledger.undone),
        "totals": _totals(rows, runs),
        "faults": _faults(day),
        "leaf_yield": None if day.leaf.leaf_yield is None else round(day.leaf.leaf_yield, 6),
        "runs": as_text(runs),
        "leaf": _leaves(day.leaf.rows),
        "bench_leaf": as_text(_bench_leaf(day)),
    }
    stock = lots(ledger, dt.date.fromisoformat(day.date))
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
        "corrected": ledger.reopened + 1,
        "reason": reason,
    }


def last_close(ledger: Ledger) -> DayEndEntry:
    """The entry that closed the day last; the day has been closed."""
    backwards: Iterable[Entry] = reversed(ledger.entries.values())
    return next(entry for entry in backwards if entry["kind"] == "close")


def _rows(day: Added) -> Iterable[_RunRow]:
    from core.day.leaf import Filler  # noqa: PLC0415 - the floor closes no day to be on screen

    no_run, no_checks, no_filler = Run(), Checked(), Filler(0.0, 0.0, 0.0)
    for bench, tally in day.tallies.items():
        runs, checked, filler = tally.runs, tally.checked, day.leaf.filler[bench]
        for key in dict.fromkeys((*runs, *checked, *filler)):
            yield _RunRow(
                bench,
                key,
                runs.get(key, no_run),
                checked.get(key, no_checks),
                filler.get(key, no_filler),
            )


def _totals(rows: Sequence[_RunRow], runs: Runs) -> Totals:
    return {
        "made": sum(runs["made"]),
        "good": sum(runs["good"]),
        "rework": sum(runs["rework"]),
        "rejected": sum(runs["rejected"]),
        "second": sum(runs["second"]),
        "workers": sum(runs["workers"]),
        "panel": sum(runs["panel"]),
        "checks": sum(runs["checks"]),
        "out": sum(runs["out"]),
        "n_dev": sum(runs["n_dev"]),
        "sum_dev_g": round(sum([row.checked.sum_dev_g for row in rows]), _DEVIATION),
        "sum_sq_dev_g2": round(sum([row.checked.sum_sq_dev_g2 for row in rows]), _SQUARES),
    }


def _faults(day: Added) -> dict[str, int]:
    """What failed over all benches, by fault, in the order first met."""
    from core.day.output import together  # noqa: PLC0415 - as in `_rows`

    return dict(together(one for made in day.made.values() for one in made.values()).run.faults)


def _runs(rows: Sequence[_RunRow], house: HouseBook) -> Runs:
    book = house.bench
    return {
        "bench": [bench_json(row.bench) for row in rows],
        "buncher": [(book[row.bench].buncher or "") if row.bench in book else "" for row in rows],
        "blend": [row.run_of.blend for row in rows],
        "vitola": [row.run_of.vitola for row in rows],
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
    moved = {bench: tally.moved for bench, tally in day.tallies.items() if tally.moved}
    leaves = [row.leaf for row in day.leaf.rows]
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
