"""`month`: the month's daily record of cigars and tobacco, as an aid."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Iterator
from pathlib import Path

from core.day.month import (
    BLANK,
    CAUTION,
    KNOWN,
    ROUNDING,
    DayRecord,
    Month,
    Quantities,
    entered_by,
    month,
)
from core.desk.figures import fixed
from core.problems import BadInput
from core.say import say, say_as
from floor.commands import out
from floor.commands.setting import setting
from floor.commands.spans import asked, found
from floor.commands.spreadsheet import csv_text
from floor.commands.written import write_new

_CIGARS = (
    *(say_as("month", "made"), say_as("month", "workers"), say_as("month", "panel")),
    *(say_as("month", "destr."), say_as("month", "removed")),
)
_TOBACCO = (
    *(say_as("month", "start"), say_as("month", "recv."), say_as("month", "used")),
    *(say_as("month", "lost"), say_as("month", "adj."), say_as("month", "end")),
)
_NOTES = (CAUTION, KNOWN, BLANK, ROUNDING)


def run(args: argparse.Namespace) -> int:
    """Print a month day by day and in total."""
    if args.json + args.csv + (args.html is not None) > 1:
        raise BadInput(say("give one of --json, --csv and --html"))
    if len(args.month) != len("2026-05"):
        raise BadInput(say('expected a month like 2026-05, found "{found}"', found=args.month))
    first, last = asked(args.month, None)
    with setting(args) as place:
        span = found(place, first, last)
    told = month(span.kept, span.unclosed)
    if args.json:
        out.json({"month": args.month, **told.json()})
    elif args.csv:
        rows = [(*DayRecord._fields[:-1], *Quantities._fields)]
        out.result(csv_text([*rows, *map(_flat, told.days)]).rstrip("\n"))
    elif args.html is not None:
        write_new(Path(args.html), _page(args.month, told))
        out.result(say("the month {month} is in {file}", month=args.month, file=args.html))
    else:
        for line in _lines(told):
            out.result(line)
    if not told.days:
        out.message(say("no day was recorded in {month}", month=args.month))
    for text in _missing(told):
        out.message(text)
    return 0


def _flat(day: DayRecord) -> tuple[object, ...]:
    return (*day[:-1], *day.quantities)


def _rows(told: Month) -> Iterator[tuple[str, ...]]:
    for day in told.days:
        name = f"{day.date} *" if day.corrected else day.date
        yield (name, *_cells(day.quantities))


def _cells(of: Quantities) -> Iterator[str]:
    """Thousands to three decimals, pounds to two; empty is not known."""
    for key, value in of._asdict().items():
        yield "" if value is None else fixed(value, 3 if key.endswith("thousands") else 2)


def _lines(told: Month) -> Iterator[str]:
    if told.days:
        names = (*(name + " k" for name in _CIGARS[:4]), _CIGARS[4])
        rows = [(say("cigars in thousands"), *names), *(row[:6] for row in _rows(told))]
        total = (say("total"), *_cells(told.totals))
        yield out.table([*rows, total[:6]], right=frozenset(range(1, 6)))
        rows = [(say("tobacco in pounds"), *_TOBACCO), *((r[0], *r[6:]) for r in _rows(told))]
        yield out.table([*rows, (total[0], *total[6:])], right=frozenset(range(1, 7)))
        if any(day.corrected for day in told.days):
            yield say("* corrected after it was closed")
    yield from _NOTES


def _missing(told: Month) -> Iterator[str]:
    for date in told.missing:
        by = entered_by(dt.date.fromisoformat(date))
        yield say(
            "missing: {date} is not closed; to be entered by the close of {by}: close {date}",
            date=date,
            by=by,
        )


def _page(name: str, told: Month) -> str:
    from core.papers.blocks import Block, Column, Para, Table  # noqa: PLC0415
    from core.papers.page import html_page  # noqa: PLC0415

    units = [out.tell(say("thousands"))] * 5 + ["lb"] * 6
    words = map(out.tell, (*_CIGARS, *_TOBACCO))
    columns = (
        Column(out.tell(say("day"))),
        *(Column(word, unit, right=True) for word, unit in zip(words, units, strict=True)),
    )
    total = (out.tell(say("total")), *_cells(told.totals))
    blocks: list[Block] = [Para(out.tell(text), "look") for text in (CAUTION, *_missing(told))]
    caption = out.tell(say("* corrected after it was closed"))
    blocks.append(Table(caption, columns, tuple(_rows(told)), (total,)))
    blocks += [Para(out.tell(text), "small") for text in _NOTES[1:]]
    return html_page(out.tell(say("Month {month}", month=name)), blocks, out.language())
