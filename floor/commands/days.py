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
from floor.commands import out
from floor.commands.setting import setting
from floor.commands.spans import asked, found, tell_unclosed
from floor.commands.spreadsheet import csv_text
from floor.commands.written import write_new

WIDE = 80
"""Columns; a reason may be longer than the table is wide."""


def run(args: argparse.Namespace) -> int:
    """Print what was made and where the leaf went, day by day and added up."""
    if args.json + args.csv + (args.html is not None) > 1:
        raise BadInput("give one of --json, --csv and --html")
    first, last = asked(args.first, args.last)
    with setting(args) as place:
        days = found(place, first, last)
    weeks = args.by == "week"
    told = trend(days.kept, days.unclosed)
    if args.json:
        by = parts(closed_days(days.kept))
        out.json({"from": first.isoformat(), "to": last.isoformat(), **_json(told), **by.json()})
    elif args.html is not None:
        by = parts(closed_days(days.kept))
        write_new(Path(args.html), _page(told, by, f"{first} – {last}"))
        out.result(f"the days from {first} to {last} are in {args.html}")
    elif args.csv:
        out.result(csv_text(_table(told, weeks=weeks)).rstrip("\n"))
    else:
        for line in _week_lines(told) if weeks else _lines(told):
            out.result(line)
    if not told.days:
        out.message(f"no day was recorded from {first} to {last}")
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
        named = f"{told.closed} days" if told.closed > 1 else "1 day"
        figures.append((named, told.totals))
        counted = [_COUNTED, *(_counted(name, each) for name, each in figures)]
        head, *rows = out.table(counted, right=frozenset(range(1, len(_COUNTED)))).splitlines()
        yield head
        closed = iter(rows)
        yield from (_words(line) or next(closed) for line in told.days)
        yield from closed
        leaf = [_LEAF, *(_leaf(name, each) for name, each in figures)]
        yield "filler leaf at standard moisture"
        yield out.table(leaf, right=frozenset(range(1, len(_LEAF))))
    else:
        yield from (_words(line) for line in told.days)
    corrected = [line for line in told.days if line.corrected and line.figures is not None]
    if corrected:
        named = ", ".join(f"{line.date} ({line.corrected} ×)" for line in corrected)
        yield f"corrected after it was closed: {named}"


def _page(told: Trend, by: Parts, span: str) -> str:
    """The trend as a page: weeks, days, vitolas, benches, bunchers."""
    from core.papers.blocks import Block, Column, Para, Table  # noqa: PLC0415
    from core.papers.page import html_page  # noqa: PLC0415

    def table(caption: str, rows: Iterable[tuple[str, Figures]]) -> Block:
        columns = (Column(""), *(Column(name, unit, right=True) for name, unit in _PAGE))
        return Table(caption, columns, tuple((name, *_on_page(of)) for name, of in rows))

    whole = [] if told.totals is None else [("all closed days", told.totals.figures)]
    days = [(_marked(line), line.figures.figures) for line in told.days if line.figures]
    weeks = [(line.week, line.figures.figures) for line in told.weeks]
    unclosed = [line.date for line in told.days if line.figures is None]
    blocks: list[Block] = [Para("Filler leaf at standard moisture. * corrected after closing.")]
    if unclosed:
        blocks.append(Para(f"Not closed, without figures: {', '.join(unclosed)}", "look"))
    blocks += [
        table("By week", [*weeks, *whole]),
        table("By day", days),
        table("By vitola", by.by_vitola.items()),
        table("By bench", by.by_bench.items()),
        table("By buncher", by.by_buncher.items()),
    ]
    return html_page(f"Trend {span}", blocks, "en")


_PAGE = (
    ("made", ""), ("good", ""), ("rejected", ""), ("first pass", "%"), ("used", "kg"),
    ("per 1,000 good", "kg"), ("leaf yield", "%"), ("unexplained", "g"),
)  # fmt: skip


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
    rows.append((f"{told.closed} days" if told.closed > 1 else "1 day", told.totals))
    for head, cells in ((_COUNTED, _counted), (_LEAF, _leaf)):
        table = [("week", *head[1:]), *(cells(name, each) for name, each in rows)]
        yield out.table(table, right=frozenset(range(1, len(head))))
        if head is _COUNTED:
            yield "filler leaf at standard moisture"


def _words(line: DayLine) -> str:
    """What to say of a day without figures."""
    if line.figures is not None:
        return ""
    if line.open_since is None:
        return f"{line.date}  {line.state}"
    since = dt.datetime.fromisoformat(line.open_since).astimezone()
    says = f"{line.date}  open again since {since:%Y-%m-%d %H:%M}: {line.reason}"
    return says if len(says) <= WIDE else f"{says[: WIDE - 1]}…"


_COUNTED = (
    "date", "made", "good", "rejected", "rework", "first pass", "checks", "out", "off g",
)  # fmt: skip
_LEAF = ("date", "used kg", "kg/1000 good", "leaf yield", "unexplained g", "leaves beyond")


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
