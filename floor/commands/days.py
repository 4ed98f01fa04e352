"""`days`: the trend over closed days, from their summaries alone."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from core.day.figures import Figures
from core.day.parts import Parts, parts
from core.day.trend import DayFigures, DayLine, Trend, WeekLine, closed_days, trend
from core.desk.figures import fixed, percent
from core.problems import BadInput
from core.say import joined, say, say_as, say_many
from floor.commands import out
from floor.commands.setting import setting
from floor.commands.spans import asked, found, tell_unclosed

WIDE = 80
"""Columns; a reason may be longer than the table is wide."""


def run(args: argparse.Namespace) -> int:
    """Print what was made and where the leaf went, day by day and added up."""
    if args.json + args.csv + (args.html is not None) > 1:
        raise BadInput(say("give one of --json, --csv and --html"))
    first, last = asked(args.first, args.last)
    with setting(args) as place:
        days = found(place, first, last)
    weeks = args.by == "week"
    told = trend(days.kept, days.unclosed)
    if args.json:
        by = parts(closed_days(days.kept), days.months)
        out.json({"from": first.isoformat(), "to": last.isoformat(), **_json(told), **by.json()})
    elif args.html is not None:
        from floor.commands.written import write_new  # noqa: PLC0415 - seldom asked for

        by = parts(closed_days(days.kept), days.months)
        write_new(Path(args.html), _page(told, by, f"{first} – {last}"))
        out.result(
            say(
                "the days from {first} to {last} are in {file}",
                first=first,
                last=last,
                file=args.html,
            )
        )
    elif args.csv:
        from floor.commands.spreadsheet import csv_text  # noqa: PLC0415 - seldom asked for

        out.result(csv_text(_table(told, weeks=weeks)).rstrip("\n"))
    else:
        for line in _week_lines(told) if weeks else _lines(told):
            out.result(line)
    if not told.days:
        out.message(say("no day was recorded from {first} to {last}", first=first, last=last))
    tell_unclosed(days.unclosed)
    return 0


_WHOLE = (*Figures._fields, *DayFigures._fields[1:])


def _json(told: Trend) -> dict[str, object]:
    return {
        "days": [_day(line) for line in told.days],
        "closed": told.closed,
        "totals": None if told.totals is None else told.totals.flat(),
        "weeks": [_week(line) for line in told.weeks],
    }


def _table(told: Trend, *, weeks: bool) -> Iterator[Sequence[object]]:
    """A row a day or a week, the names of the columns first."""
    if weeks:
        yield (*WeekLine._fields[:-1], *_WHOLE)
        yield from (tuple(_week(line).values()) for line in told.weeks)
        return
    yield (*DayLine._fields[:-1], *_WHOLE)
    yield from (tuple(_day(line).values()) for line in told.days)


def _day(line: DayLine) -> dict[str, object]:
    """The day's facts and figures side by side; a day without figures has none of each."""
    facts = line._asdict()
    facts.pop("figures")
    return facts | (dict.fromkeys(_WHOLE) if line.figures is None else line.figures.flat())


def _week(line: WeekLine) -> dict[str, object]:
    facts = line._asdict()
    facts.pop("figures")
    return facts | line.figures.flat()


def _lines(told: Trend) -> Iterator[str]:
    figures = [(line.date, line.figures) for line in told.days if line.figures is not None]
    if told.totals is not None:
        figures.append((_days(told.closed), told.totals))
        counted = [_COUNTED, *(_counted(name, each) for name, each in figures)]
        yield say("What was made, by day")
        head, *rows = out.table(counted, right=frozenset(range(1, len(_COUNTED)))).splitlines()
        yield head
        closed = iter(rows)
        yield from (_words(line) or next(closed) for line in told.days)
        yield from closed
        leaf = [_LEAF, *(_leaf(name, each) for name, each in figures)]
        yield say("Filler leaf at standard moisture, by day")
        yield out.table(leaf, right=frozenset(range(1, len(_LEAF))))
    else:
        yield from (_words(line) for line in told.days)
    corrected = [line for line in told.days if line.corrected and line.figures is not None]
    if corrected:
        named = ", ".join(f"{line.date} ({line.corrected} ×)" for line in corrected)
        yield say("corrected after it was closed: {days}", days=named)


def _page(told: Trend, by: Parts, span: str) -> str:
    """The trend as a page: weeks, days, vitolas, benches, bunchers."""
    from core.papers.blocks import Block, Column, Para, Table  # noqa: PLC0415
    from core.papers.page import html_page  # noqa: PLC0415

    def table(caption: str, rows: Iterable[tuple[str, Figures]]) -> Block:
        names = ((out.tell(name), unit) for name, unit in _PAGE)
        columns = (Column(""), *(Column(name, unit, right=True) for name, unit in names))
        cells = tuple((out.tell(name), *_on_page(of)) for name, of in rows)
        return Table(out.tell(caption), columns, cells)

    whole = [] if told.totals is None else [(say("all closed days"), told.totals.figures)]
    days = [(_marked(line), line.figures.figures) for line in told.days if line.figures]
    weeks = [(line.week, line.figures.figures) for line in told.weeks]
    unclosed = [line.date for line in told.days if line.figures is None]
    note = say("Filler leaf at standard moisture. * corrected after closing.")
    blocks: list[Block] = [Para(out.tell(note))]
    if unclosed:
        look = say("Not closed, without figures: {days}", days=", ".join(unclosed))
        blocks.append(Para(out.tell(look), "look"))
    blocks += [
        table(say("By week"), [*weeks, *whole]),
        table(say("By day"), days),
        table(say("By vitola"), by.by_vitola.items()),
        table(say("By bench"), by.by_bench.items()),
        table(say("By buncher"), by.by_buncher.items()),
    ]
    return html_page(out.tell(say("Trend {span}", span=span)), blocks, out.language())


_PAGE = (
    *((say("made"), ""), (say("good"), ""), (say("rejected"), ""), (say("first pass"), "%")),
    *((say_as("column", "used"), "kg"), (say("per 1,000 good"), "kg"), (say("leaf yield"), "%")),
    (say("unexplained"), "g"),
)


def _on_page(of: Figures) -> tuple[str, ...]:
    """The cells under those names; empty where it cannot be told."""
    per_1000, loose_g = of.filler_kg_per_1000_good, of.unexplained_g
    return (
        *map(str, (of.made, of.good, of.rejected)),
        "" if of.first_pass_yield is None else fixed(100 * of.first_pass_yield, 1),
        fixed(of.filler_used_kg, 2),
        "" if per_1000 is None else fixed(per_1000, 3),
        "" if of.leaf_yield is None else fixed(100 * of.leaf_yield, 1),
        "" if loose_g is None else fixed(loose_g, 0),
    )


def _marked(line: DayLine) -> str:
    return f"{line.date} *" if line.corrected else line.date


def _week_lines(told: Trend) -> Iterator[str]:
    """The same two tables with a row a week; days that are not closed are in none of them."""
    rows = [(line.week, line.figures) for line in told.weeks]
    if told.totals is None:
        return
    rows.append((_days(told.closed), told.totals))
    for title, head, cells in (
        (say("What was made, by week"), _COUNTED, _counted),
        (say("Filler leaf at standard moisture, by week"), _LEAF, _leaf),
    ):
        yield title
        table = [(say("week"), *head[1:]), *(cells(name, each) for name, each in rows)]
        yield out.table(table, right=frozenset(range(1, len(head))))


def _days(n: int) -> str:
    return say_many(n, "1 day", "{n} days")


def _words(line: DayLine) -> str:
    """What to say of a day without figures."""
    if line.figures is not None:
        return ""
    if line.open_since is None:
        return joined("  ", (line.date, _STATES[line.state]))
    since = dt.datetime.fromisoformat(line.open_since).astimezone()
    says = say(
        "{date}  open again since {since}: {reason}",
        date=line.date,
        since=f"{since:%Y-%m-%d %H:%M}",
        reason=line.reason,
    )
    told = out.tell(says)
    return told if len(told) <= WIDE else f"{told[: WIDE - 1]}…"


_STATES = {
    "closed": say_as("day", "closed"),
    "open again": say_as("day", "open again"),
    "not closed": say_as("day", "not closed"),
}
_COUNTED = (
    *(say("date"), say("made"), say("good"), say_as("column", "rejected")),
    *(
        say_as("column", "rework"),
        say("first pass"),
        say_as("column", "checks"),
        say("out"),
        say("off g"),
    ),
)
_LEAF = (
    *(say("date"), say("used kg"), say("kg/1000 good"), say_as("column", "leaf yield")),
    *(say("unexplained g"), say("leaves beyond")),
)


def _counted(name: str, day: DayFigures) -> tuple[str, ...]:
    of = day.figures
    off_g = of.mean_deviation_g
    return (
        name,
        *map(str, (of.made, of.good, of.rejected, of.rework)),
        _share(of.first_pass_yield),
        str(day.checks),
        str(day.out),
        "" if off_g is None else f"{off_g:+.3f}",
    )


def _leaf(name: str, day: DayFigures) -> tuple[str, ...]:
    of = day.figures
    return (
        name,
        fixed(of.filler_used_kg, 2),
        "" if of.filler_kg_per_1000_good is None else fixed(of.filler_kg_per_1000_good, 3),
        _share(of.leaf_yield),
        "" if of.unexplained_g is None else fixed(of.unexplained_g, 0),
        str(day.leaves_beyond),
    )


def _share(share: float | None) -> str:
    return "" if share is None else percent(share)
