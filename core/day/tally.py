"""The day's report from its ledger."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from functools import reduce
from statistics import fmean

from core.checks import outside
from core.day.bench import BenchTally, Run, RunKey
from core.day.entries import NoteEntry
from core.day.leaf import Books, split
from core.day.ledger import Ledger
from core.day.report import BenchDay, DayReport, LeafDay, NoteLine, RunDay, Totals
from core.day.weights import At
from core.house.model import HouseBook, bench_json, bench_order


def report(
    ledger: Ledger,
    *,
    house: HouseBook,
    date: dt.date,
    version: int,
    packed: Callable[[RunKey], float],
    closed: bool | None = None,
    damaged_lines: int = 0,
) -> DayReport:
    """Add the day up under a house-book version, `house`.

    `packed` gives filler per bunch (standard grams) of what was rolled. `closed` asks for
    the report of a day that is, or is not, closed yet.
    """
    closed = ledger.closed if closed is None else closed
    numbers = sorted({*house.bench, *ledger.benches()}, key=bench_order)
    tallies = {number: ledger.bench(number) for number in numbers}
    leaf = split(tallies, Books(ledger.houses, house, closed, packed))
    benches = tuple(_bench(number, tallies[number], ledger, version) for number in numbers)
    return DayReport(
        date=date.isoformat(),
        closed=closed,
        benches=benches,
        totals=_totals(benches),
        leaf=leaf.rows,
        leaf_yield=leaf.leaf_yield,
        notes=_notes(ledger),
        entries=len(ledger.entries),
        voided=len(ledger.undone),
        damaged_lines=damaged_lines,
        warnings=(
            *_damage(damaged_lines),
            *_lost_versions(ledger),
            *_unweighed(leaf.borrowed, leaf.unknown),
            *_leaf_to_look_at(leaf.rows, closed=closed),
        ),
    )


def first_pass_yield(good: int, rejected: int, rework: int) -> float | None:
    """Passed first time ÷ inspected; pieces reworked are counted in `good`. None without any."""
    first = max(0, good - rework)
    inspected = first + rejected
    return first / inspected if inspected else None


def _bench(number: str, tally: BenchTally, ledger: Ledger, version: int) -> BenchDay:
    house = ledger.houses[version]
    book = house.bench.get(number)
    whole = reduce(Run.plus, tally.runs.values(), Run())
    weighed = [c for c in tally.checks if c.measure in ("filler", "bunch")]
    deviations = [c.deviation for c in weighed if c.deviation is not None]
    return BenchDay(
        bench=bench_json(number),
        buncher=book.buncher if book else None,
        vitola=ledger.seat(number, version).vitola if book else _last_vitola(tally, house),
        made=whole.made,
        good=whole.good,
        rejected=dict(whole.faults),
        rework=whole.rework,
        checks=len(tally.checks),
        out=sum(c.window is not None and outside(c.readings, c.window) for c in tally.checks),
        mean_deviation_g=fmean(deviations) if deviations else None,
        runs=_runs(tally.runs),
    )


def _runs(runs: Mapping[RunKey, Run]) -> tuple[RunDay, ...]:
    """The bench's counts by blend and vitola, whatever house-book version was in force."""
    found: dict[tuple[str, str], Run] = {}
    for key, run in runs.items():
        at = (key.blend, key.vitola)
        found[at] = found.get(at, Run()).plus(run)
    return tuple(
        RunDay(
            blend=blend,
            vitola=vitola,
            made=run.made,
            good=run.good,
            rejected=dict(run.faults),
            rework=run.rework,
        )
        for (blend, vitola), run in found.items()
    )


def _last_vitola(tally: BenchTally, house: HouseBook) -> str:
    """What a bench that the house book no longer names last rolled."""
    keys = (*tally.runs, *(check.run for check in tally.checks))
    return keys[-1].vitola if keys else next(iter(house.vitola), "")


def _totals(benches: Sequence[BenchDay]) -> Totals:
    good = sum(bench.good for bench in benches)
    rejected = sum(sum(bench.rejected.values()) for bench in benches)
    rework = sum(bench.rework for bench in benches)
    return Totals(
        made=sum(bench.made for bench in benches),
        good=good,
        rejected=rejected,
        rework=rework,
        first_pass_yield=first_pass_yield(good, rejected, rework),
    )


def _notes(ledger: Ledger) -> tuple[NoteLine, ...]:
    notes: list[NoteEntry] = [
        entry
        for number, entry in ledger.entries.items()
        if entry["kind"] == "note" and ledger.live(number)
    ]
    return tuple(
        NoteLine(bench=bench_json(note["bench"]) if "bench" in note else None, text=note["text"])
        for note in notes
    )


def _damage(lines: int) -> tuple[str, ...]:
    if not lines:
        return ()
    return (f"{lines} damaged lines in the day's records; see: bunchbook verify",)


def _leaf_to_look_at(rows: Sequence[LeafDay], *, closed: bool) -> tuple[str, ...]:
    says = [
        f"{row.leaf}: {row.returned_g:.0f} g returned but only {row.issued_g:.0f} g issued; "
        "enter what the benches started the day with as take"
        for row in rows
        if row.used_standard_g < 0
    ]
    never = [row.leaf for row in rows if not row.issued_g and row.in_good_g + row.rejects_g > 0]
    if never:
        says.append(f"rolled but never issued today: {', '.join(never)}; enter it with take")
    if not closed and any(row.issued_g for row in rows):
        says.append("the day is open: what is unexplained is mostly still on the benches")
    return tuple(says)


def _lost_versions(ledger: Ledger) -> tuple[str, ...]:
    """House-book versions that entries were judged by and damage has taken."""
    named = {entry["house"] for entry in ledger.entries.values()}
    lost = ", ".join(str(version) for version in sorted(named - set(ledger.houses)))
    if not lost:
        return ()
    return (f"house book version {lost} is damaged: its entries are counted by another one",)


def _unweighed(borrowed: Sequence[At], unknown: Sequence[At]) -> tuple[str, ...]:
    says: list[str] = []
    if borrowed:
        benches = ", ".join(dict.fromkeys(bench for bench, _ in borrowed))
        says.append(f"benches without a weight check use their vitola's mean today: {benches}")
    if unknown:
        vitolas = ", ".join(dict.fromkeys(run.vitola for _, run in unknown))
        says.append(f"no weight check today of {vitolas}: heavy or light bunches cannot be told")
    return tuple(says)
