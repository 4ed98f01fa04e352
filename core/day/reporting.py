"""What a day adds up to as its report."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, cast

from core.day.bench import BenchTally
from core.day.checked import together as checked_together
from core.day.entries import NoteEntry
from core.day.late import is_late, since_close
from core.day.leaf import Split
from core.day.leafparts import parts
from core.day.ledger import Ledger
from core.day.output import Made, by_buncher, by_vitola, figures, together
from core.day.report import BenchDay, DayReport, NoteLine, RunDay, Totals
from core.day.standouts import standouts
from core.day.weights import At
from core.house.model import HouseBook
from core.house.numbering import bench_json
from core.problems import damage_told
from core.say import joined, say

if TYPE_CHECKING:
    from core.day.tally import Added


def report(day: Added) -> DayReport:
    """The day's report."""
    ledger, leaf, closed = day.ledger, day.leaf, day.closed
    whole = {number: together(made.values()) for number, made in day.made.items()}
    benches = tuple([_bench(number, one, day) for number, one in whole.items()])
    totals = _totals(day, benches)
    return DayReport(
        date=day.date,
        closed=closed,
        benches=benches,
        totals=totals,
        leaf=leaf.rows,
        leaf_yield=leaf.leaf_yield,
        notes=_notes(ledger),
        entries=len(ledger.entries),
        voided=len(ledger.undone),
        damaged_lines=day.damaged_lines,
        warnings=(
            *_damage(day.damaged_lines),
            *_lost_versions(ledger),
            *_unweighed(leaf.borrowed, leaf.unknown),
            *_leaf_to_look_at(leaf, closed=closed),
        ),
        by_vitola=by_vitola(day.made.values()),
        by_buncher=by_buncher(
            (bench.buncher, one)
            for bench, one in zip(benches, whole.values(), strict=True)
            if bench.runs
        ),
        split=tuple(parts(leaf.groups, leaf.classes, leaf.room, leaf.means)),
        reopened=ledger.reopened,
        late=sum(is_late(entry, ledger) for entry in since_close(ledger)),
        standouts=standouts(benches, totals, leaf, day.house, closed=closed),
    )


def _bench(number: str, whole: Made, day: Added) -> BenchDay:
    tally, ledger = day.tallies[number], day.ledger
    house = ledger.houses[day.version]
    book = house.bench.get(number)
    checked = checked_together(tally.checked.values())
    return BenchDay(
        bench=bench_json(number),
        buncher=book.buncher if book else None,
        vitola=ledger.seat(number, day.version).vitola if book else _last_vitola(tally, house),
        rejected=dict(whole.run.faults),
        checks=checked.checks,
        out=checked.out,
        mean_deviation_g=checked.sum_dev_g / checked.n_dev if checked.n_dev else None,
        runs=tuple(
            [
                RunDay(blend=blend, vitola=vitola, rejected=dict(one.run.faults), **figures(one))
                for (blend, vitola), one in day.made[number].items()
            ]
        ),
        **figures(whole, held=ledger.held(number)),
    )


def _last_vitola(tally: BenchTally, house: HouseBook) -> str:
    """What a bench that the house book no longer names last rolled."""
    keys = (*tally.runs, *(check.run for check in tally.checks))
    return keys[-1].vitola if keys else next(iter(house.vitola), "")


def _totals(day: Added, benches: Sequence[BenchDay]) -> Totals:
    whole = together(one for made in day.made.values() for one in made.values())
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
        say(
            "{leaf}: {returned_g:.0f} g returned but only {issued_g:.0f} g issued; enter what the "
            "benches started the day with as take",
            leaf=row.leaf,
            returned_g=row.returned_g,
            issued_g=row.issued_g,
        )
        for row in rows
        if row.used_standard_g < 0
    ]
    never = [
        row.leaf
        for row in rows
        if not row.issued_g and row.in_good_g + row.in_seconds_g + row.rejects_g > 0
    ]
    if never:
        says.append(
            say(
                "rolled but never issued today: {never}; enter it with take",
                never=joined(", ", never),
            )
        )
    if leaf.of_none_g:
        says.append(
            say(
                "sweepings of {of_none_g:.0f} g are of no leaf: none was used today; enter what "
                "the benches took with take",
                of_none_g=leaf.of_none_g,
            )
        )
    if not closed and any(row.issued_g for row in rows):
        says.append(say("the day is open: what is unexplained is mostly still on the benches"))
    return tuple(says)


def _lost_versions(ledger: Ledger) -> tuple[str, ...]:
    """House-book versions that entries were judged by and damage has taken."""
    lost = joined(", ", map(str, sorted(ledger.versions - set(ledger.houses))))
    if not lost:
        return ()
    return (
        say(
            "house book version {lost} is damaged: its entries are counted by another one",
            lost=lost,
        ),
    )


def _unweighed(borrowed: Sequence[At], unknown: Sequence[At]) -> tuple[str, ...]:
    says: list[str] = []
    if borrowed:
        benches = joined(", ", dict.fromkeys(bench for bench, _ in borrowed))
        says.append(
            say(
                "benches without a weight check use their vitola's mean today: {benches}",
                benches=benches,
            )
        )
    if unknown:
        vitolas = joined(", ", dict.fromkeys(run.vitola for _, run in unknown))
        says.append(
            say(
                "no weight check today of {vitolas}: heavy or light bunches cannot be told",
                vitolas=vitolas,
            )
        )
    return tuple(says)
