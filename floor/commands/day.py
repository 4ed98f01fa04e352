"""`day`: what was made, and where the leaf went."""

from __future__ import annotations

import argparse
from pathlib import Path

from core.day.report import DayReport, day_json
from core.desk.desk import Desk
from core.problems import BadInput
from core.say import say
from floor.commands import out
from floor.commands.setting import day, setting, tell_damage
from floor.commands.spreadsheet import csv_file
from floor.commands.written import write_folder, write_new


def run(args: argparse.Namespace) -> int:
    """Print a day's report, today's without a date, or write it as a page or as tables."""
    if sum(map(bool, (args.json, args.html is not None, args.csv is not None))) > 1:
        raise BadInput(say("give one of --json, --html and --csv"))
    with setting(args) as place:
        desk = place.desk(date=None if args.date is None else day(args.date), question=True)
        tell_damage(desk.damaged)
        report = desk.report()
        if args.html is not None:
            write_new(Path(args.html), page(desk))
            out.result(say("the day {date} is in {file}", date=report.date, file=args.html))
        elif args.csv is not None:
            _tables(desk, report, Path(args.csv))
        elif args.json:
            out.json(day_json(report))
        else:
            _text(desk, report)
    return 0


def page(desk: Desk) -> str:
    """The day's page in the language spoken, with the charts of benches that stand out."""
    from core.day.lots import lots  # noqa: PLC0415
    from core.day.pay import pay_of_day  # noqa: PLC0415
    from core.papers.day_page import DayPaper, day_html  # noqa: PLC0415
    from core.papers.day_standouts import to_chart  # noqa: PLC0415

    report, house = desk.report(), desk.loaded
    charts = {n: desk.chart(n) for n in to_chart(report) if n in house.bench}
    paper = DayPaper(
        report=report,
        charts={number: chart for number, chart in charts.items() if chart.points},
        late=desk.since_close(),
        lots=[lot for of in lots(desk.ledger, desk.day).values() for lot in of if lot.moved],
        pay=pay_of_day(report, house),
        currency=house.house.currency or "",
    )
    return day_html(paper, out.language())


def _text(desk: Desk, report: DayReport) -> None:
    from floor.commands.day_text import day_lines  # noqa: PLC0415

    for line in day_lines(report, desk.since_close()):
        out.result(line)


def _tables(desk: Desk, report: DayReport, folder: Path) -> None:
    from core.day.lots import lots  # noqa: PLC0415
    from core.papers.folder import csv_tables  # noqa: PLC0415

    tallies = {str(b.bench): desk.ledger.bench(str(b.bench)) for b in report.benches}
    kept = [lot for of in lots(desk.ledger, desk.day).values() for lot in of]
    sheets = csv_tables(report, tallies, kept)
    write_folder(folder, {f"{s.name}.csv": csv_file(s.head, s.rows) for s in sheets})
    out.result(
        say(
            "the day {date} is in {folder}: {n} tables",
            date=report.date,
            folder=folder,
            n=len(sheets),
        )
    )
