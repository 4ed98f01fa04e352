"""`day`: what was made, and where the leaf went."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path

from core.day.report import DayReport, LeafDay, day_json
from core.desk.desk import Desk
from core.desk.faces import LogLine
from core.desk.figures import fixed, percent
from core.problems import BadInput
from floor.commands import out
from floor.commands.setting import day, setting, tell_damage
from floor.commands.spreadsheet import csv_file
from floor.commands.written import write_folder, write_new


def run(args: argparse.Namespace) -> int:
    """Print a day's report, today's without a date, or write it as a page or as tables."""
    if sum(map(bool, (args.json, args.html is not None, args.csv is not None))) > 1:
        raise BadInput("give one of --json, --html and --csv")
    with setting(args) as place:
        desk = place.desk(date=None if args.date is None else day(args.date), question=True)
        tell_damage(desk.damaged)
        report = desk.report()
        if args.html is not None:
            write_new(Path(args.html), page(desk))
            out.result(f"the day {report.date} is in {args.html}")
        elif args.csv is not None:
            _tables(desk, report, Path(args.csv))
        elif args.json:
            out.json(day_json(report))
        else:
            for line in _lines(report):
                out.result(line)
    return 0


def page(desk: Desk) -> str:
    """The day's page in the house's language, with the charts of benches that stand out."""
    from core.day.lots import lots  # noqa: PLC0415
    from core.day.pay import pay_of_day  # noqa: PLC0415
    from core.papers.day_page import DayPaper, day_html  # noqa: PLC0415
    from core.papers.day_standouts import to_chart  # noqa: PLC0415

    report, house = desk.report(), desk.loaded
    charts = {n: desk.chart(n) for n in to_chart(report) if n in house.bench}
    paper = DayPaper(
        report=report,
        charts={number: chart for number, chart in charts.items() if chart.points},
        late=_late(desk),
        lots=[lot for of in lots(desk.ledger, desk.day).values() for lot in of if lot.moved],
        pay=pay_of_day(report, house),
        currency=house.house.currency or "",
    )
    return day_html(paper, house.house.language)


def _late(desk: Desk) -> list[LogLine]:
    """What was recorded after the day was first closed, in its order."""
    kinds = [entry["kind"] for entry in desk.ledger.entries.values()]
    if "close" not in kinds:
        return []
    # The words of a whole day's entries take longer than its page.
    return list(reversed(desk.log(len(kinds) - kinds.index("close") - 1)))


def _tables(desk: Desk, report: DayReport, folder: Path) -> None:
    from core.day.lots import lots  # noqa: PLC0415
    from core.papers.folder import csv_tables  # noqa: PLC0415

    tallies = {str(b.bench): desk.ledger.bench(str(b.bench)) for b in report.benches}
    kept = [lot for of in lots(desk.ledger, desk.day).values() for lot in of]
    sheets = csv_tables(report, tallies, kept)
    write_folder(folder, {f"{s.name}.csv": csv_file(s.head, s.rows) for s in sheets})
    out.result(f"the day {report.date} is in {folder}: {len(sheets)} tables")


def _lines(report: DayReport) -> Iterator[str]:
    totals = report.totals
    state = "closed" if report.closed else "open"
    yield f"{report.date}, {state}, {report.entries} entries, {report.voided} void"
    yield (
        f"made {totals.made}, good {totals.good}, rejected {totals.rejected}, "
        f"reworked {totals.rework}, first-pass yield {_share(totals.first_pass_yield)}"
    )
    yield (
        f"seconds {totals.second}, on hold {totals.held}, for workers {totals.workers}, "
        f"for the panel {totals.panel}"
    )
    faults = report.faults()
    if faults:
        by_count = sorted(faults.items(), key=lambda item: -item[1])
        yield "faults: " + ", ".join(f"{n} {fault}" for fault, n in by_count)
    busy = [b for b in report.benches if b.made or b.good or b.rejected or b.checks]
    if busy:
        rows = [("bench", "pair", "vitola", "made", "good", "rejected", "checks", "out", "off g")]
        rows += (
            (
                str(b.bench),
                b.buncher or "",
                b.vitola,
                str(b.made),
                str(b.good),
                str(sum(b.rejected.values())),
                str(b.checks),
                str(b.out),
                "" if b.mean_deviation_g is None else f"{b.mean_deviation_g:+.2f}",
            )
            for b in busy
        )
        yield out.table(rows, right=frozenset(range(3, 9)))
    if report.leaf:
        yield "leaf, grams at standard moisture (issued and returned as weighed)"
        leaves = [_HEAD, *(_leaf(row) for row in report.leaf)]
        yield out.table(leaves, right=frozenset(range(1, 10)))
        others = {name: sum(getattr(r, key) for r in report.leaf) for key, name in _ALSO.items()}
        if any(others.values()):
            yield "also: " + ", ".join(f"{fixed(g, 0)} g {name}" for name, g in others.items() if g)
    used, standard = totals.filler_kg_per_1000_good, totals.standard_kg_per_1000
    if report.closed and used is not None and standard is not None:
        yield f"filler for 1,000 good cigars {fixed(used, 2)} kg, standard {fixed(standard, 2)} kg"
    yield f"leaf yield {_share(report.leaf_yield)}"
    for note in report.notes:
        yield f"note{'' if note.bench is None else f', bench {note.bench}'}: {note.text}"
    for warning in report.warnings:
        yield f"look: {warning}"


_HEAD: tuple[str, ...] = (
    "leaf", "issued", "returned", "used", "in good", "rejects", "heavy", "±2 se", "cuttings",
    "unexplained",
)  # fmt: skip


_ALSO = {"in_seconds_g": "in seconds", "stem_g": "stem", "sweepings_g": "sweepings"}
"""Where little of the leaf goes; --html and --csv have it by leaf and bench."""


def _leaf(row: LeafDay) -> tuple[str, ...]:
    grams = (row.issued_g, row.returned_g, row.used_standard_g, row.in_good_g, row.rejects_g)
    error = "" if row.heavy_se_g is None else fixed(2 * row.heavy_se_g, 0)
    beyond = " beyond" if row.beyond else ""
    return (
        row.leaf,
        *(fixed(g, 0) for g in grams),
        fixed(row.heavy_g, 0),
        error,
        fixed(row.cuttings_g, 0),
        fixed(row.unexplained_g, 0) + beyond,
    )


def _share(share: float | None) -> str:
    return "not known yet" if share is None else percent(share)
