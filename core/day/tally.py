"""A day added up from its ledger."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple, cast

from core.day.bench import BenchTally, RunKey
from core.day.books import Books
from core.day.entries import NoteEntry
from core.day.late import is_late, since_close
from core.day.leaf import Split, split
from core.day.ledger import Ledger
from core.day.output import Kind, Made, by_buncher, by_vitola, figures, made_at, together
from core.day.report import BenchDay, DayReport, NoteLine, RunDay, Totals
from core.day.standouts import standouts
from core.day.weights import At
from core.house.model import HouseBook
from core.house.numbering import bench_json, bench_order
from core.problems import damage_told


class Added(NamedTuple):
    """A day's report, and what it was added up from: every bench's tally, and the leaf."""

    report: DayReport
    tallies: Mapping[str, BenchTally]
    leaf: Split


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
    closed = ledger.closed if closed is None else closed
    numbers = sorted({*house.bench, *ledger.benches()}, key=bench_order)
    tallies = {number: ledger.bench(number) for number in numbers}
    standards = {v: ledger.houses[v].house.standard_moisture for v in ledger.versions}
    books = Books(ledger.houses, standards, house, closed, packed)
    leaf = split(tallies, ledger.sweepings(), books)
    made = {number: made_at(number, tallies[number], leaf) for number in numbers}
    benches = tuple(_bench(n, tallies[n], made[n], ledger, version) for n in numbers)
    totals = _totals((one for of_bench in made.values() for one in of_bench.values()), benches)
    report = DayReport(
        date=date.isoformat(),
        closed=closed,
        benches=benches,
        totals=totals,
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
            *_leaf_to_look_at(leaf, closed=closed),
        ),
        by_vitola=by_vitola(made.values()),
        by_buncher=by_buncher(
            (bench.buncher, made[n]) for n, bench in zip(numbers, benches, strict=True)
        ),
        split=leaf.parts,
        reopened=ledger.reopened,
        late=sum(is_late(entry, ledger) for entry in since_close(ledger)),
        standouts=standouts(benches, totals, leaf, house, closed=closed),
    )
    return Added(report, tallies, leaf)


def _bench(
    number: str, tally: BenchTally, made: Mapping[Kind, Made], ledger: Ledger, version: int
) -> BenchDay:
    house = ledger.houses[version]
    book = house.bench.get(number)
    whole = together(made.values())
    checked = tally.checked.values()
    n_dev = sum(run.n_dev for run in checked)
    return BenchDay(
        bench=bench_json(number),
        buncher=book.buncher if book else None,
        vitola=ledger.seat(number, version).vitola if book else _last_vitola(tally, house),
        rejected=dict(whole.run.faults),
        checks=sum(run.checks for run in checked),
        out=sum(run.out for run in checked),
        mean_deviation_g=sum(run.sum_dev_g for run in checked) / n_dev if n_dev else None,
        runs=tuple(
            RunDay(blend=blend, vitola=vitola, rejected=dict(one.run.faults), **figures(one))
            for (blend, vitola), one in made.items()
        ),
        **figures(whole, held=ledger.held(number)),
    )


def _last_vitola(tally: BenchTally, house: HouseBook) -> str:
    """What a bench that the house book no longer names last rolled."""
    keys = (*tally.runs, *(check.run for check in tally.checks))
    return keys[-1].vitola if keys else next(iter(house.vitola), "")


def _totals(made: Iterable[Made], benches: Sequence[BenchDay]) -> Totals:
    whole = together(made)
    held = sum(bench.held for bench in benches)
    return Totals(rejected=whole.run.rejected, **figures(whole, held=held))


def _notes(ledger: Ledger) -> tuple[NoteLine, ...]:
    live = (number for number in ledger.notes if ledger.live(number))
    notes = (cast(NoteEntry, ledger.entries[number]) for number in live)
    return tuple(
        NoteLine(bench=bench_json(note["bench"]) if "bench" in note else None, text=note["text"])
        for note in notes
    )


def _damage(lines: int) -> tuple[str, ...]:
    return (damage_told(lines),) if lines else ()


def _leaf_to_look_at(leaf: Split, *, closed: bool) -> tuple[str, ...]:
    rows = leaf.rows
    says = [
        f"{row.leaf}: {row.returned_g:.0f} g returned but only {row.issued_g:.0f} g issued; "
        "enter what the benches started the day with as take"
        for row in rows
        if row.used_standard_g < 0
    ]
    never = [
        row.leaf
        for row in rows
        if not row.issued_g and row.in_good_g + row.in_seconds_g + row.rejects_g > 0
    ]
    if never:
        says.append(f"rolled but never issued today: {', '.join(never)}; enter it with take")
    if leaf.of_none_g:
        says.append(
            f"sweepings of {leaf.of_none_g:.0f} g are of no leaf: none was used today; "
            "enter what the benches took with take"
        )
    if not closed and any(row.issued_g for row in rows):
        says.append("the day is open: what is unexplained is mostly still on the benches")
    return tuple(says)


def _lost_versions(ledger: Ledger) -> tuple[str, ...]:
    """House-book versions that entries were judged by and damage has taken."""
    lost = ", ".join(str(version) for version in sorted(ledger.versions - set(ledger.houses)))
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
